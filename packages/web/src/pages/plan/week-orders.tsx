import { day, mass } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { useRecipes } from './recipe-names.ts'
import type { WeekLine, WeekView } from './plan-views.ts'

/** Lines of open orders and what becomes of each: those at risk first. */
export function WeekOrders({ week }: { week: WeekView }) {
  const { nameOf } = useRecipes()
  const bad = (l: WeekLine): boolean => l.lateKg > 0 || l.shortKg > 0
  const rows = week.lines.toSorted((a, b) => Number(bad(b)) - Number(bad(a)) || a.due.localeCompare(b.due))
  return (
    <>
      <h2>Orders</h2>
      <LongList
        items={rows}
        what="order lines"
        text={(l) => `${l.order} ${l.customer} ${nameOf(l.recipe)}`}
        empty="No order line falls into these days."
      >
        {(shown) => (
          <Sheet
            caption="Order lines"
            rows={shown}
            rowKey={(l) => l.id}
            columns={[
              {
                head: 'Order',
                names: true,
                keep: true,
                cell: (l) => <a href={`/plan/orders/${encodeURIComponent(l.order)}`}>{l.order}</a>,
              },
              { head: 'Due', keep: true, cell: (l) => day(l.due) },
              { head: 'Customer', cell: (l) => l.customer },
              { head: 'Product', cell: (l) => nameOf(l.recipe) },
              { head: 'Weight', num: true, cell: (l) => mass(l.kg) },
              { head: 'What becomes of it', cell: (l) => <Outcome line={l} /> },
            ]}
          />
        )}
      </LongList>
    </>
  )
}

function Outcome({ line: l }: { line: WeekLine }) {
  if (l.lateKg <= 0 && l.shortKg <= 0) return <>in time</>
  return (
    <span class="late">
      {l.lateKg > 0 && `${mass(l.lateKg)} late${l.done ? `, done ${day(l.done)}` : ''}`}
      {l.lateKg > 0 && l.shortKg > 0 && '; '}
      {l.shortKg > 0 && `${mass(l.shortKg)} short`}
    </span>
  )
}

/** Lines that need not be begun in these days. */
export function Later({ week }: { week: WeekView }) {
  const { nameOf } = useRecipes()
  return (
    <>
      <h2>Not yet to be begun</h2>
      <LongList
        items={week.later}
        what="later order lines"
        text={(l) => `${l.order} ${l.customer} ${nameOf(l.recipe)}`}
        empty=""
      >
        {(shown) => (
          <Sheet
            caption="Order lines not yet to be begun"
            rows={shown}
            rowKey={(l) => l.id}
            columns={[
              {
                head: 'Order',
                names: true,
                keep: true,
                cell: (l) => <a href={`/plan/orders/${encodeURIComponent(l.order)}`}>{l.order}</a>,
              },
              { head: 'Customer', cell: (l) => l.customer },
              { head: 'Product', cell: (l) => nameOf(l.recipe) },
              { head: 'Weight', num: true, cell: (l) => mass(l.kg) },
              { head: 'Due', keep: true, cell: (l) => day(l.due) },
              { head: 'Begin by', keep: true, cell: (l) => day(l.startBy) },
            ]}
          />
        )}
      </LongList>
    </>
  )
}
