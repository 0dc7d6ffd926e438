import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput, type Calculation } from '../../src/calculation.ts'
import { standardPressurePa } from '../../src/instrument/atmosphere.ts'
import { boilingPoint } from '../../src/instrument/boiling-point.ts'
import { instrumentCalculations } from '../../src/instrument/calculations.ts'
import { initialVerification, scaleClasses } from '../../src/instrument/data/scale-classes.ts'
import { saturationC, saturationPa } from '../../src/instrument/saturation.ts'
import { scaleTolerance } from '../../src/instrument/scale-tolerance.ts'
import { icePoint, thermometerCheck } from '../../src/instrument/thermometer-check.ts'
import { saturationPressurePa } from '../../src/heat/psychrometrics.ts'

const entries = instrumentCalculations as unknown as readonly Calculation[]
const faults = (name: string, input: unknown): string => {
  try {
    entries.find((c) => c.name === name)!.run(input)
    return 'accepted'
  } catch (error) {
    return error instanceof InvalidInput ? error.message : String(error)
  }
}

describe('saturation of water', () => {
  it.each([
    [0.1e6, 372.755919],
    [1e6, 453.035632],
    [10e6, 584.149488],
  ])('boils at %d Pa at %d K, IAPWS R7-97(2012) Table 36', (pa, k) => {
    // Printed to nine figures.
    expect(saturationC(pa) + 273.15).toBeCloseTo(k, 6)
  })

  it.each([
    [300, 0.353658941e-2],
    [500, 0.263889776e1],
    [600, 0.123443146e2],
  ])('has at %d K a pressure of %d MPa, IAPWS R7-97(2012) Table 35', (k, mpa) => {
    expect(saturationPa(k - 273.15) / 1e6 / mpa).toBeCloseTo(1, 8)
  })

  it('is its own inverse from 0 to 370 °C', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 370, noNaN: true }),
        (t) => Math.abs(saturationC(saturationPa(t)) - t) < 1e-7,
      ),
    )
  })

  it('agrees with Hyland & Wexler within 0.02 K from 60 to 105 °C, an independent equation', () => {
    for (let t = 60; t <= 105; t += 5) expect(Math.abs(saturationC(saturationPressurePa(t)) - t)).toBeLessThan(0.02)
  })
})

describe('standard atmosphere', () => {
  // ICAO Doc 7488 tables against geopotential height, as several open test suites quote them (1000, 2000 and 5000 m; 3000 m from memory).
  it.each([
    [0, 101_325],
    [1000, 89_874.6],
    [2000, 79_495.2],
    [3000, 70_108.5],
    [5000, 54_019.9],
  ])('has at %d m %d Pa, ICAO standard atmosphere', (m, pa) => {
    expect(Math.abs(standardPressurePa(m) - pa)).toBeLessThan(1)
  })
})

describe('instrument.boiling-point', () => {
  it('boils at 99.974 °C at 101 325 Pa: the normal boiling point by IAPWS', () => {
    expect(boilingPoint({ pressurePa: 101_325 }).boilingC).toBeCloseTo(99.974, 2)
    expect(boilingPoint({ altitudeM: 0 }).boilingC).toBeCloseTo(99.974, 2)
  })

  it('falls with altitude, some 1 °C in 300 m near the sea (common practice, no source)', () => {
    expect(boilingPoint({ altitudeM: 0 }).boilingC - boilingPoint({ altitudeM: 300 }).boilingC).toBeCloseTo(1, 1)
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 8900 }), (m) => {
        const [low, high] = [boilingPoint({ altitudeM: m }), boilingPoint({ altitudeM: m + 100 })]
        return high.boilingC < low.boilingC && low.lowC < low.boilingC && low.boilingC < low.highC
      }),
    )
  })

  it('refuses neither, both, and what lies outside the equations', () => {
    expect(faults('instrument.boiling-point', {})).toMatch(/neither.*exactly one/)
    expect(faults('instrument.boiling-point', { altitudeM: 1, pressurePa: 1e5 })).toMatch(/both.*exactly one/)
    expect(faults('instrument.boiling-point', { altitudeM: 20_000 })).toMatch(/altitudeM: is 20000; allowed/)
    expect(faults('instrument.boiling-point', { pressurePa: 1013 })).toMatch(/pressurePa: is 1013; allowed/)
  })
})

describe('instrument.scale-tolerance', () => {
  it.each([
    ['III', 1, 500, 0.5],
    ['III', 1, 501, 1],
    ['III', 1, 2000, 1],
    ['III', 1, 2001, 1.5],
    ['III', 1, 10_000, 1.5],
    ['III', 5, 2500, 2.5],
    ['II', 0.01, 50, 0.005],
    ['II', 0.01, 50.01, 0.01],
    ['II', 0.01, 200.01, 0.015],
    ['IIII', 10, 500, 5],
    ['IIII', 10, 2000, 10],
    ['IIII', 10, 2010, 15],
    ['I', 0.001, 50, 0.0005],
    ['I', 0.001, 200.001, 0.0015],
    ['III', 1, 0, 0.5],
  ] as const)('class %s, e = %d g, load %d g: ±%d g, OIML R 76-1:2006 Table 6', (scaleClass, divisionG, loadG, g) => {
    const out = scaleTolerance({ class: scaleClass, divisionG, loadG })
    expect(out.toleranceG).toBeCloseTo(g, 12)
    expect(out.inServiceG).toBeCloseTo(2 * g, 12)
  })

  it('refuses a load beyond the class, and unknown classes', () => {
    expect(faults('instrument.scale-tolerance', { class: 'III', divisionG: 1, loadG: 10_001 })).toMatch(
      /10001 scale intervals; allowed: at most 10000/,
    )
    expect(faults('instrument.scale-tolerance', { class: 'V', divisionG: 1, loadG: 1 })).toMatch(
      /allowed: one of I, II, III, IIII/,
    )
    expect(faults('instrument.scale-tolerance', { class: 'III', divisionG: 0, loadG: 1 })).toMatch(
      /divisionG: is 0; allowed/,
    )
  })

  it('never falls as the load grows, scales with the interval, and is tighter in a better class', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...scaleClasses),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (c, a, b) => {
          const top = Math.min(1e6, initialVerification[c].at(-1)!.upTo)
          const [low, high] = [Math.min(a, b) * top, Math.max(a, b) * top]
          const at = (loadG: number, divisionG = 1) => scaleTolerance({ class: c, divisionG, loadG }).toleranceG
          expect(at(low)).toBeLessThanOrEqual(at(high))
          expect(at(low * 2, 2)).toBeCloseTo(2 * at(low), 9)
        },
      ),
    )
    expect(scaleTolerance({ class: 'II', divisionG: 1, loadG: 900 }).toleranceG).toBeLessThan(
      scaleTolerance({ class: 'III', divisionG: 1, loadG: 900 }).toleranceG,
    )
  })
})

describe('thermometer check', () => {
  it('is within, outside or cannot tell by the offset and its uncertainty', () => {
    const check = (reading: number) => icePoint({ readingsC: [reading], resolutionC: 0.1, toleranceC: 0.5 })
    expect(check(0.1).verdict).toBe('within')
    expect(check(0.1).uncertaintyC).toBeCloseTo(0.05 + 0.1 / 1.8, 9)
    expect(check(-0.45).verdict).toBe('cannot-tell')
    expect(check(-0.45).because).toMatch(/too close to tell; use a finer display/)
    expect(check(1).verdict).toBe('outside')
    expect(check(1).offsetC).toBe(1)
  })

  it('takes the boiling point of the place, not 100 °C', () => {
    const out = thermometerCheck({
      point: 'boiling',
      altitudeM: 1600,
      readingsC: [94.7],
      resolutionC: 0.1,
      toleranceC: 2,
    })
    expect(out.referenceC).toBeCloseTo(94.7, 0)
    expect(out.verdict).toBe('within')
    expect(
      thermometerCheck({ point: 'boiling', altitudeM: 1600, readingsC: [100], resolutionC: 0.1, toleranceC: 2 })
        .verdict,
    ).toBe('outside')
  })

  it('refuses a boiling point without a place and an ice point with one', () => {
    const rest = { readingsC: [0], resolutionC: 0.1, toleranceC: 1 }
    expect(faults('instrument.thermometer-check', { point: 'boiling', ...rest })).toMatch(/exactly one of the two/)
    expect(faults('instrument.thermometer-check', { point: 'ice', altitudeM: 5, ...rest })).toMatch(
      /neither at the ice point/,
    )
    expect(faults('instrument.ice-point', { ...rest, readingsC: [] })).toMatch(/readingsC: has 0 items/)
  })
})
