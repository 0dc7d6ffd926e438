// A large blend against the bare solver on the same model.
import { assemble } from '@forcemeat/craft/blend/assemble'
import { bareSolve, type Program } from '@forcemeat/craft/blend/program'
import { problemFor, solveBlend } from '@forcemeat/craft/blend/solve'
import { report, seeded, summary, timed } from './measure.ts'

const MATERIALS = 200
const LIMITS = 60
const RUNS = 200
const WARM_UP = 60

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
  const program: Program = assemble(problemFor(input)).program
  // Turn about, so that whatever else the machine does falls on both alike.
  const [whole, bare]: [number[], number[]] = [[], []]
  for (let i = -WARM_UP; i < RUNS; i++)
    for (const [work, times] of [
      [() => solveBlend(input), whole],
      [() => bareSolve(program), bare],
    ] as const) {
      const begun = performance.now()
      work()
      if (i >= 0) times.push(performance.now() - begun)
    }
  const size = `${MATERIALS} materials under ${LIMITS} limits`
  report({ measure: `blend of ${size}`, unit: 'ms', limit: 50, ...summary(whole) })
  report({ measure: `the bare solver on the same model`, unit: 'ms', ...summary(bare) })
  report({
    measure: `blend of ${size}, times the bare solver`,
    unit: 'times',
    limit: 1.5,
    // Against the bare solver's median: pairs of single runs would measure the machine's other work.
    ...summary(whole.map((t) => t / summary(bare).median)),
  })
  report({
    measure: `the same with fat held at 95 %`,
    unit: 'ms',
    ...timed(() => solveBlend({ ...input, confidencePct: 95 }), { runs: 20 }),
  })
}
