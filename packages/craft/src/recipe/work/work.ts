import { z } from 'zod'
import { computeRecipe } from '../compute.ts'
import { recipeComputeInput, type RecipeComputed } from '../compute-schema.ts'
import { partsOf } from '../lines.ts'
import { casingOf, casingOfOutput, stuffConditions } from './casing-of.ts'
import { costConditions, costOf, costOfOutput } from './cost-of.ts'
import { iceConditions, iceOf, iceOfOutput } from './ice-of.ts'

export const recipeWorkInput = z.strictObject({
  ...recipeComputeInput.omit({ on: true, jurisdictions: true, pickle: true }).shape,
  ice: iceConditions.optional(),
  stuff: stuffConditions.optional(),
  cost: costConditions.optional(),
})
export type RecipeWorkInput = z.infer<typeof recipeWorkInput>

export const recipeWorkOutput = z.strictObject({
  ice: iceOfOutput.optional(),
  casing: casingOfOutput,
  cost: costOfOutput,
})
export type RecipeWork = z.infer<typeof recipeWorkOutput>

/**
 * What a recipe asks of the bowl, the stuffer and the purse at its size: ice for a final temperature, casing and links that meet the pack's
 * net weight after the loss, and the whole cost. `computed` may be handed in where it is at hand.
 */
export function workOfRecipe(input: RecipeWorkInput, computed?: RecipeComputed): RecipeWork {
  const { ice, stuff = {}, cost = {}, ...rest } = input
  const made = computed ?? computeRecipe(rest)
  const casing = casingOf(input.recipe, made, stuff)
  return {
    ...(ice === undefined ? {} : { ice: iceOf(input.recipe, partsOf(rest).parts, made, ice) }),
    casing,
    cost: costOf(input.recipe, made, casing, stuff, cost),
  }
}
