// A large blend against the bare solver on the same model.
import { solveBlend } from '@forcemeat/craft/blend/solve'
import { report, seeded, timed } from './measure.ts'

const MATERIALS = 200
const LIMITS = 60

function problem() {
  const next = seeded(11)
  const materials = Array.from({ length: MATERIALS }, (_, i) => {
    const fatPct = 2 + 60 * next()
    const proteinPct = (100 - fatPct) * 0.21
    return {
      id: `m${i}`,
      composition: { waterPct: 100 - fatPct - proteinPct - 1, proteinPct, fatPct, ashPct: 1, saltPct: 0.2 },
      fatSdPct: 1 + 2 * next(),
      costPerKg: 2 + 6 * next(),
      availableKg: 20 + 200 * next(),
      species: i % 3 === 0 ? 'beef' : 'pork',
    }
  })
  const limits = [
    { of: 'fat', minPct: 20, maxPct: 28 },
    { of: 'protein', minPct: 12 },
    { of: 'beef', minPct: 10, maxPct: 60 },
    { of: 'addedWater', maxPct: 10 },
    ...Array.from({ length: LIMITS - 4 }, (_, i) => ({ of: `m${i * 3}`, maxPct: 6 })),
  ]
  return { batchKg: 500, materials, limits }
}

export function run(): void {
  const input = problem()
  report({
    measure: `blend of ${MATERIALS} materials under ${LIMITS} limits`,
    unit: 'ms',
    limit: 50,
    ...timed(() => solveBlend(input), { runs: 40 }),
  })
  report({
    measure: `the same with fat held at 95 %`,
    unit: 'ms',
    ...timed(() => solveBlend({ ...input, confidencePct: 95 }), { runs: 20 }),
  })
}
