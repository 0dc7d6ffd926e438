import { describe, expect, it } from 'vitest'
import { blendCalculations } from '../../src/blend/calculations.ts'
import type { BlendInput } from '../../src/blend/schema.ts'
import { solveBlend, solveShared } from '../../src/blend/solve.ts'
import { seeded } from './vertices.ts'

const lean = { id: 'lean', composition: { waterPct: 70, proteinPct: 20, fatPct: 10 }, costPerKg: 6 }
const fat = { id: 'fat', composition: { waterPct: 30, proteinPct: 8, fatPct: 60 }, costPerKg: 2 }
const named = (r: { conflict?: readonly { of: string; side: string }[] | undefined }) =>
  (r.conflict ?? []).map((c) => `${c.of} ${c.side}`)

/** Drop a requirement from an input, by what the answer calls it. */
function without(input: BlendInput, c: { of: string; side: string }): BlendInput {
  const limits = input.limits.flatMap((l) => {
    if (l.of !== c.of) return [l]
    const { minPct, maxPct } =
      c.side === 'min' ? { minPct: undefined, maxPct: l.maxPct } : { minPct: l.minPct, maxPct: undefined }
    if (minPct === undefined && maxPct === undefined) return []
    return [{ of: l.of, ...(minPct === undefined ? {} : { minPct }), ...(maxPct === undefined ? {} : { maxPct }) }]
  })
  const materials = input.materials.map((m) => {
    if (m.id !== c.of) return m
    const { availableKg, minPct, maxPct, wholeUnitsKg, ...rest } = m
    return {
      ...rest,
      ...(c.side === 'available' || availableKg === undefined ? {} : { availableKg }),
      ...(c.side === 'min' || minPct === undefined ? {} : { minPct }),
      ...(c.side === 'max' || maxPct === undefined ? {} : { maxPct }),
      ...(c.side === 'whole' || wholeUnitsKg === undefined ? {} : { wholeUnitsKg }),
    }
  })
  return { ...input, limits, materials }
}

describe('an impossible blend', () => {
  const impossible: BlendInput = {
    batchKg: 100,
    materials: [lean, fat],
    limits: [
      { of: 'fat', maxPct: 15 },
      { of: 'protein', maxPct: 18 },
      { of: 'water', minPct: 10 },
      { of: 'lean', minPct: 5 },
    ],
  }

  it('names the limits that clash and no other', () => {
    const r = solveBlend(impossible)
    expect(r.status).toBe('infeasible')
    // Protein ≤ 18 needs fat trim of a sixth, which is fat 18.3 %.
    expect(named(r)).toEqual(['fat max', 'protein max'])
    expect(r.lines).toEqual([])
  })

  it('says how far each of them alone would have to move: fat to 55/3 %, protein to 18.8 %', () => {
    const { alone } = solveBlend(impossible).relax!
    expect(alone.map((m) => [m.of, m.to])).toEqual([
      ['fat', expect.closeTo(10 + 50 / 6, 6)],
      ['protein', expect.closeTo(20 - 12 * 0.1, 6)],
    ])
  })

  it('is freed by each move it names, and not by a little less', () => {
    for (const m of solveBlend(impossible).relax!.alone) {
      const at = (to: number) =>
        solveBlend({
          ...impossible,
          limits: impossible.limits.map((l) => (l.of === m.of ? { of: l.of, maxPct: to } : l)),
        }).status
      expect(at(m.to + 1e-6)).toBe('optimal')
      expect(at(m.to - 1e-3)).toBe('infeasible')
    }
  })

  it('names stock that does not reach', () => {
    const r = solveBlend({
      batchKg: 100,
      materials: [
        { ...lean, availableKg: 30 },
        { ...fat, availableKg: 50 },
      ],
      limits: [],
    })
    expect(named(r)).toEqual(['lean available', 'fat available'])
    expect(r.relax!.alone.map((m) => m.to)).toEqual([expect.closeTo(50, 6), expect.closeTo(70, 6)])
  })

  it('names the fat limit that only its probability breaks', () => {
    const sd = { fatSdPct: 4 }
    const input: BlendInput = {
      batchKg: 10,
      materials: [
        { ...lean, ...sd },
        { ...fat, ...sd },
      ],
      limits: [
        { of: 'fat', maxPct: 12 },
        { of: 'lean', maxPct: 97 },
      ],
      confidencePct: 99,
    }
    expect(solveBlend({ ...input, confidencePct: 50 }).status).toBe('optimal')
    expect(named(solveBlend(input))).toContain('fat max')
  })

  it('gives a set of which none can be left out, in 60 seeded problems of ten limits', () => {
    const random = seeded(11)
    let seen = 0
    for (let i = 0; i < 60; i++) {
      const materials = Array.from({ length: 6 }, (_, k) => {
        const fatPct = 60 * random()
        return {
          id: `m${k}`,
          composition: { fatPct, proteinPct: (100 - fatPct) * 0.2, waterPct: (100 - fatPct) * 0.7 * random() },
          costPerKg: 1 + random(),
          maxPct: 20 + 60 * random(),
          availableKg: 10 + 60 * random(),
        }
      })
      const input: BlendInput = {
        batchKg: 100,
        materials,
        limits: [
          { of: 'fat', maxPct: 10 + 20 * random() },
          { of: 'protein', minPct: 10 + 8 * random() },
          { of: 'water', minPct: 20 + 30 * random() },
          { of: 'm0', minPct: 30 * random() },
        ],
      }
      const r = solveBlend(input)
      if (r.status !== 'infeasible') continue
      seen++
      const only = r.conflict!.map((c) => `${c.of} ${c.side}`)
      for (const c of r.conflict!) {
        // Keep only the clashing set, less one: it must be possible.
        let rest = without(input, c)
        for (const l of [
          ...input.limits.flatMap((l) => [
            { of: l.of, side: 'min' },
            { of: l.of, side: 'max' },
          ]),
          ...materials.flatMap((m) => [
            { of: m.id, side: 'max' },
            { of: m.id, side: 'available' },
          ]),
        ])
          if (!only.includes(`${l.of} ${l.side}`)) rest = without(rest, l)
        expect(solveBlend(rest).status).toBe('optimal')
      }
    }
    expect(seen).toBeGreaterThan(10)
  })
})

describe('whole boxes', () => {
  it('match the best of every count tried, in 40 seeded problems', () => {
    const random = seeded(5)
    let feasible = 0
    for (let i = 0; i < 40; i++) {
      const unit = [5, 10, 2.5][i % 3]!
      const a = { ...lean, wholeUnitsKg: unit, costPerKg: 4 + 4 * random() }
      const b = { ...fat, wholeUnitsKg: 4, costPerKg: 1 + 3 * random() }
      const c = {
        id: 'mid',
        composition: { waterPct: 55, proteinPct: 15, fatPct: 28 },
        costPerKg: 2 + 4 * random(),
        availableKg: 20,
      }
      const limit = 15 + 20 * random()
      let best = Infinity
      for (let u = 0; u * unit <= 50; u++)
        for (let v = 0; u * unit + v * 4 <= 50 + 1e-9; v++) {
          const rest = 50 - u * unit - v * 4
          if (rest > 20 + 1e-9 || (10 * u * unit + 60 * v * 4 + 28 * rest) / 50 > limit + 1e-9) continue
          best = Math.min(best, (a.costPerKg * u * unit + b.costPerKg * v * 4 + c.costPerKg * rest) / 50)
        }
      const r = solveBlend({ batchKg: 50, materials: [a, b, c], limits: [{ of: 'fat', maxPct: limit }] })
      expect(r.status).toBe(best < Infinity ? 'optimal' : 'infeasible')
      if (best === Infinity) continue
      feasible++
      expect(r.costPerKg).toBeCloseTo(best, 8)
      for (const l of r.lines.slice(0, 2)) expect(l.kg / (l.id === 'lean' ? unit : 4)).toBeCloseTo(l.units!, 9)
    }
    expect(feasible).toBeGreaterThan(20)
  })

  it('that cannot add up to the batch are named, and fit once the batch may come out a little off', () => {
    const boxes = [
      { ...lean, wholeUnitsKg: 12 },
      { ...fat, wholeUnitsKg: 15 },
    ]
    const input: BlendInput = { batchKg: 100, materials: boxes, limits: [{ of: 'fat', maxPct: 25 }] }
    const strict = solveBlend(input)
    expect(strict.status).toBe('infeasible')
    expect(named(strict)).toContain('lean whole')
    const r = solveBlend({ ...input, batchTolerancePct: 3 })
    expect(r.status).toBe('optimal')
    // 12 u + 15 v nearest 100 with fat ≤ 25 %: 6 and 2 make 102 kg at 24.7 %.
    expect(r.lines.map((l) => l.units)).toEqual([6, 2])
    expect(r.totalKg).toBeCloseTo(102, 9)
  })

  it('hold a fat limit with its probability too', () => {
    const r = solveBlend({
      batchKg: 100,
      materials: [
        { ...lean, fatSdPct: 2, wholeUnitsKg: 5 },
        { ...fat, fatSdPct: 5, wholeUnitsKg: 5 },
      ],
      limits: [{ of: 'fat', maxPct: 25 }],
      confidencePct: 95,
    })
    // 30 % of fat trim gives 25 % with no room; 25 % gives 22.5 + 1.645·√(1.5² + 1.25²) = 25.7; 20 % gives 20 + 1.645·√(1.6² + 1²) = 23.1.
    expect(r.lines.map((l) => l.kg)).toEqual([80, 20])
  })
})

describe('batches that share scarce lots', () => {
  const scarce = { ...lean, id: 'scarce', costPerKg: 3, availableKg: 40 }
  const dear = { ...lean, id: 'dear', costPerKg: 7 }
  const input = {
    materials: [scarce, dear, fat],
    batches: [
      { id: 'a', batchKg: 50, limits: [{ of: 'fat', maxPct: 30 }] },
      { id: 'b', batchKg: 50, limits: [{ of: 'fat', maxPct: 20 }] },
    ],
  }

  it('use no more of a lot than there is, and cost what one joint batch would', () => {
    const r = solveShared(input)
    expect(r.status).toBe('optimal')
    const used = r.batches
      .flatMap((b) => b.lines)
      .filter((l) => l.id === 'scarce')
      .reduce((s, l) => s + l.kg, 0)
    expect(used).toBeCloseTo(40, 8)
    // Lean of 70 kg in all is needed: 30 + 40; 40 of it at 3, the rest at 7; fat trim 30 kg at 2.
    expect(r.totalCost).toBeCloseTo(40 * 3 + 30 * 7 + 30 * 2, 6)
    expect(r.prices.find((p) => p.of === 'scarce')!.worthPerKg).toBeCloseTo(4, 8)
    expect(Math.abs(r.checked!.dualGapPerKg!)).toBeLessThan(1e-9)
  })

  it('name the batch of a limit that clashes', () => {
    const r = solveShared({
      materials: [lean, fat],
      batches: [{ id: 'a', batchKg: 50, limits: [{ of: 'fat', maxPct: 5 }] }, input.batches[1]!],
    })
    expect(r.conflict).toMatchObject([{ of: 'fat', side: 'max', batch: 'a' }])
  })
})

describe('blend inputs that cannot be', () => {
  const solve = (input: unknown) => () => blendCalculations[0].run(input)
  const good = { batchKg: 100, materials: [lean, fat], limits: [{ of: 'fat', maxPct: 25 }] }
  it.each([
    ['batchKg', { ...good, batchKg: 0 }, /batchKg: is 0; allowed: a number in kg, more than 0/],
    ['batchKg', { ...good, batchKg: Number.NaN }, /batchKg/],
    ['batchKg', { ...good, batchKg: 1e12 }, /batchKg: is 1000000000000/],
    ['materials', { ...good, materials: [] }, /materials: has 0 items/],
    ['a twin', { ...good, materials: [lean, lean] }, /materials\[1\]\.id: is "lean" a second time/],
    [
      'a sum',
      { ...good, materials: [{ ...lean, composition: { waterPct: 70, proteinPct: 30, fatPct: 10 } }] },
      /composition: adds up to 110 %/,
    ],
    [
      'an unknown limit',
      { ...good, limits: [{ of: 'moisture', maxPct: 5 }] },
      /limits\[0\]\.of: is "moisture"; allowed: one of fat/,
    ],
    [
      'a crossed limit',
      { ...good, limits: [{ of: 'fat', minPct: 30, maxPct: 20 }] },
      /limits\[0\]: has minPct above maxPct/,
    ],
    ['an empty limit', { ...good, limits: [{ of: 'fat' }] }, /limits\[0\]: has neither/],
    ['a limit below none', { ...good, limits: [{ of: 'fat', maxPct: -1 }] }, /limits\[0\]\.maxPct: is -1/],
    ['a blank', { ...good, limits: [{ of: 'salt', maxPct: 2 }] }, /materials\[0\]\.composition\.saltPct: is missing/],
    ['an unknown field', { ...good, batchLb: 3 }, /batchLb: is not a field here/],
    ['a text', { ...good, confidencePct: '95' }, /confidencePct: is the text "95"/],
    ['a bet', { ...good, confidencePct: 100 }, /confidencePct: is 100/],
  ])('are refused by name: %s', (_, input, message) => expect(solve(input)).toThrow(message))

  it('are refused where a name is both a material and a species', () => {
    const materials = [
      { ...lean, id: 'pork' },
      { ...fat, species: 'pork' },
    ]
    expect(solve({ ...good, materials, limits: [{ of: 'pork', maxPct: 50 }] })).toThrow(/both a material and a species/)
  })
})

describe('blend by hand', () => {
  const [, , square, made] = blendCalculations
  it('the square gives 35 and 15 kg for 50 kg at 25 % from 10 % and 60 %', () => {
    const r = square.run({
      batchKg: 50,
      targetFatPct: 25,
      first: { fatPct: 10, costPerKg: 6 },
      second: { fatPct: 60, costPerKg: 2 },
    })
    expect([r.firstKg, r.secondKg, r.costPerKg]).toEqual([
      expect.closeTo(35, 12),
      expect.closeTo(15, 12),
      expect.closeTo(4.8, 12),
    ])
  })
  it('the square says no where the target lies outside both', () => {
    expect(square.run({ batchKg: 50, targetFatPct: 65, first: { fatPct: 10 }, second: { fatPct: 60 } }).possible).toBe(
      false,
    )
  })
  it('what these weights make takes back what the square gave', () => {
    const r = made.run({
      parts: [
        { ...lean, kg: 35 },
        { ...fat, kg: 15 },
      ],
    })
    expect(r.composition.fatPct).toBeCloseTo(25, 12)
    expect(r.costPerKg).toBeCloseTo(4.8, 12)
  })
  // 9 CFR 318.22: AW = W − 4 P: 55 − 4·12 = 7; 58 − 48 = 10. With P2 of 1.8: 56 − 4·(13 − 0.8) = 7.2.
  it.each([
    [55, 12, 7],
    [58, 12, 10],
  ])('added water of %s %% water and %s %% protein is %s %%', (waterPct, proteinPct, aw) => {
    expect(
      made.run({ parts: [{ id: 'x', kg: 3, composition: { waterPct, proteinPct, fatPct: 20 } }] }).addedWaterPct,
    ).toBeCloseTo(aw, 12)
  })
  it('added water leaves out other protein beyond one point: W 56, P 13, P₂ 1.8 is 7.2 %; P₂ 0.8 with W 60, P 12.5 is 10 %', () => {
    const mix = (waterPct: number, p1: number, p2: number) =>
      made.run({
        parts: [
          { id: 'meat', kg: 90, composition: { waterPct: waterPct / 0.9, proteinPct: p1 / 0.9, fatPct: 5 } },
          { id: 'milk', kg: 10, protein: 'other', composition: { waterPct: 0, proteinPct: p2 / 0.1, fatPct: 0 } },
        ],
      }).addedWaterPct
    expect(mix(56, 11.2, 1.8)).toBeCloseTo(7.2, 10)
    expect(mix(60, 11.7, 0.8)).toBeCloseTo(10, 10)
  })
  it('leaves a blank blank', () => {
    const r = made.run({
      parts: [
        { id: 'a', kg: 1, composition: { fatPct: 10 } },
        { id: 'b', kg: 1, composition: { waterPct: 50 } },
      ],
    })
    expect(r.composition).toEqual({})
    expect(r.unknown).toContainEqual({ component: 'fatPct', materials: ['b'] })
    expect(r).not.toHaveProperty('addedWaterPct')
  })
})
