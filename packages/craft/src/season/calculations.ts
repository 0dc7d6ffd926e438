import { defineCalculation } from '../calculation.ts'
import { databases } from '../materials/data/sources.ts'
import type { Source } from '../source.ts'
import { premix, premixInput, premixOutput } from './premix.ts'
import { spoonInput, spoonOutput, spoonToGrams } from './spoon.ts'
import { usualDoses, usualInput, usualOutput } from './usual.ts'

const { licence: _licence, ...sr28 } = databases['USDA SR28 NDB ']!
const spoons: Source = { ...sr28, section: 'WEIGHT, grams in a teaspoon and a tablespoon' }
const hand: Source = {
  document: 'Spread of a level spoon, a quarter either way',
  section: 'rule of thumb',
  edition: 'common practice, no source',
  mark: 'common-practice',
}
const own: Source = {
  document: "The kitchen's own record",
  section: 'versions and batches given',
  edition: 'computed here',
  mark: 'computed',
}
const apart: Source = {
  document: '21 CFR 170.60',
  section: 'nitrites and nitrates packed apart from spices and hydrolysates',
  edition: 'eCFR',
  mark: 'quoted',
}
const tolerance: Source = {
  document: 'Weighing tolerance of a seasoning, 3 %',
  section: 'rule of thumb',
  edition: 'common practice, no source',
  mark: 'common-practice',
}

const recipe = {
  name: 'Smoked sausage, coarse',
  kind: 'cooked' as const,
  smoked: true,
  readyToEat: true,
  meat: [{ material: 'pork-butt', pct: 100 }],
  additions: [
    { material: 'salt', pct: 1.6 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.22 },
    { material: 'black-pepper', pct: 0.3 },
    { material: 'coriander-seed', pct: 0.1 },
  ],
  nitriteTarget: { lowPpm: 110, highPpm: 156 },
}

export const seasonCalculations = [
  defineCalculation({
    name: 'season.spoon',
    title: 'Spoons of spice to grams',
    summary:
      'Grams in level spoons of a herb or a spice, with the span they may lie in; refused for cure, with the reason, and for all else that is weighed.',
    input: spoonInput,
    output: spoonOutput,
    sources: [spoons, hand],
    example: { material: 'black-pepper', count: 2, spoon: 'tsp', form: 'ground' },
    compute: spoonToGrams,
  }),
  defineCalculation({
    name: 'season.usual',
    title: 'What the maker is used to',
    summary:
      'Grams of each seasoning per kg of meat over the versions saved and batches made: least, usual, most, last; and where a recipe stands against them.',
    input: usualInput,
    output: usualOutput,
    sources: [own],
    example: { saved: [{ recipe: 'coarse', version: 1, body: recipe, batches: 3 }], recipe },
    compute: usualDoses,
  }),
  defineCalculation({
    name: 'season.premix',
    title: 'Pre-mixes for several batches',
    summary:
      'One bag of dry seasonings and one of cure in salt for many batches of a recipe: what to weigh, on which scale, how much of it a batch takes, what stays apart.',
    input: premixInput,
    output: premixOutput,
    sources: [tolerance, apart],
    example: {
      recipe,
      meatKg: 10,
      batches: 20,
      scales: [
        { id: 'bench', readabilityG: 1, toleranceG: 1, capacityG: 6000 },
        { id: 'fine', readabilityG: 0.1, toleranceG: 0.1, capacityG: 500 },
      ],
    },
    compute: premix,
  }),
]
