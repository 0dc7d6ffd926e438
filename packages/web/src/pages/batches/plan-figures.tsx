import type { PlanWorked } from '../../state/batch-plan.ts'
import { mass, money, number, percent } from '../../ui/figures.ts'
import { overall } from '@forcemeat/craft/finding'
import { overallWords } from '../../ui/overall-words.ts'
import { Findings } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'

/** Nothing with a price is no cost of nothing: it is not known. */
const costWords = ({ knownTotal, unpriced }: PlanWorked['computed']['cost']): string =>
  unpriced.length === 0
    ? `cost ${money(knownTotal)}`
    : knownTotal > 0
      ? `cost ${money(knownTotal)} for what has a price`
      : 'no price is known'

/** What the lines come to, before anything is weighed. */
export function PlanFigures({ worked: { computed: c, sheet, findings } }: { worked: PlanWorked }) {
  const notes = [...new Set([...sheet.notes, ...c.notes])]
  const said = overallWords(overall(findings), findings)
  return (
    <section aria-label="What the lines come to">
      <h2>What the lines come to</h2>
      <p class="figure-line">
        {mass(c.totals.totalKg)} in all, {mass(c.totals.meatKg)} of it meat; fat {percent(c.composition.fatPct)}
        {c.fatSdPct !== undefined && <> ± {percent(c.fatSdPct, 2)}</>}, protein {percent(c.composition.proteinPct)},
        added water {percent(c.addedWaterPct)}; {costWords(c.cost)}.
      </p>
      {c.cure.known ? (
        <Working
          figure={<>ingoing nitrite {number(c.cure.nitritePpm)} ppm of the meat block</>}
          steps={c.cure.working}
        />
      ) : (
        <p>{c.cure.because}</p>
      )}
      {notes.map((n) => (
        <p class="hint" key={n}>
          {n}
        </p>
      ))}
      <details open={findings.some((f) => f.verdict === 'fail' && f.weight !== 'advice')}>
        <summary>
          Findings on the recipe as laid out: {said.label.toLowerCase()}
          {said.more}
        </summary>
        <Findings findings={findings} />
      </details>
    </section>
  )
}
