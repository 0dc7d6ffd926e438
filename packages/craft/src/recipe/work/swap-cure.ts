import { z } from 'zod'
import { InvalidInput, type Fault } from '../../calculation.ts'
import { strengthOf } from '../../cure/agent.ts'
import { swap, swapOutput } from '../../cure/swap.ts'
import { massKg, text } from '../../schema.ts'
import { computeRecipe } from '../compute.ts'
import { recipeComputeInput } from '../compute-schema.ts'
import { lookupOf } from '../lines.ts'
import { recipeSchema } from '../schema.ts'
import { withTotalSalt } from './total-salt.ts'

export const swapCureInput = z.strictObject({
  ...recipeComputeInput.pick({ recipe: true, materials: true }).shape,
  meatKg: massKg(),
  /** Id of the cure in the recipe, and of the one to take its place. */
  from: text(60),
  to: text(60),
})
export type SwapCureInput = z.infer<typeof swapCureInput>

export const swapCureOutput = z.strictObject({ ...swapOutput.shape, recipe: recipeSchema.optional() })
export type SwapCure = z.infer<typeof swapCureOutput>

/**
 * One cure of a recipe replaced by another at the same ingoing nitrite, with the plain salt changed so that all salt stays what it was; or why
 * it cannot be.
 * @throws InvalidInput where either is no cure with a composition, or the recipe does not hold the first
 */
export function swapCure({ recipe, materials, meatKg, from, to }: SwapCureInput): SwapCure {
  const { find } = lookupOf(materials)
  const faults: Fault[] = []
  const line = recipe.additions.find((a) => a.material === from)
  const [was, is] = [find(from)?.agent, find(to)?.agent]
  if (!line) faults.push({ path: 'from', message: `is ${JSON.stringify(from)}; allowed: a cure of the recipe` })
  else if (!was)
    faults.push({ path: 'from', message: 'has no composition as a cure; allowed: one whose nitrite is known' })
  if (!is) faults.push({ path: 'to', message: `is ${JSON.stringify(to)}; allowed: a cure whose composition is known` })
  if (!line || !was || !is) throw new InvalidInput(faults)
  const { cure } = computeRecipe({ recipe, meatKg, ...(materials ? { materials } : {}) })
  const swapped = swap({
    basisKg: meatKg,
    from: { kg: (line.pct * meatKg) / 100, composition: was },
    to: { composition: is },
    totalSaltKg: cure.addedSaltKg - (cure.saltFromCureKg - (strengthOf(was).salt * line.pct * meatKg) / 100),
  })
  if (swapped.toKg === null) return swapped
  const pct = Number(((100 * swapped.toKg) / meatKg).toFixed(8))
  const exchanged = {
    ...recipe,
    additions: recipe.additions.map((a) => (a === line ? { ...a, material: to, pct } : a)),
  }
  const salted = withTotalSalt({
    recipe: exchanged,
    totalSaltPct: cure.addedSaltPctOfMeat,
    ...(materials ? { materials } : {}),
  })
  if (!salted.recipe) return { ...swapped, possible: false, because: salted.because, toKg: null, saltAdjustKg: null }
  return { ...swapped, recipe: salted.recipe }
}
