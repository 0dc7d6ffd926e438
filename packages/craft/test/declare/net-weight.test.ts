import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { NetWeightInput, NetWeightOutput } from '../../src/declare/net-weight-schema.ts'
import { studentQuantile } from '../../src/declare/student-t.ts'
import { figures } from '../../src/rules.ts'
import { targetFill, tolerableError } from '../../src/declare/target-fill.ts'

const run = (input: NetWeightInput) => calculations['declare.net-weight']!.run(input) as NetWeightOutput
const rules = figures('netWeight')
const repeat = (n: number, g: number) => Array.from({ length: n }, () => g)
const verdict = (o: NetWeightOutput, rule: string) => o.findings.find((f) => f.rule === rule)?.verdict

describe("Student's t", () => {
  // Printed tables of the t distribution (e.g. NIST/SEMATECH e-Handbook 1.3.6.7.2), three decimals.
  it.each([
    [0.995, 19, 2.861],
    [0.995, 29, 2.756],
    [0.995, 49, 2.68],
    [0.975, 1, 12.706],
    [0.975, 9, 2.262],
    [0.95, 120, 1.658],
  ])('at %d with %i degrees of freedom is %d', (p, freedom, t) => expect(studentQuantile(p, freedom)).toBeCloseTo(t, 3))

  it('over the root of the sample is the factor printed in SI 2006/659, Schedule 2: 0.503, 0.379, 0.640', () => {
    for (const [n, k] of [
      [30, 0.503],
      [50, 0.379],
      [20, 0.64],
    ] as const)
      expect(studentQuantile(0.995, n - 1) / Math.sqrt(n)).toBeCloseTo(k, 3)
  })
})

describe('tolerable negative error (Directive 76/211/EEC, Annex I, 2.4, as reproduced)', () => {
  it.each([
    [5, 0.45],
    [50, 4.5],
    [75, 4.5],
    [100, 4.5],
    [150, 6.75],
    [200, 9],
    [250, 9],
    [300, 9],
    [400, 12],
    [500, 15],
    [750, 15],
    [1000, 15],
    [3000, 45],
    [10_000, 150],
    [12_000, 150],
    [15_000, 150],
    [20_000, 200],
  ])('of %d g is %d g', (nominal, g) => expect(tolerableError(nominal, rules)).toBeCloseTo(g, 10))

  it('does not exist under 5 g and over 50 kg', () => {
    expect(tolerableError(4.9, rules)).toBeUndefined()
    expect(tolerableError(50_001, rules)).toBeUndefined()
  })

  it('never falls as the quantity grows, and has no step at a border', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 49_000, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (q, d) => {
          const [a, b] = [tolerableError(q, rules)!, tolerableError(q + d, rules)!]
          expect(b).toBeGreaterThanOrEqual(a - 1e-9)
          expect(b - a).toBeLessThanOrEqual(0.09 * d + 1e-9)
        },
      ),
    )
  })
})

describe('declare.net-weight', () => {
  it('gives mean and standard deviation as worked by hand: 498, 500, 502 → 500 and 2', () => {
    const o = run({ nominalG: 500, weightsG: [498, 500, 502] })
    expect(o.averageG).toBe(500)
    expect(o.sdG).toBeCloseTo(2, 12)
    expect([o.tneG, o.t1G, o.t2G]).toEqual([15, 485, 470])
  })

  it('takes off one tare for all or one each', () => {
    expect(run({ nominalG: 500, weightsG: [510, 512], tareG: 10 }).averageG).toBe(501)
    expect(run({ nominalG: 500, weightsG: [510, 512], taresG: [9, 11] }).averageG).toBe(501)
  })

  it.each([
    ['at T1 is not short', 485, 0, 0],
    ['a tenth under T1 is', 484.9, 1, 0],
    ['at T2 is short once', 470, 1, 0],
    ['a tenth under T2 twice', 469.9, 1, 1],
  ])('a pack %s', (_, g, t1, t2) => {
    const o = run({ nominalG: 500, weightsG: [...repeat(49, 505), g], batchSize: 400 })
    expect([o.belowT1, o.belowT2]).toEqual([t1, t2])
    expect(verdict(o, 'gb.net-weight.t2')).toBe(t2 === 0 ? 'pass' : 'fail')
  })

  // SI 2006/659, Schedule 2, 3.5: 50 of 100 to 500 accept 3; 80 of 501 to 3200 accept 5; 125 of more accept 7.
  it.each([
    [100, 50, 3],
    [500, 50, 3],
    [501, 80, 5],
    [3200, 80, 5],
    [3201, 125, 7],
  ])('batch of %i: %i packs with %i short are accepted and one more is rejected', (batchSize, n, accept) => {
    const sample = (bad: number) => [...repeat(n - bad, 510), ...repeat(bad, 480)]
    const count = (bad: number) =>
      verdict(run({ nominalG: 500, weightsG: sample(bad), batchSize }), 'gb.net-weight.test-count')
    expect(count(accept)).toBe('pass')
    expect(count(accept + 1)).toBe('fail')
  })

  // SI 2006/659, Schedule 2, 4.5 and 4.6. Weights alternate m − 1 and m + 1, so s = sqrt(n / (n − 1)).
  it.each([
    [500, 30, 0.503, false],
    [501, 50, 0.379, false],
    [1000, 20, 0.64, true],
  ])(
    'batch of %i: a sample of %i is accepted at nominal − %d s and rejected just under',
    (batchSize, n, k, destructive) => {
      const limit = 500 - k * Math.sqrt(n / (n - 1))
      const at = (mean: number) =>
        verdict(
          run({
            nominalG: 500,
            weightsG: Array.from({ length: n }, (_, i) => mean + (i % 2 ? 1 : -1)),
            batchSize,
            destructive,
          }),
          'gb.net-weight.test-mean',
        )
      expect(at(limit + 0.001)).toBe('pass')
      expect(at(limit - 0.001)).toBe('fail')
    },
  )

  it('judges a batch under 100 packs on every pack, and not on fewer', () => {
    const all = run({ nominalG: 500, weightsG: [...repeat(19, 501), 480], batchSize: 20 })
    expect(verdict(all, 'gb.net-weight.test-count')).toBe('pass')
    expect(verdict(all, 'gb.net-weight.test-mean')).toBe('fail')
    const two = run({ nominalG: 500, weightsG: [...repeat(18, 505), 480, 480], batchSize: 20 })
    expect(verdict(two, 'gb.net-weight.test-count')).toBe('fail')
    const part = run({ nominalG: 500, weightsG: repeat(10, 501), batchSize: 20 })
    expect(verdict(part, 'gb.net-weight.test-mean')).toBe('cannot-tell')
  })

  it('cannot tell the mean of a batch where the interval lies on both sides of the nominal quantity', () => {
    const o = run({ nominalG: 500, weightsG: [498, 501, 503, 499] })
    expect(verdict(o, 'eu.net-weight.average')).toBe('cannot-tell')
    expect(verdict(o, 'eu.net-weight.test-mean')).toBe('cannot-tell')
  })

  it('cannot tell without the error of the scale, passes it at a fifth of the tolerable error and fails it above', () => {
    const at = (scaleErrorG?: number) =>
      verdict(
        run({ nominalG: 500, weightsG: [500, 501], ...(scaleErrorG === undefined ? {} : { scaleErrorG }) }),
        'gb.net-weight.scale',
      )
    expect(at()).toBe('cannot-tell')
    expect(at(3)).toBe('pass')
    expect(at(3.01)).toBe('fail')
  })

  it('never passes where only memory stands behind the rule: the United States, and counts of opened packs', () => {
    const us = run({ nominalG: 500, weightsG: repeat(50, 510), batchSize: 400, jurisdictions: ['US'] })
    expect(us.findings.map((f) => f.verdict)).toEqual(['cannot-tell', 'cannot-tell'])
    const opened = run({ nominalG: 500, weightsG: repeat(20, 510), batchSize: 400, destructive: true })
    expect(verdict(opened, 'gb.net-weight.test-count')).toBe('cannot-tell')
  })

  it('refuses a tare over the weight, two kinds of tare, and a batch smaller than its sample', () => {
    expect(() => run({ nominalG: 500, weightsG: [500, 5], tareG: 10 })).toThrow(/weightsG\[1\].*less than its tare 10/)
    expect(() => run({ nominalG: 500, weightsG: [500, 501], tareG: 1, taresG: [1, 1] })).toThrow(/one of the two/)
    expect(() => run({ nominalG: 500, weightsG: [500, 501], taresG: [1] })).toThrow(/taresG/)
    expect(() => run({ nominalG: 500, weightsG: [500, 501], batchSize: 1 })).toThrow(/fewer than the 2 packs/)
    expect(() => run({ nominalG: 0, weightsG: [500, 501] })).toThrow(/nominalG/)
  })
})

describe('target fill', () => {
  it('is the nominal quantity while the spread is small, then T1 + 1.96 s, then T2 + 3.72 s', () => {
    expect(targetFill(500, 7, 15, rules)).toMatchObject({ fillG: 500, boundBy: 'average', giveawayG: 0 })
    const wide = targetFill(500, 10, 15, rules)
    // 485 + 1.95996 × 10 = 504.600 and 470 + 3.71902 × 10 = 507.190: the second binds.
    expect(wide.boundBy).toBe('T2')
    expect(wide.fillG).toBeCloseTo(507.19, 2)
    const between = targetFill(500, 8, 15, rules)
    // 485 + 15.680 = 500.680; 470 + 29.752 = 499.752.
    expect(between).toMatchObject({ boundBy: 'T1' })
    expect(between.fillG).toBeCloseTo(500.68, 2)
  })

  it('asks for no less with a wider spread, and the cautious target lies at or above it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 480, max: 530, noNaN: true }), { minLength: 3, maxLength: 60 }),
        (weightsG) => {
          const o = run({ nominalG: 500, weightsG })
          expect(o.sdHighG).toBeGreaterThanOrEqual(o.sdG)
          expect(o.cautiousTarget!.fillG).toBeGreaterThanOrEqual(o.target!.fillG)
          expect(targetFill(500, o.sdG * 1.2, 15, rules).fillG).toBeGreaterThanOrEqual(o.target!.fillG)
        },
      ),
    )
  })

  it('needs nothing over the nominal quantity up to the spread it names', () => {
    const o = run({ nominalG: 500, weightsG: [498, 502] })
    const s = o.sdForNominalG!
    expect(targetFill(500, s * 0.9999, 15, rules).giveawayG).toBe(0)
    expect(targetFill(500, s * 1.001, 15, rules).giveawayG).toBeGreaterThan(0)
  })
})
