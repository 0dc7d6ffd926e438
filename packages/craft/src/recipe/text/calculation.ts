import { z } from 'zod'
import { defineCalculation } from '../../calculation.ts'
import { text } from '../../schema.ts'
import type { Source } from '../../source.ts'
import { recipeSchema, type Recipe } from '../schema.ts'
import { parseRecipe } from './parse.ts'
import { printRecipe } from './print.ts'

const format: Source = {
  document: 'Recipe text, the format of this project',
  section: 'docs/formats/recipe-text.md',
  edition: 'version 1',
  mark: 'computed',
}
const recipe: Recipe = {
  name: 'Smoked sausage, coarse',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [{ material: 'pork-butt', pct: 100 }],
  additions: [{ material: 'salt', pct: 1.6 }],
  cook: { targetCoreC: 70, lossPct: 8 },
}

export const recipeTextCalculations = [
  defineCalculation({
    name: 'recipe.text',
    title: 'A recipe as text',
    summary: "Writes a whole recipe in the project's own text format, a line a fact, to be read, mailed and kept.",
    input: z.strictObject({ recipe: recipeSchema }),
    output: z.strictObject({ text: z.string() }),
    sources: [format],
    example: { recipe },
    compute: (input) => ({ text: printRecipe(input.recipe) }),
  }),
  defineCalculation({
    name: 'recipe.from-text',
    title: 'A recipe from text',
    summary:
      "Reads a whole recipe from the project's own text format; every line that cannot be read is named by its number.",
    input: z.strictObject({ text: text(200_000) }),
    output: z.strictObject({ recipe: recipeSchema }),
    sources: [format],
    example: { text: printRecipe(recipe) },
    compute: (input) => ({ recipe: parseRecipe(input.text) }),
  }),
]
