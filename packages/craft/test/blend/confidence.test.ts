import { describe, expect, it } from 'vitest'
import { normalQuantile } from '../../src/numeric/normal.ts'
import { solveBlend } from '../../src/blend/solve.ts'
import type { BlendInput } from '../../src/blend/schema.ts'
import { normalDraw, seeded } from './vertices.ts'

describe('normalQuantile', () => {
  // Printed percentage points of the normal distribution (any table of the standard normal; ten digits).
  it.each([
    [0.5, 0],
    [0.75, 0.6744897502],
    [0.9, 1.2815515655],
    [0.95, 1.644853627],
    [0.975, 1.9599639845],
    [0.99, 2.326347874],
    [0.999, 3.0902323062],
  ])('at %s is %s', (p, z) => expect(normalQuantile(p)).toBeCloseTo(z, 9))
  it('is odd about one half and refuses what is no probability', () => {
    expect(normalQuantile(0.2)).toBeCloseTo(-normalQuantile(0.8), 12)
    expect(() => normalQuantile(1)).toThrow(RangeError)
  })
})

const lean = { id: 'lean', composition: { waterPct: 70, proteinPct: 20, fatPct: 10 }, fatSdPct: 2, costPerKg: 6 }
const fat = { id: 'fat', composition: { waterPct: 30, proteinPct: 8, fatPct: 60 }, fatSdPct: 5, costPerKg: 2 }

describe('a fat limit held with a probability', () => {
  it('meets the quadratic a maker can solve by hand for two trims', () => {
    const r = solveBlend({
      batchKg: 100,
      materials: [lean, fat],
      limits: [{ of: 'fat', maxPct: 25 }],
      confidencePct: 95,
    })
    const z = 1.6448536269514722
    // 10 + 50 x + z √(4 (1 − x)² + 25 x²) = 25 in x, the share of fat trim.
    const k = 50 / z
    const [a, b, c] = [29 - k * k, -8 + (2 * k * 15) / z, 4 - (15 / z) ** 2]
    const roots = [1, -1].map((s) => (-b + s * Math.sqrt(b * b - 4 * a * c)) / (2 * a))
    const x = roots.find((v) => v > 0 && v < 1 && 25 - 10 - 50 * v > 0)!
    expect(r.lines[1]!.pct).toBeCloseTo(100 * x, 6)
    expect(r.composition!.fatPct! + r.confidence!.marginPct).toBeLessThanOrEqual(25)
    expect(r.composition!.fatPct! + r.confidence!.marginPct).toBeGreaterThan(25 - 1e-6)
  })

  it.each([80, 95, 99])('holds in at least %s % of 100 000 seeded draws, and hardly more', (confidencePct) => {
    const materials = [
      lean,
      fat,
      {
        id: 'belly',
        composition: { waterPct: 45, proteinPct: 12, fatPct: 42 },
        fatSdPct: 4,
        costPerKg: 2.6,
        maxPct: 25,
      },
    ]
    const r = solveBlend({ batchKg: 100, materials, limits: [{ of: 'fat', maxPct: 28 }], confidencePct })
    const random = seeded(confidencePct)
    const draws = 100_000
    let held = 0
    for (let i = 0; i < draws; i++) {
      const f = materials.reduce(
        (s, m, k) => s + (r.lines[k]!.pct / 100) * (m.composition.fatPct + m.fatSdPct * normalDraw(random)),
        0,
      )
      if (f <= 28) held++
    }
    const p = confidencePct / 100
    // Three standard errors of a share of 100 000 draws.
    const error = 3 * Math.sqrt((p * (1 - p)) / draws)
    expect(held / draws).toBeGreaterThan(p - error)
    expect(held / draws).toBeLessThan(p + error)
  })

  it('holds a minimum and a maximum together with at least the probability asked, in 100 000 seeded draws', () => {
    const r = solveBlend({
      batchKg: 100,
      materials: [lean, fat],
      limits: [{ of: 'fat', minPct: 19, maxPct: 30 }],
      confidencePct: 95,
    })
    const random = seeded(3)
    let held = 0
    for (let i = 0; i < 100_000; i++) {
      const f = [lean, fat].reduce(
        (s, m, k) => s + (r.lines[k]!.pct / 100) * (m.composition.fatPct + m.fatSdPct * normalDraw(random)),
        0,
      )
      if (f >= 19 && f <= 30) held++
    }
    expect(held / 100_000).toBeGreaterThan(0.95 - 0.0021)
  })

  // Normal quantiles: 1.644854 of 95 %, 1.959964 of 97.5 %.
  it('holds a minimum and a maximum that are two limits each with the probability asked, one-sided', () => {
    const z = (limits: BlendInput['limits']) =>
      solveBlend({ batchKg: 100, materials: [lean, fat], limits, confidencePct: 95 }).confidence!.z
    expect(
      z([
        { of: 'fat', minPct: 19 },
        { of: 'fat', maxPct: 30 },
      ]),
    ).toBeCloseTo(1.644854, 5)
    expect(z([{ of: 'fat', maxPct: 30 }])).toBeCloseTo(1.644854, 5)
    expect(z([{ of: 'fat', minPct: 19, maxPct: 30 }])).toBeCloseTo(1.959964, 5)
    const cost = (limits: BlendInput['limits']) =>
      solveBlend({ batchKg: 100, materials: [lean, fat], limits, confidencePct: 95 }).costPerKg!
    expect(
      cost([
        { of: 'fat', minPct: 5 },
        { of: 'fat', maxPct: 25 },
      ]),
    ).toBeCloseTo(cost([{ of: 'fat', maxPct: 25 }]), 9)
  })

  it('costs more the surer it is, and nothing at one half', () => {
    const cost = (confidencePct: number) =>
      solveBlend({ batchKg: 10, materials: [lean, fat], limits: [{ of: 'fat', maxPct: 25 }], confidencePct }).costPerKg!
    const plain = solveBlend({ batchKg: 10, materials: [lean, fat], limits: [{ of: 'fat', maxPct: 25 }] }).costPerKg!
    expect(cost(50)).toBeCloseTo(plain, 9)
    expect(cost(80)).toBeGreaterThan(plain)
    expect(cost(99)).toBeGreaterThan(cost(80))
  })

  it('is at least as cheap as any of a dense grid of three-trim blends that hold it', () => {
    const belly = {
      id: 'belly',
      composition: { waterPct: 45, proteinPct: 12, fatPct: 42 },
      fatSdPct: 3,
      costPerKg: 3.1,
    }
    const m = [lean, fat, belly]
    const r = solveBlend({ batchKg: 100, materials: m, limits: [{ of: 'fat', maxPct: 26 }], confidencePct: 97.5 })
    const z = 1.959963984540054
    let best = Infinity
    const n = 400
    for (let i = 0; i <= n; i++)
      for (let j = 0; i + j <= n; j++) {
        const x = [(n - i - j) / n, i / n, j / n]
        const mean = m.reduce((s, k, q) => s + x[q]! * k.composition.fatPct, 0)
        const sd = Math.sqrt(m.reduce((s, k, q) => s + (x[q]! * k.fatSdPct) ** 2, 0))
        if (mean + z * sd <= 26)
          best = Math.min(
            best,
            m.reduce((s, k, q) => s + x[q]! * k.costPerKg, 0),
          )
      }
    expect(r.costPerKg).toBeLessThanOrEqual(best + 1e-9)
    // The grid's step of 1/400 is worth at most two steps of the dearest swap, 4 money per kg.
    expect(r.costPerKg).toBeGreaterThan(best - 0.02)
  })

  it('refuses a material whose spread is not stated, and takes none for one with no fat', () => {
    const { fatSdPct: _, ...bare } = lean
    const input: BlendInput = {
      batchKg: 10,
      materials: [bare, fat],
      limits: [{ of: 'fat', maxPct: 25 }],
      confidencePct: 95,
    }
    expect(() => solveBlend(input)).toThrow(/materials\[0\]\.fatSdPct: is missing/)
    const ice = { id: 'ice', composition: { waterPct: 100, proteinPct: 0, fatPct: 0 }, costPerKg: 0 }
    expect(solveBlend({ ...input, materials: [lean, fat, ice] }).status).toBe('optimal')
  })
})
