import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { Finding } from '../rule.ts'
import { mayHoldBeef } from './beef-origin.ts'
import type { BatchFacts } from './facts.ts'
import { recordFinding } from './own-rules.ts'

/**
 * A fresh product that is eaten as sold: nothing in the record of a raw product can show that it is safe, so that it stays open unless the
 * batch's own cook is proven.
 *
 * @param cooked whether a cook of the batch meets a lethality table
 */
export function judgeRawEaten(facts: BatchFacts, computed: RecipeComputed, cooked: boolean): Finding[] {
  const { kind, readyToEat } = facts.recipeBody
  if (kind !== 'fresh' || !readyToEat) return []
  if (cooked)
    return [
      recordFinding('rawEaten', { verdict: 'pass', because: 'the cook of the batch itself meets a lethality table' }),
    ]
  const germs = mayHoldBeef(facts, computed)
    ? 'E. coli O157:H7 (in beef), Salmonella and Listeria'
    : 'Salmonella and Listeria'
  return [
    recordFinding('rawEaten', {
      verdict: 'cannot-tell',
      because: `raw and eaten as sold, and nothing recorded shows that ${germs} were killed`,
      settle:
        'a logged cook that meets a lethality table, a study of this very product, or a lot held and tested; else sell it raw, to be cooked, with instructions',
    }),
  ]
}
