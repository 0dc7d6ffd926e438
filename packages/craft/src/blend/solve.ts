import type { Problem } from './assemble.ts'
import { checkLimits, requirementsOf, type Batch, type Requirement } from './requirement.ts'
import type { BlendInput, BlendMaterial, BlendOutput, SharedInput, SharedOutput } from './schema.ts'
import { solveProblem } from './solve-problem.ts'
import { InvalidInput } from '../calculation.ts'

const availabilities = (materials: readonly BlendMaterial[]): Requirement[] =>
  materials.flatMap((m) =>
    m.availableKg === undefined
      ? []
      : [
          {
            of: m.id,
            side: 'available' as const,
            value: m.availableKg,
            unit: 'kg' as const,
            batch: undefined,
            halves: [],
          },
        ],
  )

function problemOf(batches: readonly Batch[], materials: readonly BlendMaterial[], tolerance: number): Problem {
  for (const b of batches) checkLimits(b, materials)
  const requirements = [...batches.flatMap((b, k) => requirementsOf(b, k, tolerance > 0)), ...availabilities(materials)]
  return { batches, requirements, tolerance }
}

/** What is asked of one blend, before it is put to the solver. @throws InvalidInput as `solveBlend` */
export function problemFor({ batchKg, materials, limits, confidencePct, batchTolerancePct = 0 }: BlendInput): Problem {
  const batch: Batch = { id: undefined, kg: batchKg, materials, limits, confidencePct, path: 'limits' }
  return problemOf([batch], materials, batchTolerancePct / 100)
}

/**
 * The cheapest blend of materials that meets every limit: a linear program over shares of the batch, with whole boxes as integers
 * and, under `confidencePct`, fat limits as second-order cones, mean + z·√Σ(share·sd)² ≤ limit, exact for independent normal lots.
 * The answer is computed again from its weights before it is given.
 *
 * @throws InvalidInput where a limit names nothing here or needs a figure a material lacks
 */
export function solveBlend(input: BlendInput): BlendOutput {
  const solved = solveProblem(problemFor(input))
  if (solved.status !== 'optimal') return { ...solved, lines: [], prices: [] }
  const { batches, status, because, checked, prices } = solved
  const { batch: _batch, ...made } = batches[0]!
  return { status, because, ...made, prices, checked }
}

/** Several batches at once from the same lots, at the least cost in all. @throws InvalidInput as `solveBlend`. */
export function solveShared(input: SharedInput): SharedOutput {
  const { materials, batches } = input
  const unknown = batches.flatMap((b, k) =>
    (b.materials ?? []).flatMap((id, i) =>
      materials.some((m) => m.id === id)
        ? []
        : [
            {
              path: `batches[${k}].materials[${i}]`,
              message: `is ${JSON.stringify(id)}; allowed: the id of a material here`,
            },
          ],
    ),
  )
  if (unknown.length > 0) throw new InvalidInput(unknown)
  const each = batches.map((b, k): Batch => ({
    id: b.id,
    kg: b.batchKg,
    materials: b.materials === undefined ? materials : materials.filter((m) => b.materials!.includes(m.id)),
    limits: b.limits,
    confidencePct: b.confidencePct,
    path: `batches[${k}].limits`,
  }))
  const solved = solveProblem(problemOf(each, materials, 0))
  if (solved.status !== 'optimal') return { ...solved, batches: [], prices: [], left: [] }
  const made = solved.batches.map(({ batch, totalKg: _total, ...b }) => ({ id: batch.id!, batchKg: batch.kg, ...b }))
  const usedKg = (id: string) => made.flatMap((b) => b.lines).reduce((s, l) => (l.id === id ? s + l.kg : s), 0)
  const left = materials.flatMap((m) =>
    m.availableKg === undefined ? [] : [{ id: m.id, kg: Math.max(0, m.availableKg - usedKg(m.id)) }],
  )
  const { status, because, checked, prices, totalCost } = solved
  return { status, because, batches: made, totalCost, prices, checked, left }
}
