import { judgeReworkLimits } from '../process/rework.ts'
import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { reworkOf } from './rework-of.ts'
import type { WeighedLine } from './weights.ts'

/** Share and age of the rework that was weighed into a batch, parts split off it too; targets stand in for lines not weighed yet. */
export function judgeReworkUsed(facts: BatchFacts, lines: readonly WeighedLine[]): Finding[] {
  const taken = reworkOf(facts)
  const parts = lines.flatMap((l) =>
    l.parts.length > 0 ? l.parts.map((p) => ({ lot: p.lot ?? l.line.lot, kg: p.kg })) : [{ lot: l.line.lot, kg: l.kg }],
  )
  const rework = parts.flatMap(({ lot, kg }) => {
    const found = lot === undefined ? undefined : taken.get(lot)
    return found === undefined
      ? []
      : [{ lot: found.of === undefined ? found.lot : `${found.lot} (of ${found.of})`, kg, on: found.on }]
  })
  return judgeReworkLimits({
    rework,
    totalKg: parts.reduce((s, p) => s + p.kg, 0),
    on: facts.on,
    jurisdictions: facts.jurisdictions,
    own: facts.ownLimits,
  })
}
