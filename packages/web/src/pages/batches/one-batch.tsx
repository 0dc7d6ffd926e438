import { useResource } from '../../state/resource.ts'
import type { BatchRecord, KitchenView } from '../../state/views.ts'
import { day, mass } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { stateName } from '../../ui/words.ts'
import { BatchCurves } from './batch-curves.tsx'
import { Decide } from './decide.tsx'
import { History } from './history.tsx'
import { Measures } from './measures.tsx'
import { InDoubt } from './in-doubt.tsx'
import { Overview } from './overview.tsx'
import { Packs } from './packs.tsx'
import { SlowPart } from './slow.tsx'
import { Weigh } from './weigh.tsx'

export type BatchProps = { readonly batch: BatchRecord; readonly kitchen: KitchenView }

const parts = [
  { at: 'overview', title: 'Overview', view: Overview },
  { at: 'weigh', title: 'Weigh', view: Weigh },
  { at: 'measures', title: 'Measures', view: Measures },
  { at: 'slow', title: 'Ferment and dry', view: SlowPart },
  { at: 'curves', title: 'Curves', view: BatchCurves },
  { at: 'decide', title: 'Findings and decision', view: Decide },
  { at: 'packs', title: 'Packs', view: Packs },
  { at: 'history', title: 'History', view: History },
] as const

/** Parts a batch of a kind has: only what sours or dries has weeks of its own. */
const partsOf = (kind: string) => parts.filter((p) => p.at !== 'slow' || kind === 'fermented' || kind === 'dried')

/** One batch: one part of its work a screen. */
export function OneBatch({ batch, part, kitchen }: { batch: string; part: string; kitchen: KitchenView }) {
  const found = useResource<BatchRecord>(`/api/batches/${encodeURIComponent(batch)}`)
  const chosen = parts.find((p) => p.at === part)
  const base = `/batches/${encodeURIComponent(batch)}`
  return (
    <>
      <p>
        <a href="/batches">All batches</a>
      </p>
      {found.value.error?.status === 404 && !found.value.value && <h1>No such batch</h1>}
      <Shown of={found.value} what="the batch">
        {(b) => (
          <>
            <h1>
              {b.batch} <span class="where">{b.recipeName}</span>
            </h1>
            <p>
              Made {day(b.on)} from version {b.version}, {mass(b.meatKg)} of meat;{' '}
              <strong class={b.state === 'held' ? 'late' : undefined}>{stateName(b.state)}</strong>
            </p>
            <InDoubt batch={b} />
            <nav class="parts" aria-label="Parts of the batch">
              {partsOf(b.recipeKind).map((p) => (
                <a
                  key={p.at}
                  href={p.at === 'overview' ? base : `${base}/${p.at}`}
                  {...(p.at === part ? { 'aria-current': 'page' as const } : {})}
                >
                  {p.title}
                </a>
              ))}
            </nav>
            {chosen ? <chosen.view batch={b} kitchen={kitchen} /> : <p>There is no such part of a batch.</p>}
          </>
        )}
      </Shown>
    </>
  )
}
