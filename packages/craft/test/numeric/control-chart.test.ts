import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findCalculation } from '../../src/calculations.ts'
import { controlChart, D2, D4 } from '../../src/numeric/control-chart.ts'

const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]

describe('the chart of single figures', () => {
  it('draws the limits of the worked flow-rate example (NIST/SEMATECH e-Handbook 6.3.2.2, from memory; redone by hand)', () => {
    const chart = controlChart({ values: flow })
    expect(chart.centre).toBeCloseTo(50.81, 6)
    expect(chart.meanRange).toBeCloseTo(16.9 / 9, 9)
    // The handbook divides by 1.128, the constant to three places.
    expect(chart.upper).toBeCloseTo(50.81 + (3 * 16.9) / 9 / 1.128, 2)
    expect(chart.lower).toBeCloseTo(50.81 - (3 * 16.9) / 9 / 1.128, 2)
    expect(chart.caution).toMatch(/10 figures/)
  })

  it('has the constants of a range of two: 1.128 and 3.267 (ASTM tables print these to three places)', () => {
    expect(D2).toBeCloseTo(1.128, 3)
    expect(D4).toBeCloseTo(3.267, 3)
  })

  it('sees a point beyond, two of three, four of five, eight on a side and six in a row, and nothing in an even rise and fall', () => {
    const base = Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? 9 : 11))
    const rulesOf = (tail: readonly number[]) =>
      new Set(controlChart({ values: [...base, ...tail], baseline: 30 }).signals.map((s) => s.rule))
    const { sigma } = controlChart({ values: base })
    expect(rulesOf([])).toEqual(new Set())
    expect(rulesOf([10 + 3.1 * sigma])).toContain('beyond-limit')
    expect(rulesOf([10 + 2.1 * sigma, 10, 10 + 2.1 * sigma])).toContain('two-of-three')
    expect(rulesOf([10 - 1.1 * sigma, 10 - 1.1 * sigma, 10, 10 - 1.1 * sigma, 10 - 1.1 * sigma])).toContain(
      'four-of-five',
    )
    expect(rulesOf(Array.from({ length: 8 }, () => 10.2))).toContain('eight-on-one-side')
    expect(rulesOf([9, 9.2, 9.4, 9.6, 9.8, 10])).toContain('six-in-a-row')
  })

  it('measures capability to the nearer limit, below nought where the centre is past it', () => {
    const { sigma, centre } = controlChart({ values: flow })
    expect(controlChart({ values: flow, highest: centre + 3 * sigma }).cpk).toBeCloseTo(1, 9)
    expect(controlChart({ values: flow, lowest: centre - 6 * sigma, highest: centre + 3 * sigma }).cpk).toBeCloseTo(
      1,
      9,
    )
    expect(controlChart({ values: flow, highest: 50 }).cpk).toBeLessThan(0)
    expect(controlChart({ values: [5, 5, 5], highest: 6 }).cpk).toBeUndefined()
  })

  it('does not mind the unit: a shift and a scale move the limits along, and find the same points', () => {
    const number = fc.integer({ min: -1000, max: 1000 })
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 3, maxLength: 60 }),
        fc.integer({ min: 1, max: 8 }),
        number,
        (values, k, b) => {
          fc.pre(new Set(values).size > 1)
          const [one, other] = [controlChart({ values }), controlChart({ values: values.map((x) => k * x + b) })]
          expect(other.centre).toBeCloseTo(k * one.centre + b, 6)
          expect(other.sigma).toBeCloseTo(k * one.sigma, 6)
        },
      ),
    )
  })

  it('calls a first figure that differs from a level line beyond the limit', () => {
    expect(controlChart({ values: [5, 5, 5, 6], baseline: 3 }).signals).toMatchObject([{ at: 3, rule: 'beyond-limit' }])
  })

  it('refuses too few figures, a baseline longer than they are, and limits the wrong way round', () => {
    const run = (input: unknown) => findCalculation('chart.individuals')!.run(input)
    expect(() => run({ values: [1] })).toThrow(/values/)
    expect(() => run({ values: [1, 2], baseline: 3 })).toThrow(/up to the 2 figures/)
    expect(() => run({ values: [1, 2], lowest: 5, highest: 4 })).toThrow(/less than highest/)
  })
})
