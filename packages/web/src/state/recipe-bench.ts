import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import type { Finding } from '@forcemeat/craft/finding'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { recipeSchema, type Jurisdiction, type Recipe } from '@forcemeat/craft/recipe/schema'
import { fermentDryOf, type FermentDry } from '@forcemeat/craft/recipe/ferment-dry/ferment-dry'
import { judgeFermentAndDry } from '@forcemeat/rulebook/recipe/ferment-dry'
import { judgeRecipe } from '@forcemeat/rulebook/recipe/judge-recipe'
import { whereSold, type PlaceSummary } from '@forcemeat/rulebook/recipe/where-sold'
import { today } from '../ui/figures.ts'
import type { Values } from './form.ts'
import { readRecipe } from './recipe-draft.ts'
import { readerOf } from './reader.ts'

export type Price = { readonly material: string; readonly costPerKg: number }

export type Worked = {
  readonly computed: RecipeComputed
  readonly findings: readonly Finding[]
  readonly places: readonly PlaceSummary[]
  readonly fermentDry: FermentDry
}

export type Bench = { readonly faults: readonly Fault[]; readonly recipe?: Recipe; readonly worked?: Worked }

/** A recipe at a size, with its findings: the core and the rulebook, in the page. @throws InvalidInput */
export function workOut(
  recipe: Recipe,
  meatKg: number,
  jurisdictions: readonly Jurisdiction[],
  prices: readonly Price[],
): Worked {
  const on = today()
  const computed = computeRecipe({ recipe, meatKg, on, jurisdictions: [...jurisdictions], prices: [...prices] })
  const fermentDry = fermentDryOf({ recipe, meatKg })
  const findings = [
    ...judgeRecipe({ facts: computed.facts, measures: computed.measures, on, jurisdictions }),
    ...judgeFermentAndDry(recipe, fermentDry, jurisdictions),
  ]
  return { computed, findings, places: whereSold(findings, jurisdictions), fermentDry }
}

/** What the bench says to the fields as they stand: faults, or the recipe worked out and judged. */
export function benchOf(
  values: Values,
  kept: Recipe | undefined,
  jurisdictions: readonly Jurisdiction[],
  prices: readonly Price[],
): Bench {
  const reader = readerOf(values)
  const read = readRecipe(reader, values, kept)
  const meatKg = reader.quantity('bench.meatKg', 'mass', { required: true })
  if (reader.faults.length > 0) return { faults: reader.faults }
  try {
    const recipe = parseOrThrow(recipeSchema, read)
    return { faults: [], recipe, worked: workOut(recipe, meatKg!, jurisdictions, prices) }
  } catch (error) {
    if (error instanceof InvalidInput)
      return { faults: error.faults.map((f) => ({ ...f, path: f.path.replace(/^recipe\./, '') })) }
    throw error
  }
}
