import type { BatchRecord } from '../../state/views.ts'
import { instant } from '../../ui/figures.ts'
import { purposeName } from '../../ui/words.ts'
import { AlsoOn } from '../curves/also-on.tsx'
import { SlowLinks } from '../slow/slow-batches.tsx'
import type { BatchProps } from './one-batch.tsx'

/** The curves recorded of a batch, each a link to its plot and findings. */
export function CurveList({ batch: { batch, curves, sharedLogs } }: { batch: BatchRecord }) {
  if (curves.length === 0) return <p class="quiet">No curve of {batch} is recorded yet.</p>
  return (
    <ul class="entries">
      {curves.map((c) => (
        <li key={c.seq}>
          <a class="lead" href={`/curves/${encodeURIComponent(batch)}/${c.seq}`}>
            {purposeName(c.purpose)}: {c.fileName}
          </a>
          <p class="where">recorded {instant(c.at)}</p>
          {c.note && <p>{c.note}</p>}
          <AlsoOn logs={sharedLogs} seq={c.seq} />
        </li>
      ))}
    </ul>
  )
}

/** What the loggers said of the batch; and where the next file is tied to it. */
export function BatchCurves({ batch: b }: BatchProps) {
  const code = encodeURIComponent(b.batch)
  const out = b.state === 'released' || b.state === 'packed'
  return (
    <>
      <h2 class="first">Curves of {b.batch}</h2>
      <CurveList batch={b} />
      <p class="actions">
        <SlowLinks batch={b.batch} kind={b.recipeKind} />
        <a class="button" href={`/curves?batch=${code}`}>
          Add a logger's file to {b.batch}
        </a>
        {!out && (
          <a class="button" href={`/curves/live/${code}`}>
            Follow it live
          </a>
        )}
      </p>
    </>
  )
}
