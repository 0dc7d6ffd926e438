import { defineCalculation } from '../calculation.ts'
import { batchCost, batchCostInput, batchCostOutput } from './batch.ts'

export const costCalculations = [
  defineCalculation({
    name: 'cost.batch',
    title: 'Cost of a batch',
    summary:
      'Materials, labour, overhead and losses of a batch: cost per kg raw and finished, per link and per pack, margin at a price, and which line moves the cost most.',
    input: batchCostInput,
    output: batchCostOutput,
    sources: [
      {
        document: 'Arithmetic of costs and yields',
        section: 'no outside figure is used',
        edition: 'own work',
        mark: 'computed',
      },
    ],
    example: {
      materials: [
        { name: 'Pork shoulder', kg: 70, costPerKg: 4.2, wastePct: 3 },
        { name: 'Back fat', kg: 20, costPerKg: 1.8 },
        { name: 'Water and ice', kg: 10, costPerKg: 0 },
        { name: 'Salt, cure and spice', kg: 2.6, costPerKg: 6 },
      ],
      labour: [{ task: 'Grind, mix and stuff', minutes: 150, people: 2, ratePerHour: 24 }],
      other: [{ name: 'Casings', cost: 38 }],
      overhead: { pctOfDirect: 12 },
      stuffingLossPct: 1,
      cookLossPct: 11,
      linkG: 100,
      pack: { netG: 400, costEach: 0.22, priceEach: 5.9 },
    },
    compute: batchCost,
  }),
]
