import { defineCalculation } from '../calculation.ts'
import type { Source } from '../source.ts'
import {
  madeInputSchema,
  madeOf,
  madeOutputSchema,
  squareBlend,
  squareInputSchema,
  squareOutputSchema,
} from './by-hand.ts'
import { blendInputSchema, blendOutputSchema, sharedInputSchema, sharedOutputSchema } from './schema.ts'
import { solveBlend, solveShared } from './solve.ts'

const addedWater: Source = {
  document: '9 CFR 318.22',
  section: '(b), added water from moisture and protein',
  edition: 'eCFR',
  mark: 'seen',
}
const massBalance: Source = {
  document: 'Mass balance of a mix; least cost by linear programming',
  section: 'each component of a mix is the mean of its parts by mass',
  edition: 'computed here',
  mark: 'computed',
}
const chance: Source = {
  document: 'Normal distribution of independent lots; second-order cone form of a chance limit',
  section: 'mean + z·√Σ(share·sd)² ≤ limit; z by Wichura 1988, Applied Statistics 37(3), 477–484',
  edition: 'coefficients held to printed values by test',
  mark: 'computed',
}

const trims = [
  {
    id: 'lean',
    composition: { waterPct: 71.2, proteinPct: 20.1, fatPct: 8 },
    fatSdPct: 1.5,
    costPerKg: 6.2,
    availableKg: 80,
    species: 'pork',
  },
  {
    id: 'belly',
    composition: { waterPct: 37, proteinPct: 10, fatPct: 53 },
    fatSdPct: 3.9,
    costPerKg: 3.1,
    species: 'pork',
  },
  { id: 'ice', composition: { waterPct: 100, proteinPct: 0, fatPct: 0 }, costPerKg: 0.01 },
]

export const blendCalculations = [
  defineCalculation({
    name: 'blend.solve',
    title: 'Cheapest blend within limits',
    summary:
      'Weights of each material for one batch at the least cost, within limits on fat, protein, water, collagen, added water, salt, species and materials, stock and whole boxes. With confidencePct, fat limits hold with that probability. Gives what each limit costs, or the limits that clash and what would free them. Percents are of the whole batch.',
    input: blendInputSchema,
    output: blendOutputSchema,
    sources: [massBalance, addedWater, chance],
    example: {
      batchKg: 100,
      materials: trims,
      limits: [
        { of: 'fat', maxPct: 25 },
        { of: 'addedWater', maxPct: 10 },
      ],
      confidencePct: 95,
    },
    compute: solveBlend,
  }),
  defineCalculation({
    name: 'blend.shared',
    title: 'Several batches from the same lots',
    summary:
      'Blends several batches at once from lots they share, at the least cost in all, and says what one more kg of each scarce lot is worth.',
    input: sharedInputSchema,
    output: sharedOutputSchema,
    sources: [massBalance, addedWater, chance],
    example: {
      materials: trims,
      batches: [
        { id: 'coarse', batchKg: 60, limits: [{ of: 'fat', maxPct: 30 }], materials: ['lean', 'belly'] },
        {
          id: 'fine',
          batchKg: 40,
          limits: [
            { of: 'fat', maxPct: 20 },
            { of: 'addedWater', maxPct: 10 },
          ],
        },
      ],
    },
    compute: solveShared,
  }),
  defineCalculation({
    name: 'blend.square',
    title: 'Two trims to one fat, by the square',
    summary:
      'Weights of two trims that give the fat wanted: the parts of each are how far the other lies from the target.',
    input: squareInputSchema,
    output: squareOutputSchema,
    sources: [massBalance],
    example: {
      batchKg: 50,
      targetFatPct: 25,
      first: { name: 'lean', fatPct: 10 },
      second: { name: 'fat', fatPct: 60 },
    },
    compute: squareBlend,
  }),
  defineCalculation({
    name: 'blend.of',
    title: 'What these weights make',
    summary:
      'Composition, added water, spread of fat, species and cost of weighed parts together. What some part does not state is named, not taken as zero.',
    input: madeInputSchema,
    output: madeOutputSchema,
    sources: [massBalance, addedWater],
    example: { parts: trims.map(({ availableKg: _stock, ...t }, i) => ({ ...t, kg: 10 * (i + 1) })) },
    compute: madeOf,
  }),
] as const
