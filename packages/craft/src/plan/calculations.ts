import { defineCalculation } from '../calculation.ts'
import { planProduction } from './production.ts'
import { planInput, planOutput } from './schema.ts'

export const planCalculations = [
  defineCalculation({
    name: 'plan.production',
    title: 'Batches for the orders',
    summary:
      'Batches a day for a set of orders within the room of each day and the lots in hand, first to expire first out; says what is late or short and what is full. Materials no lot is given for are listed to buy.',
    input: planInput,
    output: planOutput,
    sources: [
      {
        document: 'Production planning by mixed-integer programming',
        section: 'mass balance by product and day',
        edition: 'computed here',
        mark: 'computed',
      },
    ],
    example: {
      from: '2026-03-02',
      days: 5,
      products: [
        {
          id: 'smoked',
          yieldPct: 90,
          leadDays: 1,
          batch: { minKg: 20, maxKg: 60 },
          needs: [
            { material: 'lean', pctOfMix: 60 },
            { material: 'belly', pctOfMix: 30 },
          ],
          uses: [{ resource: 'smokehouse', perMixKg: 1 }],
        },
      ],
      orders: [{ id: 'A', product: 'smoked', kg: 90, due: '2026-03-05' }],
      resources: [{ id: 'smokehouse', perDay: 80, unit: 'kg' }],
      lots: [{ lot: 'L1', material: 'lean', kg: 100, useBy: '2026-03-06' }],
    },
    compute: planProduction,
  }),
] as const
