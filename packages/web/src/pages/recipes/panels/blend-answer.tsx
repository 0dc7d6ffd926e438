import type { BlendOutput, Price } from '@forcemeat/craft/blend/schema'
import type { LotView } from '../../../state/views.ts'
import { mass, money, number, percent, pricePerMass } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Sheet } from '../../../ui/sheet.tsx'
import { VerdictMark } from '../../../ui/verdict.tsx'

const partName = (id: string, lots: readonly LotView[]): string => {
  const lot = lots.find((l) => l.lot === id)
  if (lot) return `${materialName(lot.material)}, lot ${id}`
  const [, material] = /^\+ (\S+)/.exec(id) ?? []
  return materialName(material ?? id)
}

/** What a limit or a lot is worth, in a sentence. */
export function worth(p: Price, lots: readonly LotView[]): string {
  const what = partName(p.of, lots)
  const batch = p.batch === undefined ? '' : ` (${p.batch})`
  if (p.side === 'batch') return `One more kilogram of the batch${batch} costs ${money(p.worthPerKg)}.`
  if (p.side === 'available') return `One more kilogram of ${what} is worth ${money(p.worthPerKg)}.`
  return `Loosening “${what} ${p.side === 'max' ? 'at most' : 'at least'}”${batch} by a point is worth ${number(p.worthPerKg, 3)} on each kilogram of the batch.`
}

/** Weights, cost and prices of a blend, or what clashes and the least that would free it. */
export function BlendAnswer({ out, lots }: { out: BlendOutput; lots: readonly LotView[] }) {
  if (out.status !== 'optimal') return <Clash out={out} />
  return (
    <>
      <p>
        <VerdictMark verdict="pass" label="Every limit holds" /> {out.because}: the meat in it costs{' '}
        {pricePerMass(out.costPerKg)} of mix, fat {percent(out.composition?.fatPct)}
        {out.fatSdPct !== undefined && <> ± {percent(out.fatSdPct, 2)}</>}, protein{' '}
        {percent(out.composition?.proteinPct)}.
      </p>
      {out.confidence && (
        <p class="hint">
          Fat is kept {percent(out.confidence.marginPct, 2)} away from its limit, {number(out.confidence.z, 3)} standard
          deviations, so that it holds in {number(out.confidence.probabilityPct)} of 100 batches; that costs{' '}
          {pricePerMass(out.confidence.costPerKg)}.
        </p>
      )}
      <Sheet
        caption="Weights of the blend"
        rows={out.lines.filter((l) => l.kg > 0)}
        rowKey={(l) => l.id}
        columns={[
          { head: 'Part', names: true, cell: (l) => partName(l.id, lots) },
          { head: 'Weight', num: true, cell: (l) => mass(l.kg) },
          { head: 'Of the mix', num: true, cell: (l) => percent(l.pct) },
          { head: 'Boxes', num: true, cell: (l) => (l.units === undefined ? '' : number(l.units)) },
        ]}
      />
      <Worths prices={out.prices} lots={lots} />
    </>
  )
}

/** An addition at its share is a fact of the recipe, not a limit anybody would loosen. */
const chosen = (p: Price): boolean => !p.of.startsWith('+ ')

export const Worths = ({ prices, lots }: { prices: readonly Price[]; lots: readonly LotView[] }) => (
  <ul>
    {prices.filter(chosen).map((p) => (
      <li key={p.of + p.side + (p.batch ?? '')}>{worth(p, lots)}</li>
    ))}
  </ul>
)

type Clashing = Pick<BlendOutput, 'because' | 'conflict' | 'relax' | 'status'>

/** The smallest set of limits that cannot hold together, and what would free them. */
export function Clash({ out }: { out: Clashing }) {
  return (
    <>
      <p>
        <VerdictMark
          verdict={out.status === 'infeasible' ? 'fail' : 'cannot-tell'}
          label={out.status === 'infeasible' ? 'Nothing fits' : 'Cannot tell'}
        />{' '}
        {out.conflict ? 'These cannot hold together; without any one of them the rest can:' : out.because}
      </p>
      {out.conflict && (
        <ul>
          {out.conflict.map((c) => (
            <li key={c.text}>{c.text}</li>
          ))}
        </ul>
      )}
      {out.relax && out.relax.alone.length > 0 && (
        <>
          <p>Any one of these frees it:</p>
          <ul>
            {out.relax.alone.map((r) => (
              <li key={r.text}>{r.text}</li>
            ))}
          </ul>
        </>
      )}
      {out.relax && out.relax.together.length > 0 && (
        <>
          <p>The least change in all:</p>
          <ul>
            {out.relax.together.map((r) => (
              <li key={r.text}>{r.text}</li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}
