import { describe, expect, it } from 'vitest'
import type { BlendInput } from '../../src/blend/schema.ts'
import { solveBlend } from '../../src/blend/solve.ts'
import { cheapestVertex, seeded } from './vertices.ts'

const lean = { id: 'lean', composition: { waterPct: 70, proteinPct: 20, fatPct: 10 }, costPerKg: 6 }
const fat = { id: 'fat', composition: { waterPct: 30, proteinPct: 8, fatPct: 60 }, costPerKg: 2 }
const ice = { id: 'ice', composition: { waterPct: 100, proteinPct: 0, fatPct: 0 }, costPerKg: 0 }
const kg = (r: ReturnType<typeof solveBlend>, id: string) => r.lines.find((l) => l.id === id)!.kg

describe('blend.solve against closed forms', () => {
  it('gives the two-trim square: 10 % and 60 % fat to 25 % is 35 : 15', () => {
    const r = solveBlend({ batchKg: 100, materials: [lean, fat], limits: [{ of: 'fat', maxPct: 25 }] })
    expect(r.status).toBe('optimal')
    expect(kg(r, 'lean')).toBeCloseTo(70, 9)
    expect(kg(r, 'fat')).toBeCloseTo(30, 9)
    // One point of fat moves 1/50 of a kg from lean at 6 to fat at 2.
    expect(r.prices.find((p) => p.of === 'fat')!.worthPerKg).toBeCloseTo(4 / 50, 9)
  })

  it('meets a three-material corner worked by hand: 1/3, 8/15, 2/15', () => {
    // Fat ≤ 30 and protein ≥ 12 both bind with the mass: three equations, three unknowns.
    const m = [
      { id: 'a', composition: { waterPct: 60, proteinPct: 20, fatPct: 10 }, costPerKg: 6 },
      { id: 'b', composition: { waterPct: 35, proteinPct: 10, fatPct: 50 }, costPerKg: 2.5 },
      { id: 'c', composition: { waterPct: 100, proteinPct: 0, fatPct: 0 }, costPerKg: 0 },
    ]
    const r = solveBlend({
      batchKg: 100,
      materials: m,
      limits: [
        { of: 'fat', maxPct: 30 },
        { of: 'protein', minPct: 12 },
      ],
    })
    // b = (30 − 10a)/50, 20a + 10b = 12 ⇒ a = 1/3, b = 8/15, c = 2/15.
    expect(kg(r, 'a')).toBeCloseTo(100 / 3, 8)
    expect(kg(r, 'b')).toBeCloseTo(800 / 15, 8)
    expect(kg(r, 'c')).toBeCloseTo(200 / 15, 8)
    expect(r.costPerKg).toBeCloseTo(2 + 4 / 3, 9)
  })

  it('holds added water as 9 CFR 318.22 has it, moisture less four times protein', () => {
    const r = solveBlend({ batchKg: 50, materials: [lean, ice], limits: [{ of: 'addedWater', maxPct: 10 }] })
    // lean alone: 70 − 80 = −10; ice: 100; −10(1 − i) + 100 i = 10 ⇒ i = 20/110.
    expect(kg(r, 'ice')).toBeCloseTo((50 * 20) / 110, 9)
    expect(r.addedWaterPct).toBeCloseTo(10, 9)
  })

  it('counts only one point of protein that is not of meat (9 CFR 318.22(b)): W 60, P 12.5, P2 0.8 gives 10 %', () => {
    const soy = {
      id: 'soy',
      composition: { waterPct: 5, proteinPct: 90, fatPct: 1 },
      costPerKg: 0.1,
      protein: 'other' as const,
    }
    const r = solveBlend({
      batchKg: 100,
      materials: [lean, ice, soy],
      limits: [
        { of: 'addedWater', maxPct: 10 },
        { of: 'soy', minPct: 3 },
      ],
    })
    expect(r.status).toBe('optimal')
    const p2 = r.lines.find((l) => l.id === 'soy')!.pct * 0.9
    expect(r.addedWaterPct).toBeCloseTo(
      r.composition!.waterPct! - 4 * (r.composition!.proteinPct! - Math.max(p2 - 1, 0)),
      9,
    )
    expect(r.addedWaterPct).toBeLessThanOrEqual(10 + 1e-9)
  })

  it('holds fat and added water together, as 9 CFR 319.180 asks of a frankfurter: the sum at most 40 %', () => {
    const r = solveBlend({
      batchKg: 100,
      materials: [lean, fat, ice],
      limits: [
        { of: 'fat', maxPct: 30 },
        { of: 'fatPlusAddedWater', maxPct: 40 },
      ],
    })
    expect(r.composition!.fatPct! + r.addedWaterPct!).toBeCloseTo(40, 8)
  })

  it('holds collagen as a share of protein', () => {
    const rind = {
      id: 'rind',
      composition: { waterPct: 50, proteinPct: 35, fatPct: 15, collagenPct: 30 },
      costPerKg: 0.5,
    }
    const r = solveBlend({
      batchKg: 100,
      materials: [{ ...lean, composition: { ...lean.composition, collagenPct: 1 } }, rind],
      limits: [{ of: 'collagenInProtein', maxPct: 25 }],
    })
    expect((100 * r.composition!.collagenPct!) / r.composition!.proteinPct!).toBeCloseTo(25, 8)
  })
})

function randomInput(random: () => number): BlendInput {
  const n = 3 + Math.floor(random() * 3)
  const materials = Array.from({ length: n }, (_, i) => {
    const fatPct = 60 * random()
    const proteinPct = (100 - fatPct) * 0.25 * random()
    return {
      id: `m${i}`,
      composition: { fatPct, proteinPct, waterPct: (100 - fatPct - proteinPct) * random() },
      costPerKg: 1 + 8 * random(),
    }
  })
  return {
    batchKg: 1 + 500 * random(),
    materials,
    limits: [
      { of: 'fat', maxPct: 10 + 40 * random() },
      { of: 'protein', minPct: 12 * random() },
      { of: 'm0', maxPct: 20 + 80 * random() },
      { of: 'addedWater', maxPct: 60 * random() },
    ],
  }
}

describe('blend.solve against every vertex tried in turn', () => {
  it('finds the same least cost, or that there is none, in 150 seeded problems', () => {
    const random = seeded(20_260)
    let feasible = 0
    for (let i = 0; i < 150; i++) {
      const input = randomInput(random)
      const [f, p, m0, w] = input.limits
      const c = input.materials.map((m) => m.composition)
      const best = cheapestVertex({
        cost: input.materials.map((m) => m.costPerKg),
        rows: [
          { a: c.map((k) => k.fatPct), bound: f!.maxPct! },
          { a: c.map((k) => -k.proteinPct), bound: -p!.minPct! },
          { a: c.map((_, j) => (j === 0 ? 100 : 0)), bound: m0!.maxPct! },
          { a: c.map((k) => k.waterPct - 4 * k.proteinPct), bound: w!.maxPct! },
        ],
      })
      const r = solveBlend(input)
      expect(r.status).toBe(best ? 'optimal' : 'infeasible')
      if (!best) continue
      feasible++
      expect(r.costPerKg).toBeCloseTo(best.cost, 7)
    }
    expect(feasible).toBeGreaterThan(50)
  })

  it('is proved cheapest by duality: limits at their prices add up to the cost, in 100 seeded problems', () => {
    const random = seeded(7)
    for (let i = 0; i < 100; i++) {
      const r = solveBlend(randomInput(random))
      if (r.status !== 'optimal') continue
      expect(Math.abs(r.checked!.dualGapPerKg!)).toBeLessThan(1e-7)
      expect(r.checked!.worstBreachPct).toBeLessThan(1e-7)
    }
  })

  it('prices a limit as the cost moves when the limit does', () => {
    const limits = [
      { of: 'fat', maxPct: 22 },
      { of: 'addedWater', maxPct: 8 },
    ]
    const base = solveBlend({ batchKg: 100, materials: [lean, fat, ice], limits })
    for (const [i, l] of limits.entries()) {
      const moved = limits.map((m, k) => (k === i ? { ...m, maxPct: m.maxPct + 0.01 } : m))
      const after = solveBlend({ batchKg: 100, materials: [lean, fat, ice], limits: moved })
      const price = base.prices.find((p) => p.of === l.of)!.worthPerKg
      expect((base.costPerKg! - after.costPerKg!) / 0.01).toBeCloseTo(price, 6)
    }
  })

  it('prices a scarce lot as what one more kg of it saves', () => {
    const input = (availableKg: number): BlendInput => ({
      batchKg: 100,
      materials: [lean, { ...fat, availableKg }],
      limits: [{ of: 'fat', maxPct: 40 }],
    })
    const [a, b] = [solveBlend(input(20)), solveBlend(input(20.5))]
    expect(a.prices.find((p) => p.side === 'available')!.worthPerKg).toBeCloseTo(4, 9)
    expect((a.costPerKg! - b.costPerKg!) * 100).toBeCloseTo(2, 8)
  })
})

describe('blend.solve keeps its meaning', () => {
  const input: BlendInput = {
    batchKg: 80,
    materials: [lean, fat, ice],
    limits: [
      { of: 'fat', maxPct: 25 },
      { of: 'addedWater', maxPct: 10 },
    ],
  }

  it('whatever the order of materials and limits', () => {
    const a = solveBlend(input)
    const b = solveBlend({ ...input, materials: input.materials.toReversed(), limits: input.limits.toReversed() })
    for (const m of input.materials) expect(kg(b, m.id)).toBeCloseTo(kg(a, m.id), 8)
  })

  it('whatever the size of the batch, from a gram to a hundred tonnes', () => {
    const a = solveBlend(input)
    for (const batchKg of [0.001, 1, 100_000]) {
      const b = solveBlend({ ...input, batchKg })
      expect(b.costPerKg).toBeCloseTo(a.costPerKg!, 9)
      for (const m of input.materials) expect(kg(b, m.id) / batchKg).toBeCloseTo(kg(a, m.id) / 80, 9)
    }
  })

  it('whatever the currency: prices scale with costs, weights do not move', () => {
    const a = solveBlend(input)
    const b = solveBlend({ ...input, materials: input.materials.map((m) => ({ ...m, costPerKg: m.costPerKg * 1000 })) })
    expect(b.costPerKg).toBeCloseTo(a.costPerKg! * 1000, 5)
    expect(kg(b, 'fat')).toBeCloseTo(kg(a, 'fat'), 8)
  })

  it('has an end even where a material is paid for being used: shares of a batch are bounded', () => {
    const r = solveBlend({ batchKg: 10, materials: [lean, { ...ice, costPerKg: -5 }], limits: [] })
    expect(r.status).toBe('optimal')
    expect(kg(r, 'ice')).toBeCloseTo(10, 9)
  })

  it('leaves a component out that a material does not state, and names the material', () => {
    const r = solveBlend({
      batchKg: 10,
      materials: [{ ...lean, composition: { ...lean.composition, saltPct: 0.2 } }, fat],
      limits: [{ of: 'fat', maxPct: 20 }],
    })
    expect(r.composition).not.toHaveProperty('saltPct')
    expect(r.unknown).toContainEqual({ component: 'saltPct', materials: ['fat'] })
  })
})
