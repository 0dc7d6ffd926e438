import type { BatchRecord } from '../../state/views.ts'
import { withNames } from '../../ui/material-field.tsx'

/** Said before all else of a batch that is made or out, and that by what is known now should not be. */
export function InDoubt({ batch: b }: { batch: BatchRecord }) {
  if (!b.doubt || b.doubt.length === 0) return null
  const here = b.packs.reduce((n, p) => n + p.hereCount, 0)
  const sent = b.packs.reduce((n, p) => n + p.shippedCount, 0)
  const base = `/batches/${encodeURIComponent(b.batch)}`
  return (
    <section class="faults" role="alert" aria-label="This batch stands in doubt">
      <h2 class="first">This batch stands in doubt</h2>
      <ul>
        {b.doubt.map((d) => (
          <li key={d}>{withNames(d)}</li>
        ))}
      </ul>
      <p>
        {here > 0 && `${here} of its packs are here: nothing of it goes out without a note that says why. `}
        {sent > 0 && `${sent} of its packs have left. `}
      </p>
      <p class="actions">
        <a class="button" href={`${base}/decide`}>
          Look again and decide
        </a>
        {sent > 0 && (
          <a class="button" href={`/record/recall/batch/${encodeURIComponent(b.batch)}`}>
            Find where its packs went
          </a>
        )}
      </p>
    </section>
  )
}
