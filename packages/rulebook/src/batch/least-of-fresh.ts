import { inForce } from '../evaluate.ts'
import { recipeRules } from '../recipe/rules.ts'
import type { Case, Finding } from '../rule.ts'
import { countedWithRework } from './rework-additives.ts'

/** Facts of the recipe that say an additive is not in the batch: with rework the measures say it. */
const unlessBrought = [
  'cured',
  'nitrateAdded',
  'acceleratorAdded',
  'gdlAdded',
  'binderAdded',
  'phosphateAdded',
] as const
export const factsWithRework = (facts: Case['facts']): Case['facts'] =>
  Object.fromEntries(
    Object.entries(facts).filter(([k, v]) => v !== false || !(unlessBrought as readonly string[]).includes(k)),
  )

const ruleOf = new Map(recipeRules.map((r) => [r.id, r]))
const rank = { fail: 0, 'cannot-tell': 1, pass: 2 }

/**
 * Findings of the batch with its rework, each limit that asks for a least amount held against what was freshly added alone: what reacted once
 * does not protect again.
 */
export function leastOfFresh(all: readonly Finding[], fresh: readonly Finding[], on: string): Finding[] {
  return all.map((f) => {
    const rule = ruleOf.get(f.rule)
    const counted = rule && [rule.measure ?? '', ...(rule.sum ?? []).map((x) => x.measure)]
    if (!rule || !counted?.some((m) => countedWithRework.includes(m)) || inForce(rule, on)?.min === undefined) return f
    const own = fresh.find((g) => g.rule === f.rule && g.jurisdiction === f.jurisdiction)
    return own && rank[own.verdict] < rank[f.verdict]
      ? { ...own, because: `${own.because}; what rework brings does not count towards a least amount` }
      : f
  })
}
