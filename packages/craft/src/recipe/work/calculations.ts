import { defineCalculation } from '../../calculation.ts'
import { choiOkos } from '../../heat/data/food-components.ts'
import type { Source } from '../../source.ts'
import type { Recipe } from '../schema.ts'
import { costOverTime, costOverTimeInput, costOverTimeOutput } from './cost-over-time.ts'
import { meatSharesCalculation } from './meat-shares.ts'
import { swapCure, swapCureInput, swapCureOutput } from './swap-cure.ts'
import { totalSaltInput, totalSaltOutput, withTotalSalt } from './total-salt.ts'
import { recipeWorkInput, recipeWorkOutput, workOfRecipe } from './work.ts'

const balance: Source = {
  document: 'Balances of mass, heat and cost of a mix',
  section: 'those of mix.ice, stuff.casing and cost.batch',
  edition: 'computed here',
  mark: 'computed',
}
const recipe: Recipe = {
  name: 'Frankfurter, fine',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [
    { material: 'pork-butt', pct: 70 },
    { material: 'pork-belly', pct: 30 },
  ],
  additions: [
    { material: 'ice', pct: 22 },
    { material: 'salt', pct: 1.6 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.22 },
  ],
  casing: { calibreMm: 24 },
  cook: { targetCoreC: 72, lossPct: 10 },
}
const prices = [
  { material: 'pork-butt', costPerKg: 4.2 },
  { material: 'pork-belly', costPerKg: 3.1 },
  { material: 'ice', costPerKg: 0.05 },
  { material: 'salt', costPerKg: 0.6 },
  { material: 'curing-salt-6.25-nitrite', costPerKg: 6.5 },
]

export const recipeWorkCalculations = [
  defineCalculation({
    name: 'recipe.work',
    title: 'What a recipe asks of bowl, stuffer and purse',
    summary:
      "Ice for a final temperature, casing and links filled so that a pack meets its net weight after the recipe's loss, and the whole cost, for a recipe at a size.",
    input: recipeWorkInput,
    output: recipeWorkOutput,
    sources: [balance, choiOkos],
    example: {
      recipe,
      meatKg: 20,
      prices,
      ice: { meatC: 2, waterC: 12, targetC: 10, workKjPerKg: 40 },
      stuff: { kind: 'sheep', packNetG: 400, linksPerPack: 5 },
      cost: { labour: [{ task: 'Make and stuff', minutes: 90, people: 2, ratePerHour: 24 }], casingPerM: 0.35 },
    },
    compute: (input) => workOfRecipe(input),
  }),
  defineCalculation({
    name: 'recipe.salt',
    title: 'Plain salt for a total with the cure',
    summary:
      'Sets the plain salt of a recipe so that it and the salt the cures carry come to a total of the meat block.',
    input: totalSaltInput,
    output: totalSaltOutput,
    sources: [balance],
    example: { recipe, totalSaltPct: 1.8 },
    compute: withTotalSalt,
  }),
  defineCalculation({
    name: 'recipe.swap-cure',
    title: 'One cure of a recipe for another',
    summary:
      'Replaces a cure of a recipe at the same ingoing nitrite and keeps all salt what it was, or says why it cannot be done.',
    input: swapCureInput,
    output: swapCureOutput,
    sources: [balance],
    example: { recipe, meatKg: 20, from: 'curing-salt-6.25-nitrite', to: 'curing-salt-0.6-nitrite' },
    compute: swapCure,
  }),
  defineCalculation({
    name: 'cost.over-time',
    title: 'Cost of a recipe over its price lists',
    summary: 'Materials of a kg by the prices of each day one of them changed, with what the change did.',
    input: costOverTimeInput,
    output: costOverTimeOutput,
    sources: [balance],
    example: {
      recipe,
      meatKg: 20,
      prices: [
        ...prices.map((p) => ({ ...p, on: '2026-09-01' })),
        { material: 'pork-butt', costPerKg: 4.6, on: '2026-10-12' },
      ],
    },
    compute: costOverTime,
  }),
  meatSharesCalculation,
]
