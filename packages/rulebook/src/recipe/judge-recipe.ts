import { judgeCase } from '../evaluate.ts'
import type { Case, Finding } from '../rule.ts'
import { completeFacts } from './facts.ts'
import { completeMeasures, factsOf } from './measures.ts'
import { recipeRules } from './rules.ts'

const standardFacts = new Set(
  recipeRules.flatMap((r) => Object.keys(r.when ?? {}).filter((k) => k.startsWith('standard:'))),
)

/**
 * Findings of every rule on cure, composition, additives and process that has something to say of a recipe, for each place asked about and
 * those that hold everywhere. Facts: `recipe/facts.ts`; measures: `recipe/measures.ts`. What is not known gives `cannot-tell` with what
 * would settle it. A standard named in the facts (`standard:<id>`) that the rulebook does not hold gives no finding: see `standards`.
 */
export function judgeRecipe({ facts, measures, on, jurisdictions }: Case): Finding[] {
  const known = completeMeasures(measures)
  const complete = completeFacts(facts, factsOf(known), standardFacts)
  // Canada, Codex and the rest share rules of one shape; the order of the places asked for is kept.
  return judgeCase(recipeRules, { facts: complete, measures: known, on, jurisdictions })
}
