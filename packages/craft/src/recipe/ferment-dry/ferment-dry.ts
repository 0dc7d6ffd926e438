import { z } from 'zod'
import { defineCalculation } from '../../calculation.ts'
import { acidSources } from '../../ferment/acid-schema.ts'
import { diffusivitySources } from '../../dry/diffusivity.ts'
import { sorptionSources } from '../../dry/sorption.ts'
import { recipeComputeInput } from '../compute-schema.ts'
import { partsOf } from '../lines.ts'
import type { Recipe } from '../schema.ts'
import { acidOf, acidOfOutput } from './acid-of.ts'
import { dryingOf, dryingOfOutput } from './drying-of.ts'

export const fermentDryInput = recipeComputeInput.pick({
  recipe: true,
  meatKg: true,
  materials: true,
  lots: true,
  lines: true,
})
export const fermentDryOutput = z.strictObject({
  /** Absent where the recipe ferments nothing. */
  acid: acidOfOutput.optional(),
  /** Absent where the recipe dries nothing. */
  drying: dryingOfOutput.optional(),
})
export type FermentDry = z.infer<typeof fermentDryOutput>

/** What a recipe's own parts say of its fermentation and drying. @throws InvalidInput naming a material that is not known */
export function fermentDryOf(input: z.infer<typeof fermentDryInput>): FermentDry {
  const { parts } = partsOf(input)
  const [acid, drying] = [acidOf(input.recipe, parts), dryingOf(input.recipe, parts)]
  return { ...(acid === undefined ? {} : { acid }), ...(drying === undefined ? {} : { drying }) }
}

const example: Recipe = {
  name: 'Dry sausage, coarse',
  kind: 'dried',
  smoked: false,
  readyToEat: true,
  meat: [
    { material: 'pork-shoulder-trim', pct: 75 },
    { material: 'pork-back-fat', pct: 25 },
  ],
  additions: [
    { material: 'salt', pct: 2.4 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
    { material: 'dextrose-monohydrate', pct: 0.4 },
    { material: 'starter-culture', pct: 0.02 },
  ],
  casing: { calibreMm: 60 },
  ferment: { targetPh: 5.2, startPh: 5.8, stages: [{ hours: 60, tempC: 22, rhPct: 92 }] },
  dry: {
    lossPct: 36,
    targetAw: 0.9,
    stages: [
      { days: 10, tempC: 16, rhPct: 86 },
      { days: 30, tempC: 14, rhPct: 79 },
    ],
  },
}

export const fermentDryCalculations = [
  defineCalculation({
    name: 'recipe.ferment-dry',
    title: 'What a recipe’s parts say of its fermentation and drying',
    summary:
      "A band of end pH from the recipe's own sugars, acidulant and lean, and the drying it plans as dry.course takes it, with what its stated loss leaves; or why either cannot be told.",
    input: fermentDryInput,
    output: fermentDryOutput,
    sources: [...acidSources, ...sorptionSources, ...diffusivitySources],
    example: { recipe: example, meatKg: 10 },
    compute: fermentDryOf,
  }),
]
