import type { PageProps } from '../../app.tsx'
import { address } from '../../router.ts'
import { useResource } from '../../state/resource.ts'
import type { BatchView } from '../../state/views.ts'
import { day, mass } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { stateName } from '../../ui/words.ts'
import { OneBatch } from './one-batch.tsx'
import { PlanBatch } from './plan.tsx'

/** Batches, the newest first; planning one; one of them from weigh sheet to shipment. */
export function Batches({ path, kitchen }: PageProps) {
  const [first, part = 'overview'] = path
  if (first === 'plan') return <PlanBatch recipe={address.value.query.get('recipe')} kitchen={kitchen} />
  if (first) return <OneBatch key={first} batch={first} part={part} kitchen={kitchen} />
  return <AllBatches />
}

function AllBatches() {
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=1000')
  return (
    <>
      <div class="head-line">
        <h1>Batches</h1>
        <a class="button main" href="/batches/plan">
          Plan a batch
        </a>
      </div>
      <Shown of={batches.value} what="the batches">
        {({ batches: rows }) => (
          <LongList
            items={rows.toSorted((a, b) => Number(b.inDoubt ?? false) - Number(a.inDoubt ?? false))}
            what="batches"
            most={1000}
            text={(b) => `${b.batch} ${b.recipe} ${b.recipeName} ${stateName(b.state)} ${b.inDoubt ? 'in doubt' : ''}`}
            empty="No batch yet. Plan one from a recipe and the lots in stock."
          >
            {(shown) => (
              <Sheet
                caption="Batches"
                rows={shown}
                rowKey={(b) => b.batch}
                columns={[
                  {
                    head: 'Batch',
                    keep: true,
                    names: true,
                    cell: (b) => <a href={`/batches/${encodeURIComponent(b.batch)}`}>{b.batch}</a>,
                  },
                  { head: 'Made from', cell: (b) => `${b.recipeName}, version ${b.version}` },
                  { head: 'On', keep: true, cell: (b) => day(b.on) },
                  { head: 'Meat', num: true, cell: (b) => mass(b.meatKg) },
                  { head: 'Weighed', num: true, cell: (b) => `${b.weighedLines} of ${b.lines.length}` },
                  {
                    head: 'State',
                    cell: (b) => (
                      <span class={b.state === 'held' || b.inDoubt ? 'late' : undefined}>
                        {stateName(b.state)}
                        {b.inDoubt && ', in doubt'}
                      </span>
                    ),
                  },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
    </>
  )
}
