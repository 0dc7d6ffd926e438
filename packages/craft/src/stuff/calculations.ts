import { defineCalculation } from '../calculation.ts'
import { casing, casingInput, casingOutput } from './casing.ts'
import { casings } from './data/casings.ts'

export const stuffCalculations = [
  defineCalculation({
    name: 'stuff.casing',
    title: 'Casing, pieces and links for a mix',
    summary:
      'Metres of casing (with the band of published capacity), pieces, whole links, what is left and what the last piece holds; fill weight for a finished link after cook or dry loss.',
    input: casingInput,
    output: casingOutput,
    sources: [...new Set(casings.map((c) => c.source))],
    example: { mixKg: 10, casing: { calibreMm: 32, kind: 'hog' }, linkG: 100, lossPct: 12 },
    compute: casing,
  }),
]
