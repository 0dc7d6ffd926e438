import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assemble } from '@forcemeat/craft/blend/assemble'
import { solveProgram } from '@forcemeat/craft/blend/program'
import { problemFor, solveBlend } from '@forcemeat/craft/blend/solve'
import type { BlendInput } from '@forcemeat/craft/blend/schema'

type Asked = readonly [of: string, side: string]
const sides = ['min', 'max'] as const

/** Everything asked of a blend that may be dropped. */
const asked = ({ materials, limits }: BlendInput): Asked[] => [
  ...limits.flatMap((l) => sides.flatMap((s): Asked[] => (l[`${s}Pct`] === undefined ? [] : [[l.of, s]]))),
  ...materials.flatMap((m): Asked[] => [
    ...sides.flatMap((s): Asked[] => (m[`${s}Pct`] === undefined ? [] : [[m.id, s]])),
    ...(m.availableKg === undefined ? [] : [[m.id, 'available'] as const]),
  ]),
]

/** The same blend with only some of it asked. */
function only(input: BlendInput, keep: readonly Asked[]): BlendInput {
  const kept = (of: string, side: string) => keep.some(([o, s]) => o === of && s === side)
  return {
    ...input,
    limits: input.limits.flatMap((l) => {
      const { minPct, maxPct } = l
      const min = minPct !== undefined && kept(l.of, 'min') ? { minPct } : {}
      const max = maxPct !== undefined && kept(l.of, 'max') ? { maxPct } : {}
      return Object.keys({ ...min, ...max }).length === 0 ? [] : [{ of: l.of, ...min, ...max }]
    }),
    materials: input.materials.map(({ minPct, maxPct, availableKg, ...m }) => ({
      ...m,
      ...(minPct !== undefined && kept(m.id, 'min') ? { minPct } : {}),
      ...(maxPct !== undefined && kept(m.id, 'max') ? { maxPct } : {}),
      ...(availableKg !== undefined && kept(m.id, 'available') ? { availableKg } : {}),
    })),
  }
}

function* subsets<T>(items: readonly T[], size: number, from = 0): Generator<T[]> {
  if (size === 0) yield []
  else
    for (let i = from; i < items.length; i++)
      for (const rest of subsets(items, size - 1, i + 1)) yield [items[i]!, ...rest]
}

const clashes = (input: BlendInput): boolean =>
  solveProgram(assemble(problemFor(input)).program).status === 'infeasible'

const material = (id: number) =>
  fc
    .record({
      fatPct: fc.integer({ min: 2, max: 70 }),
      costPerKg: fc.integer({ min: 1, max: 9 }),
      availableKg: fc.option(fc.constantFrom(5, 20, 60), { nil: undefined }),
      minPct: fc.option(fc.constantFrom(5, 10), { nil: undefined }),
      maxPct: fc.option(fc.constantFrom(30, 60), { nil: undefined }),
    })
    .map(({ fatPct, costPerKg, ...rest }) => ({
      id: `m${id}`,
      composition: { waterPct: (100 - fatPct) * 0.78, proteinPct: (100 - fatPct) * 0.21, fatPct },
      costPerKg,
      ...Object.fromEntries(Object.entries(rest).filter(([, v]) => v !== undefined)),
    }))
const limit = fc.constantFrom(
  { of: 'fat', maxPct: 20 },
  { of: 'fat', maxPct: 30 },
  { of: 'fat', minPct: 12 },
  { of: 'protein', minPct: 12 },
  { of: 'protein', minPct: 15 },
  { of: 'addedWater', maxPct: 3 },
)

describe('the conflict of an impossible blend', () => {
  it('is a smallest set: no fewer of all that is asked cannot hold together (every smaller set tried)', () => {
    let seen = 0
    fc.assert(
      fc.property(
        fc.tuple(material(0), material(1), material(2)),
        fc.uniqueArray(limit, { minLength: 1, maxLength: 4, selector: (l) => JSON.stringify(l) }),
        (materials, limits) => {
          const input: BlendInput = { batchKg: 100, materials, limits }
          const out = solveBlend(input)
          if (out.status !== 'infeasible') return
          seen++
          const conflict = out.conflict!
          expect(
            clashes(
              only(
                input,
                conflict.map((c) => [c.of, c.side] as const),
              ),
            ),
          ).toBe(true)
          for (let size = 1; size < conflict.length; size++)
            for (const fewer of subsets(asked(input), size)) expect(clashes(only(input, fewer))).toBe(false)
        },
      ),
      { numRuns: 60, seed: 7 },
    )
    expect(seen).toBeGreaterThan(20)
  })

  it('is one limit where one alone is impossible, whatever else clashes', () => {
    const lean = { waterPct: 71, proteinPct: 20, fatPct: 8 }
    const out = solveBlend({
      batchKg: 100,
      materials: [
        { id: 'a', composition: lean, costPerKg: 5, maxPct: 30 },
        { id: 'b', composition: { ...lean, fatPct: 9 }, costPerKg: 4, maxPct: 30, availableKg: 20 },
        { id: 'c', composition: { ...lean, fatPct: 10 }, costPerKg: 4, maxPct: 30, availableKg: 20 },
      ],
      limits: [{ of: 'fat', maxPct: 5 }],
    })
    expect(out.conflict!.map((c) => [c.of, c.side])).toEqual([['fat', 'max']])
  })
})
