import type { NameQuestion } from '@forcemeat/craft/declare/product-name'
import type { Finding } from '@forcemeat/craft/finding'
import { judgeRecipe } from '../recipe/judge-recipe.ts'
import { recipeFacts } from '../recipe/facts.ts'
import { recipeRules } from '../recipe/rules.ts'

/** Rules that one standard brings, in one place. */
const rulesOf = (standard: string): ReadonlySet<string> =>
  new Set(recipeRules.filter((r) => Object.hasOwn(r.when ?? {}, `standard:${standard}`)).map((r) => r.id))

/** Findings of the composition rules of one reserved name for a product; none of the rules that hold whatever its name. */
export function judgeName(q: NameQuestion): Finding[] {
  const own = rulesOf(q.standard)
  return judgeRecipe({
    facts: {
      ...recipeFacts({ kind: q.kind, smoked: q.smoked, route: 'comminuted', standards: [q.standard] }, q.species),
      ...Object.fromEntries(q.species.map((s) => [`species:${s}`, true])),
    },
    measures: Object.fromEntries(Object.entries(q.measures).map(([name, value]) => [name, { value }])),
    on: q.on,
    jurisdictions: [q.jurisdiction],
  }).filter((f) => own.has(f.rule))
}
