import { defineCalculation } from '../calculation.ts'
import type { Source } from '../source.ts'
import { addedWaterSource } from './added-water.ts'
import { compareRecipes, recipeCompareInput, recipeCompareOutput } from './compare.ts'
import { computeRecipe } from './compute.ts'
import { recipeComputeInput, recipeComputeOutput } from './compute-schema.ts'
import {
  recipeCsv,
  recipeCsvInput,
  recipeCsvOutput,
  recipeFromCsv,
  recipeFromCsvInput,
  recipeFromCsvOutput,
} from './csv.ts'
import { formulateInput, formulateOutput } from './formulate-schema.ts'
import { formulateRecipe } from './formulate.ts'
import { recipeScaleInput, recipeScaleOutput, scaleRecipe } from './scale.ts'
import type { Recipe } from './schema.ts'
import { recipeSheetInput, recipeSheetOutput, sheetOf } from './sheet.ts'

const massBalance: Source = {
  document: 'Mass balance of a mix',
  section: 'each component of a mix is the mean of its parts by mass',
  edition: 'computed here',
  mark: 'computed',
}
const rfc: Source = {
  document: 'RFC 4180, Common Format and MIME Type for Comma-Separated Values (CSV) Files',
  section: '2, quoting and line ends',
  edition: '2005, from memory',
  mark: 'from-memory',
}
const thumb: Source = {
  document: 'Weighing tolerance of lines no limit decides: 1 % for meat, salt and water, 3 % for the rest',
  section: 'rule of thumb',
  edition: 'common practice, no source',
  mark: 'common-practice',
}

const recipe: Recipe = {
  name: 'Smoked sausage, coarse',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [
    { material: 'pork-butt', pct: 70 },
    { material: 'pork-belly', pct: 30 },
  ],
  additions: [
    { material: 'ice', pct: 10 },
    { material: 'salt', pct: 1.6 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
    { material: 'black-pepper', pct: 0.3 },
  ],
  nitriteTarget: { lowPpm: 120, highPpm: 156 },
  cook: { targetCoreC: 70, lossPct: 8 },
  casing: { calibreMm: 32, linkG: 110 },
}

export const recipeCalculations = [
  defineCalculation({
    name: 'recipe.compute',
    title: 'What a recipe comes to',
    summary:
      'Lines, composition, ingoing cure, salt, water, binders and cost of a recipe at a size, or of the weights given in its place, with the measures and facts it is judged by. What a material does not state is named, never taken as zero.',
    input: recipeComputeInput,
    output: recipeComputeOutput,
    sources: [massBalance, addedWaterSource],
    example: { recipe, meatKg: 10 },
    compute: computeRecipe,
  }),
  defineCalculation({
    name: 'recipe.scale',
    title: 'A recipe to a size',
    summary: 'Scales a recipe by meat weight, mix, finished weight, number of links, or what is in stock.',
    input: recipeScaleInput,
    output: recipeScaleOutput,
    sources: [massBalance],
    example: { recipe, to: { links: 100 } },
    compute: scaleRecipe,
  }),
  defineCalculation({
    name: 'recipe.sheet',
    title: 'Weigh sheet',
    summary:
      'Targets and tolerances of each line and the scale fit for it; lines with nitrite are held to the recipe’s nitrite band by the scale’s 95 % interval.',
    input: recipeSheetInput,
    output: recipeSheetOutput,
    sources: [massBalance, thumb],
    example: {
      recipe,
      meatKg: 10,
      scales: [
        { id: 'bench', readabilityG: 1, capacityG: 15000 },
        { id: 'fine', readabilityG: 0.1, capacityG: 1000 },
      ],
    },
    compute: sheetOf,
  }),
  defineCalculation({
    name: 'recipe.compare',
    title: 'Two versions side by side',
    summary:
      'Every field that differs between two versions of a recipe, and what the differences do to composition, cure and cost at one size.',
    input: recipeCompareInput,
    output: recipeCompareOutput,
    sources: [massBalance],
    example: {
      before: recipe,
      after: { ...recipe, additions: recipe.additions.map((a) => (a.material === 'salt' ? { ...a, pct: 1.5 } : a)) },
      meatKg: 10,
    },
    compute: compareRecipes,
  }),
  defineCalculation({
    name: 'recipe.formulate',
    title: 'A recipe from its end',
    summary:
      'The cheapest recipe whose finished product meets targets on fat, protein, water, added water, meat and cost, changing only what is allowed to change; or what stands in the way and how far it would have to move.',
    input: formulateInput,
    output: formulateOutput,
    sources: [massBalance, addedWaterSource],
    example: {
      recipe,
      meatKg: 10,
      prices: [...recipe.meat, ...recipe.additions].map((p, i) => ({
        material: p.material,
        costPerKg: [6, 4, 0, 0.5, 3, 12][i],
      })),
      targets: [
        { of: 'fat', maxPct: 22 },
        { of: 'addedWater', maxPct: 2 },
      ],
      allow: [{ material: 'pork-butt' }, { material: 'pork-belly' }, { material: 'ice', maxPct: 25 }],
    },
    compute: formulateRecipe,
  }),
  defineCalculation({
    name: 'recipe.csv',
    title: 'A recipe as comma-separated text',
    summary: 'Writes the parts of a recipe as comma-separated text, a row a part, for a spreadsheet.',
    input: recipeCsvInput,
    output: recipeCsvOutput,
    sources: [rfc],
    example: { recipe },
    compute: recipeCsv,
  }),
  defineCalculation({
    name: 'recipe.from-csv',
    title: 'A recipe from comma-separated text',
    summary:
      'Reads the parts of a recipe from comma-separated text; every row that cannot be read is named by its number.',
    input: recipeFromCsvInput,
    output: recipeFromCsvOutput,
    sources: [rfc],
    example: { csv: 'part,material,pct of meat,note\nmeat,pork-butt,100,\naddition,salt,1.8,\n' },
    compute: recipeFromCsv,
  }),
] as const
