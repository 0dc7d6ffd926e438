import type { Plan } from '@forcemeat/craft/plan/schema'
import { useResource } from '../../state/resource.ts'
import { day, mass, money, today } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { stateName } from '../../ui/words.ts'
import type { PricesView, PriceView, WeekView } from './plan-views.ts'

/** The price in force of a material: the newest by any list. */
const priceOf = (prices: readonly PriceView[], material: string): PriceView | undefined =>
  prices.findLast((p) => p.material === material && p.from <= today())

/** What the plan needs bought and by when, with what it costs by the price lists. */
export function ToBuy({ plan }: { plan: Plan }) {
  const prices = useResource<PricesView>('/api/prices').value.value?.prices ?? []
  if (plan.toBuy.length === 0) return null
  const rows = plan.toBuy
    .toSorted((a, b) => a.by.localeCompare(b.by))
    .map((b) => ({ ...b, price: priceOf(prices, b.material) }))
  return (
    <>
      <h2>To buy</h2>
      <Sheet
        caption="To buy"
        rows={rows}
        rowKey={(r) => r.material}
        columns={[
          { head: 'Material', names: true, cell: (r) => materialName(r.material) },
          { head: 'At least', num: true, cell: (r) => mass(r.kg) },
          { head: 'Packs', num: true, cell: (r) => packs(r.kg, r.price) },
          { head: 'Here by', keep: true, cell: (r) => day(r.by) },
          { head: 'Supplier', cell: (r) => r.price?.supplier ?? '–' },
          { head: 'Costs about', num: true, cell: (r) => (r.price ? money(r.kg * r.price.costPerKg) : '–') },
        ]}
      />
    </>
  )
}

const packs = (kg: number, price: PriceView | undefined): string =>
  price?.packKg ? `${Math.ceil(kg / price.packKg - 1e-6)} ${price.unit ?? 'packs'}` : '–'

/** Lots the plan leaves past their date. */
export function Expiring({ plan }: { plan: Plan }) {
  if (plan.expiring.length === 0) return null
  return (
    <>
      <h2>Lots left past their date</h2>
      <Sheet
        caption="Lots left past their date"
        rows={plan.expiring.toSorted((a, b) => a.useBy.localeCompare(b.useBy))}
        rowKey={(l) => l.lot}
        columns={[
          {
            head: 'Lot',
            names: true,
            keep: true,
            cell: (l) => <a href={`/stock/${encodeURIComponent(l.lot)}`}>{l.lot}</a>,
          },
          { head: 'Material', cell: (l) => materialName(l.material) },
          { head: 'Not taken', num: true, cell: (l) => mass(l.kg) },
          { head: 'Use by', keep: true, cell: (l) => <span class="late">{day(l.useBy)}</span> },
        ]}
      />
    </>
  )
}

/** Why the plan does not count on a batch; nothing where it does. */
const notCounted = ({ state, fails }: WeekView['underWay'][number]): string =>
  state === 'held' ? 'on hold' : fails ? `fails ${fails.join('; ')}` : ''

/** Batches already begun or planned, which the plan counts on. */
export function UnderWay({ week }: { week: WeekView }) {
  if (week.underWay.length === 0) return null
  return (
    <>
      <h2>Already under way</h2>
      <p class="hint">
        What dries comes out on the likely day of its own forecast, as on Today and in the calendar of its room; orders
        are promised on its latest day.
      </p>
      <Sheet
        caption="Already under way"
        rows={week.underWay.toSorted((a, b) => a.ready.localeCompare(b.ready))}
        rowKey={(b) => b.batch}
        columns={[
          {
            head: 'Batch',
            names: true,
            keep: true,
            cell: (b) => <a href={`/batches/${encodeURIComponent(b.batch)}`}>{b.batch}</a>,
          },
          { head: 'Product', cell: (b) => b.recipeName },
          { head: 'State', cell: (b) => stateName(b.state) },
          { head: 'Begun', keep: true, cell: (b) => day(b.on) },
          {
            head: 'Will give',
            num: true,
            cell: (b) => (notCounted(b) ? <span class="late">not counted: {notCounted(b)}</span> : mass(b.finishedKg)),
          },
          { head: 'Likely out', keep: true, cell: (b) => (b.comesOut === undefined ? '–' : day(b.comesOut)) },
          { head: 'Counted on from', keep: true, cell: (b) => (notCounted(b) ? '–' : day(b.ready)) },
        ]}
      />
    </>
  )
}
