import { judgeReworkLimits } from '../process/rework.ts'
import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import type { WeighedLine } from './weights.ts'

/** Share and age of the rework that was weighed into a batch; targets stand in for lines not weighed yet. */
export function judgeReworkUsed(facts: BatchFacts, lines: readonly WeighedLine[]): Finding[] {
  const taken = new Map(facts.lots.flatMap((l) => (l.origin && 'batch' in l.origin ? [[l.lot, l.on] as const] : [])))
  const parts = lines.flatMap((l) =>
    l.parts.length > 0 ? l.parts.map((p) => ({ lot: p.lot ?? l.line.lot, kg: p.kg })) : [{ lot: l.line.lot, kg: l.kg }],
  )
  const rework = parts.flatMap(({ lot, kg }) => {
    const on = lot === undefined ? undefined : taken.get(lot)
    return lot === undefined || on === undefined ? [] : [{ lot, kg, on }]
  })
  return judgeReworkLimits({
    rework,
    totalKg: parts.reduce((s, p) => s + p.kg, 0),
    on: facts.on,
    jurisdictions: facts.jurisdictions,
    own: facts.ownLimits,
  })
}
