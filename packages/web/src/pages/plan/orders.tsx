import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import { day, mass, today } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { OrderForm } from './order-form.tsx'
import type { OrderView } from './plan-views.ts'
import { useRecipes } from './recipe-names.ts'

/** Orders, those due first on top. */
export function Orders() {
  const all = useResource<{ orders: readonly OrderView[] }>('/api/orders')
  const closed = useMemo(() => signal(false), [])
  const { nameOf } = useRecipes()
  return (
    <>
      <div class="head-line">
        <h1>Orders</h1>
        <a class="button" href="/stock/import?kind=orders">
          From a file
        </a>
      </div>
      <label class="tick">
        <input type="checkbox" checked={closed.value} onInput={(e) => (closed.value = e.currentTarget.checked)} />
        Show orders that are closed
      </label>
      <Shown of={all.value} what="the orders">
        {({ orders }) => (
          <LongList
            items={orders.filter((o) => closed.value || o.closed === undefined)}
            what="orders"
            text={(o) => `${o.order} ${o.customer} ${o.lines.map((l) => nameOf(l.recipe)).join(' ')}`}
            empty={
              <p>
                No order is open. Take the first one below, or bring them in from a file: then the plan says what to
                make when.
              </p>
            }
          >
            {(shown) => (
              <Sheet
                caption="Orders"
                rows={shown}
                rowKey={(o) => o.order}
                columns={[
                  {
                    head: 'Order',
                    names: true,
                    keep: true,
                    cell: (o) => <a href={`/plan/orders/${encodeURIComponent(o.order)}`}>{o.order}</a>,
                  },
                  { head: 'Due', keep: true, cell: (o) => <Due order={o} /> },
                  { head: 'Customer', cell: (o) => o.customer },
                  {
                    head: 'What',
                    cell: (o) =>
                      o.lines.map((l, i) => (
                        <p key={i}>
                          {mass(l.kg)} {nameOf(l.recipe)}
                        </p>
                      )),
                  },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
      <h2>Take an order</h2>
      <OrderForm />
    </>
  )
}

export function Due({ order: o }: { order: OrderView }) {
  if (o.closed)
    return (
      <>
        {o.closed.outcome} {day(o.closed.on)}
      </>
    )
  return o.due < today() ? <span class="late">{day(o.due)}, past</span> : <>{day(o.due)}</>
}
