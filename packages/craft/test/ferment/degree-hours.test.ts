import { calculations } from '@forcemeat/craft'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DegreeHoursInput, DegreeHoursOutput } from '../../src/ferment/schema.ts'

const run = (input: DegreeHoursInput) => calculations['ferment.degree-hours']!.run(input) as DegreeHoursOutput
const verdict = (output: DegreeHoursOutput, jurisdiction: string) =>
  output.findings.find((f) => f.jurisdiction === jurisdiction)!.verdict

/** A chamber that steps through temperatures, with the pH at the end. */
const steps = (
  stages: readonly (readonly [tempC: number, hours: number])[],
  endPh?: number,
): DegreeHoursInput['log'] => {
  let hour = 0
  const log = stages.flatMap(([tempC, hours]) => {
    const begun = hour
    hour += hours
    return [
      { hour: begun, tempC },
      { hour, tempC },
    ]
  })
  return log.map((r, i) => (i === log.length - 1 && endPh !== undefined ? { ...r, ph: endPh } : r))
}
const f = (x: number) => (x - 32) / 1.8

describe('ferment.degree-hours, Canada', () => {
  it('gives 519 °C·h for 24, 30 and 35 °C (CFIA manual ch. 4, worked example; result computed)', () => {
    const output = run({
      log: steps(
        [
          [24, 10],
          [30, 10],
          [35, 15],
        ],
        5.3,
      ),
    })
    expect(output.degreeHours).toBeCloseTo(519, 9)
    expect(output).toMatchObject({ unit: '°C·h', limit: 555, highestC: 35, hoursToTarget: 35 })
    expect(verdict(output, 'CA')).toBe('pass')
  })

  it('fails 613.2 °C·h with a highest of 37 °C (CFIA manual ch. 4, companion example; profile from memory)', () => {
    const output = run({
      log: steps(
        [
          [24, 10],
          [30, 10],
          [37, 18],
        ],
        5.3,
      ),
    })
    expect(output.degreeHours).toBeCloseTo(613.2, 9)
    expect(output.limit).toBe(555)
    expect(verdict(output, 'CA')).toBe('fail')
  })

  it.each([
    [26, 55, 572, 665, 'pass'],
    [35, 40, 776, 555, 'fail'],
  ] as const)(
    'counts a constant %d °C for %d h as %d of %d (CFIA manual ch. 4; from memory)',
    (c, hours, used, limit, expected) => {
      const output = run({ log: steps([[c, hours]], 5.2) })
      expect(output.degreeHours).toBeCloseTo(used, 9)
      expect(output.limit).toBe(limit)
      expect(verdict(output, 'CA')).toBe(expected)
    },
  )

  it('leaves 4.7 h at 36 °C where pH 5.46 was measured after 458.4 °C·h (Université Laval exercise, 2022)', () => {
    const output = run({
      log: steps(
        [
          [21, 12],
          [28, 10],
          [34, 8],
          [36, 6],
        ],
        5.46,
      ),
    })
    expect(output.degreeHours).toBeCloseTo(458.4, 9)
    expect(output.limit).toBe(555)
    expect(output.hoursLeft).toBeCloseTo(4.735, 3)
    expect(output.hoursToTarget).toBeUndefined()
    expect(verdict(output, 'CA')).toBe('cannot-tell')
  })

  it.each([
    [32.999, 665],
    [33, 555],
    [37, 555],
    [37.001, 500],
  ])('takes the limit by the highest temperature: at %d °C it is %d', (c, limit) => {
    expect(run({ log: steps([[c, 1]], 5) }).limit).toBe(limit)
  })

  it('passes exactly at the limit and fails just past it', () => {
    const hours = 665 / (25.6 - 15.6)
    expect(verdict(run({ log: steps([[25.6, hours]], 5.3) }), 'CA')).toBe('pass')
    expect(verdict(run({ log: steps([[25.6, hours + 0.001]], 5.3) }), 'CA')).toBe('fail')
  })
})

describe('ferment.degree-hours, United States', () => {
  it('passes 80 °F for 55 h, 1100 of 1200 °F·h (AMIF 1997; computed)', () => {
    const output = run({ log: steps([[f(80), 55]], 5.3), system: 'US' })
    expect(output.degreeHours).toBeCloseTo(1100, 6)
    expect(output).toMatchObject({ unit: '°F·h', limit: 1200 })
    expect(verdict(output, 'US')).toBe('pass')
  })

  it('asks for less than 1200: the limit itself does not pass', () => {
    expect(verdict(run({ log: steps([[f(80), 60]], 5.3), system: 'US' }), 'US')).toBe('fail')
  })

  it('cannot tell by the 1000 and 900 rows, which nobody has read in their source', () => {
    // Limits fall as the chamber is hotter: over the one that was read, 1200 °F·h below 90 °F, no class can be met.
    const hot = run({ log: steps([[f(95), 40]], 5.3), system: 'US' })
    expect(verdict(hot, 'US')).toBe('fail')
    expect(hot).toMatchObject({ limit: 1200, degreeHours: expect.closeTo(1400, 6) })
    expect(hot.findings.find((x) => x.jurisdiction === 'US')!.because).toMatch(
      /over even the 1200 °F·h of a cooler chamber/,
    )
    expect(verdict(run({ log: steps([[f(95), 34]], 5.3), system: 'US' }), 'US')).toBe('cannot-tell')
    expect(verdict(run({ log: steps([[f(105), 30]], 5.3), system: 'US' }), 'US')).toBe('fail')
    const output = run({ log: steps([[f(90), 20]], 5.3), system: 'US' })
    expect(output.limit).toBe(1000)
    expect(verdict(output, 'US')).toBe('cannot-tell')
  })
})

describe('ferment.degree-hours, what is not known', () => {
  it('judges the pH by its interval where the error of the meter is given, and says so where it is not', () => {
    const log = steps([[26, 20]], 5.29)
    const near = run({ log, phTolerance: 0.05 })
    expect([near.hoursToTarget, verdict(near, 'CA')]).toEqual([undefined, 'cannot-tell'])
    expect(near.findings[0]!.because).toContain('pH 5.3 was not reached (last 5.29 ± 0.05)')
    expect(run({ log, phTolerance: 0.01 })).toMatchObject({ hoursToTarget: 20 })
    const unsaid = run({ log })
    expect([unsaid.hoursToTarget, verdict(unsaid, 'CA')]).toEqual([20, 'pass'])
    expect(unsaid.findings[0]!.because).toContain('the error of the pH meter is not given and counts as none')
    expect(run({ log, phTolerance: 0.01 }).findings[0]!.because).not.toContain('not given')
  })

  it('gives no better verdict to a meter of a larger error, and fails by the earliest end it allows', () => {
    const rank = { fail: 0, 'cannot-tell': 1, pass: 2 } as const
    const course = fc.array(
      fc.record({ c: fc.integer({ min: 10, max: 40 }), ph: fc.integer({ min: 480, max: 580 }) }),
      {
        minLength: 2,
        maxLength: 60,
      },
    )
    fc.assert(
      fc.property(course, fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 }), (rows, a, b) => {
        const log = rows.map(({ c, ph }, hour) => ({ hour, tempC: c, ph: ph / 100 }))
        const fine = verdict(run({ log, phTolerance: Math.min(a, b) / 100 }), 'CA')
        const coarse = verdict(run({ log, phTolerance: Math.max(a, b) / 100 }), 'CA')
        expect(fine === 'fail' ? coarse !== 'pass' : rank[coarse] <= rank[fine] && coarse !== 'fail').toBe(true)
      }),
    )
  })

  it('cannot tell without a pH, with an uncalibrated meter, or with a hole in the warm phase', () => {
    const log = steps([[26, 20]], 5.2)
    expect(verdict(run({ log: steps([[26, 20]]) }), 'CA')).toBe('cannot-tell')
    expect(verdict(run({ log, phMeterCalibrated: false }), 'CA')).toBe('cannot-tell')
    const holed = Array.from({ length: 21 }, (_, hour) => ({
      hour,
      tempC: hour === 8 ? null : 26,
      ...(hour === 20 ? { ph: 5.2 } : {}),
    }))
    expect(verdict(run({ log: holed }), 'CA')).toBe('cannot-tell')
  })

  it('still fails across a hole once what was seen is over the limit', () => {
    const holed = Array.from({ length: 101 }, (_, hour) => ({
      hour,
      tempC: hour === 8 ? null : 30,
      ...(hour === 100 ? { ph: 5.2 } : {}),
    }))
    expect(verdict(run({ log: holed }), 'CA')).toBe('fail')
  })

  it('never counts fewer degree-hours when the chamber is warmer', () => {
    const profile = fc.array(fc.double({ min: 0, max: 45, noNaN: true }), { minLength: 2, maxLength: 40 })
    fc.assert(
      fc.property(profile, fc.double({ min: 0, max: 10, noNaN: true }), (temps, rise) => {
        const log = temps.map((tempC, hour) => ({ hour, tempC }))
        const warmer = log.map((r) => ({ ...r, tempC: r.tempC + rise }))
        expect(run({ log: warmer }).degreeHours).toBeGreaterThanOrEqual(run({ log }).degreeHours - 1e-9)
      }),
    )
  })

  it('counts the same whether a straight stretch is logged in few or many readings', () => {
    const few = [
      { hour: 0, tempC: 10 },
      { hour: 10, tempC: 30 },
    ]
    const many = Array.from({ length: 101 }, (_, i) => ({ hour: i / 10, tempC: 10 + (i / 100) * 20 }))
    expect(run({ log: many }).degreeHours).toBeCloseTo(run({ log: few }).degreeHours, 9)
  })
})
