import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { spoonFor } from '../../src/cure/spoon.ts'
import { ratioInterval } from '../../src/cure/dose-interval.ts'
import { preblend } from '../../src/cure/preblend.ts'
import { errorCdf, errorQuantile, halfWidth95, weighingError } from '../../src/cure/scale-error.ts'
import { weighing, type WeighingInput } from '../../src/cure/weighing.ts'

const mix = { sodiumNitritePct: 6.25, saltPct: 93.75 }
const base: WeighingInput = {
  agentKg: 0.0048,
  composition: mix,
  basisKg: 2,
  scale: { readabilityG: 1, toleranceG: 1 },
  target: { lowPpm: 120, highPpm: 156.25 },
}

/** A small seeded generator (Lehmer, modulus 2^31 − 1), so that the simulation is the same on every run. */
const randoms = (seed: number) => {
  let s = seed
  return () => (s = (s * 48_271) % 2_147_483_647) / 2_147_483_647
}

describe('the error of one weighing', () => {
  it('with no tolerance is uniform: 95 % of ± half a step is 0.475 of a step', () => {
    expect(halfWidth95(weighingError({ readabilityG: 1 }))).toBeCloseTo(0.475, 12)
  })

  it('with two equal half-widths is a triangle: 1 − √0.05 of its reach', () => {
    expect(halfWidth95(weighingError({ readabilityG: 2, toleranceG: 1 }))).toBeCloseTo(2 * (1 - Math.sqrt(0.05)), 12)
  })

  it('has a distribution its quantile inverts', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 10, noNaN: true }),
        fc.double({ min: 0.001, max: 10, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (readabilityG, toleranceG, p) => {
          const error = weighingError({ readabilityG, toleranceG })
          expect(errorCdf(error, errorQuantile(error, p))).toBeCloseTo(p, 9)
        },
      ),
    )
  })

  it('holds 95 % of 200,000 simulated weighings, with a basis scale too (within 0.2 points)', () => {
    const next = randoms(42)
    const uniform = (half: number) => (next() * 2 - 1) * half
    const scale = { readabilityG: 0.5, toleranceG: 0.4 }
    const basisScale = { readabilityG: 50, toleranceG: 30 }
    const { low, high } = ratioInterval({ agentG: 5, basisG: 2000, scale, basisScale })
    let inside = 0
    for (let i = 0; i < 200_000; i += 1) {
      const ratio = (5 + uniform(0.25) + uniform(0.4)) / (2000 + uniform(25) + uniform(30))
      if (ratio >= low && ratio <= high) inside += 1
    }
    expect(inside / 200_000).toBeGreaterThan(0.948)
    expect(inside / 200_000).toBeLessThan(0.952)
  })
})

describe('weighing', () => {
  it('finds a 1 g scale unfit for 4.8 g of cure, and a 0.1 g scale fit', () => {
    expect(weighing(base).verdict).toBe('unfit')
    expect(weighing({ ...base, scale: { readabilityG: 0.1, toleranceG: 0.1 } }).verdict).toBe('fit')
  })

  it('carries the half-width in grams into mg/kg', () => {
    const found = weighing({ ...base, scale: { readabilityG: 0.1 } })
    expect(found.nitritePpm).toBeCloseTo(150, 9)
    expect(found.highPpm - found.nitritePpm).toBeCloseTo((0.0475 * 0.0625 * 1000) / 2, 9)
    expect(found.nitritePpm - found.lowPpm).toBeCloseTo((0.0475 * 0.0625 * 1000) / 2, 9)
  })

  it('names the smallest batch that fits: that batch fits and one a thousandth smaller does not', () => {
    for (const basisScale of [undefined, { readabilityG: 10, toleranceG: 10 }]) {
      const input = basisScale ? { ...base, basisScale } : base
      const smallest = weighing(input).smallestFitBasisKg!
      const at = (basisKg: number) => weighing({ ...input, basisKg, agentKg: (0.0048 / 2) * basisKg }).verdict
      expect(at(smallest * 1.0001)).toBe('fit')
      expect(at(smallest * 0.999)).toBe('unfit')
    }
  })

  it('agrees with the closed form for the smallest batch: half-width × strength / room to the nearer edge', () => {
    const half = halfWidth95(weighingError(base.scale))
    expect(weighing(base).smallestFitBasisKg).toBeCloseTo((half * 0.0625 * 1000) / 6.25, 6)
  })

  it('has no smallest batch where the dose itself misses the band, and says what to weigh', () => {
    const found = weighing({ ...base, agentKg: 0.008 })
    expect(found).toMatchObject({ verdict: 'unfit', smallestFitBasisKg: null })
    expect(found.advice.join(' ')).toMatch(/misses the band.*Weigh 4\.42 g instead of 8 g/)
  })

  it('has none either where the dose sits on the edge', () => {
    expect(weighing({ ...base, agentKg: 0.005 }).smallestFitBasisKg).toBeNull()
  })

  it('advises a finer scale, a bigger batch and a pre-blend, in words', () => {
    const advice = weighing(base).advice.join(' ')
    expect(advice).toMatch(/A scale that shows 0\.1 g .*would give/)
    expect(advice).toMatch(/Or make at least/)
    expect(advice).toMatch(/pre-blend/)
  })

  it('says so where the tolerance was not given', () => {
    expect(weighing({ ...base, scale: { readabilityG: 0.1 } }).advice.join(' ')).toMatch(/tolerance was not given/)
  })

  it('never narrows when the scale gets coarser, its tolerance wider, or a basis scale comes in', () => {
    const g = fc.double({ min: 0.001, max: 2, noNaN: true })
    fc.assert(
      fc.property(g, g, g, (readabilityG, toleranceG, more) => {
        const width = (scale: WeighingInput['scale']) => {
          const w = weighing({ ...base, agentKg: 0.02, basisKg: 8, scale })
          return w.highPpm - w.lowPpm
        }
        const one = width({ readabilityG, toleranceG })
        return (
          width({ readabilityG: readabilityG + more, toleranceG }) >= one - 1e-9 &&
          width({ readabilityG, toleranceG: toleranceG + more }) >= one - 1e-9
        )
      }),
      { numRuns: 30 },
    )
    const alone = weighing(base)
    const both = weighing({ ...base, basisScale: { readabilityG: 100, toleranceG: 100 } })
    expect(both.highPpm - both.lowPpm).toBeGreaterThan(alone.highPpm - alone.lowPpm)
  })

  it('gives the same interval for a batch and scale scaled together', () => {
    const ten = weighing({ ...base, agentKg: 0.048, basisKg: 20, scale: { readabilityG: 10, toleranceG: 10 } })
    expect(ten.lowPpm).toBeCloseTo(weighing(base).lowPpm, 9)
  })
})

describe('preblend', () => {
  const input = {
    basisKg: 2,
    targetNitritePpm: 140,
    agent: { composition: mix },
    totalSaltKg: 0.04,
    batches: 20,
    blendScale: { readabilityG: 1, toleranceG: 1 },
    batchScale: { readabilityG: 1, toleranceG: 1 },
    target: { lowPpm: 120, highPpm: 156.25 },
  }

  it('makes a 1 g scale fit where the cure alone did not', () => {
    expect(weighing({ ...base, agentKg: 0.00448 }).verdict).toBe('unfit')
    expect(preblend(input).verdict).toBe('fit')
  })

  it("holds each batch's nitrite and whole salt, and adds up", () => {
    const found = preblend(input)
    expect((found.agentKg * 0.0625 * 1e6) / (20 * 2)).toBeCloseTo(140, 9)
    expect(found.agentKg * 0.9375 + found.saltKg).toBeCloseTo(20 * 0.04, 12)
    expect((found.perBatchKg * (found.blendNitritePct / 100) * 1e6) / 2).toBeCloseTo(140, 9)
    expect(found.sheet.reduce((s, l) => s + l.kg, 0)).toBeCloseTo(found.blendKg, 12)
  })

  it('refuses a recipe with less salt than the cure carries, a cure without nitrite, half a batch', () => {
    expect(() => preblend({ ...input, totalSaltKg: 0.001 })).toThrow(/totalSaltKg/)
    expect(() => preblend({ ...input, agent: { composition: { saltPct: 100 } } })).toThrow(/agent\.composition/)
    expect(() => preblend({ ...input, batches: 1.5 })).toThrow(/batches/)
  })
})

describe('a spoon', () => {
  it('is refused for anything with nitrite or nitrate, with the reason', () => {
    for (const composition of [
      mix,
      { potassiumNitratePct: 1, saltPct: 99 },
      { sodiumNitritePct: 0.4, saltPct: 99.6 },
    ]) {
      const answer = spoonFor(composition)
      expect(answer.allowed).toBe(false)
      expect(answer).toMatchObject({ reason: expect.stringMatching(/weighed, never spooned/) })
    }
  })
  it('is allowed for salt and sugar', () => {
    expect(spoonFor({ saltPct: 100 })).toEqual({ allowed: true })
  })
})
