import { defineCalculation } from '../calculation.ts'
import { choiOkos } from '../heat/data/food-components.ts'
import { ice, iceInput, iceOutput } from './ice.ts'
import { iceFraction, phamFreezing, waterConstants } from './sources.ts'

export const mixCalculations = [
  defineCalculation({
    name: 'mix.ice',
    title: 'Ice for a final mix temperature',
    summary:
      'How much of the water as ice ends the mix at a target: energy balance of meat (frozen or not), water, ice, salt and chopping work, and why not where it cannot.',
    input: iceInput,
    output: iceOutput,
    sources: [choiOkos, phamFreezing, iceFraction, waterConstants],
    example: {
      parts: [
        { kg: 60, tempC: 2, composition: { waterPct: 69.5, proteinPct: 20, fatPct: 9.5, ashPct: 1 } },
        { kg: 20, tempC: -2, composition: { waterPct: 7.7, proteinPct: 2.9, fatPct: 88.7, ashPct: 0.7 } },
      ],
      waterKg: 20,
      waterTempC: 12,
      targetC: 10,
      workKj: 4000,
      saltKg: 1.8,
    },
    compute: ice,
  }),
]
