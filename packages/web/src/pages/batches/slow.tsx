import { gramsOf } from '@forcemeat/rulebook/batch/grams'
import type { MeasureView } from '../../state/views.ts'
import { Hang } from '../slow/hang.tsx'
import { PhForm } from '../slow/ph-form.tsx'
import { PieceForm } from '../slow/piece-form.tsx'
import { ProductForm } from '../slow/product-form.tsx'
import { SlowLinks } from '../slow/slow-batches.tsx'
import { MeasuredSoFar } from './measured-so-far.tsx'
import type { BatchProps } from './one-batch.tsx'

/** First weight of each marked piece, g. */
function startsOf(measures: readonly MeasureView[]): { piece: string; g: number }[] {
  const first = new Map<string, { taken: string; g: number }>()
  for (const { what, piece, value, unit, taken } of measures) {
    const g = value === undefined ? undefined : gramsOf(value, unit)
    if (what !== 'weight' || piece === undefined || g === undefined) continue
    const there = first.get(piece)
    if (!there || Date.parse(taken) < Date.parse(there.taken)) first.set(piece, { taken, g })
  }
  return [...first].map(([piece, { g }]) => ({ piece, g })).toSorted((a, b) => a.piece.localeCompare(b.piece))
}

/** The weeks between stuffing and the end: where it hangs, its pH, its marked pieces, its water activity. */
export function SlowPart({ batch: b, kitchen }: BatchProps) {
  return (
    <>
      <p class="actions">
        <SlowLinks batch={b.batch} kind={b.recipeKind} />
        <a class="button" href={`/curves?batch=${encodeURIComponent(b.batch)}`}>
          Attach a chamber’s or room’s log
        </a>
      </p>
      <div class="two live">
        <section>
          <h2 class="first">Where it hangs</h2>
          <Hang batch={b.batch} kitchen={kitchen} />
          <h2>pH</h2>
          <PhForm batch={b.batch} kitchen={kitchen} />
        </section>
        <section>
          <h2 class="first">Marked pieces</h2>
          <PieceForm batch={b.batch} kitchen={kitchen} starts={startsOf(b.measures)} />
          <h2>Water activity and analyses</h2>
          <ProductForm batch={b.batch} kitchen={kitchen} />
        </section>
      </div>
      <h2>Measured so far</h2>
      <MeasuredSoFar batch={b} kitchen={kitchen} />
    </>
  )
}
