import { useResource } from '../../state/resource.ts'
import type { BatchView } from '../../state/views.ts'
import { day } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'

/** Batches listed at once. */
const MOST = 200

/** Links to the two slow curves of a batch that has them. */
export function SlowLinks({ batch, kind }: { batch: string; kind: string }) {
  if (kind !== 'fermented' && kind !== 'dried') return null
  const at = encodeURIComponent(batch)
  return (
    <>
      <a class="button" href={`/curves/ferment/${at}`}>
        Fermentation
      </a>
      <a class="button" href={`/curves/dry/${at}`}>
        Drying
      </a>
    </>
  )
}

/** What ferments or dries now: each with its two curves. */
export function SlowBatches() {
  const found = useResource<{ batches: readonly BatchView[] }>(`/api/batches?limit=${MOST}`).value.value
  const slow = (found?.batches ?? []).filter(
    (b) => (b.recipeKind === 'fermented' || b.recipeKind === 'dried') && b.state !== 'released' && b.state !== 'packed',
  )
  if (slow.length === 0) return null
  return (
    <section>
      <h2>Fermenting and drying</h2>
      <LongList items={slow} what="batches" text={(b) => `${b.batch} ${b.recipeName}`} empty={null}>
        {(shown) => (
          <ul class="entries">
            {shown.map((b) => (
              <li key={b.batch}>
                <strong>{b.batch}</strong>{' '}
                <span class="where">
                  {b.recipeName}, made {day(b.on)}
                </span>
                <p class="actions">
                  <SlowLinks batch={b.batch} kind={b.recipeKind} />
                </p>
              </li>
            ))}
          </ul>
        )}
      </LongList>
    </section>
  )
}
