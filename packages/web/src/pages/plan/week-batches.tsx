import type { Plan } from '@forcemeat/craft/plan/schema'
import { day, mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import type { WeekView } from './plan-views.ts'

type Batch = Plan['batches'][number]

const weekday = new Intl.DateTimeFormat(undefined, { weekday: 'long', timeZone: 'UTC' })

/** Batches under the day they are begun, each with what it takes and the way to plan it. */
export function WeekBatches({ week, plan }: { week: WeekView; plan: Plan }) {
  if (plan.batches.length === 0)
    return <p>Nothing needs to be begun: what is ordered is here, or comes of what is under way.</p>
  const days = Map.groupBy(plan.batches, (b) => b.start)
  return (
    <>
      <h2>Batches by day</h2>
      {[...days].map(([on, batches]) => (
        <section key={on} aria-label={`Batches of ${day(on)}`}>
          <h3>
            {weekday.format(new Date(`${on}T00:00:00Z`))}, {day(on)}
          </h3>
          <ul class="entries">
            {batches.map((b, i) => (
              <PlannedBatch key={`${b.product} ${i}`} batch={b} week={week} toBuy={plan.toBuy.map((t) => t.material)} />
            ))}
          </ul>
        </section>
      ))}
    </>
  )
}

function PlannedBatch({ batch: b, week, toBuy }: { batch: Batch; week: WeekView; toBuy: readonly string[] }) {
  const product = week.products.find((p) => p.recipe === b.product)
  const meatKg = b.mixKg * (product?.meatPerMix ?? 1)
  const query = new URLSearchParams({
    recipe: b.product,
    on: b.start,
    // To a hundredth of a kilogram: what a floor scale shows.
    meatKg: (Math.ceil(meatKg * 100 - 1e-6) / 100).toFixed(2),
  })
  const byMaterial = Map.groupBy(b.lots, (l) => l.material)
  return (
    <li>
      <div class="head-line">
        <p>
          <strong>{product?.name ?? b.product}</strong>: {mass(b.mixKg)} of mix, {mass(meatKg)} of meat; gives{' '}
          {mass(b.finishedKg)}, ready {day(b.ready)}
        </p>
        <a class="button" href={`/batches/plan?${query.toString()}`}>
          Plan this batch
        </a>
      </div>
      <details>
        <summary>What it takes from the lots</summary>
        {byMaterial.size === 0 && <p>Nothing: all of it is to be bought.</p>}
        <ul>
          {[...byMaterial].map(([material, lots]) => (
            <li key={material}>
              {materialName(material)}:{' '}
              {lots.map((l, i) => (
                <span key={l.lot}>
                  {i > 0 && ', '}
                  <a href={`/stock/${encodeURIComponent(l.lot)}`}>{l.lot}</a> {mass(l.kg)}
                </span>
              ))}
            </li>
          ))}
        </ul>
        {toBuy.length > 0 && <p class="quiet">What the lots do not cover stands under what to buy.</p>}
      </details>
    </li>
  )
}
