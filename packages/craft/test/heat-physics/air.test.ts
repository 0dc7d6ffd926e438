import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { findCalculation } from '@forcemeat/craft/calculations'
import { air } from '@forcemeat/craft/heat/air'
import { dewPoint, humidityRatio, saturationPressurePa, saturationSlope } from '@forcemeat/craft/heat/psychrometrics'

describe('saturation pressure', () => {
  // ASHRAE Handbook—Fundamentals 2017, chapter 1, Table 3, as quoted in the tests of an open-source psychrometric library. The handbook states 300 ppm.
  it.each([
    [-20, 103.24],
    [-5, 401.74],
    [5, 872.6],
    [25, 3169.7],
    [50, 12_351.3],
    [100, 101_418],
    [150, 476_101.4],
  ])('at %d °C is %d Pa within 300 ppm (ASHRAE Fundamentals 2017, Table 3)', (tempC, pa) => {
    expect(saturationPressurePa(tempC) / pa).toBeGreaterThan(1 - 3e-4)
    expect(saturationPressurePa(tempC) / pa).toBeLessThan(1 + 3e-4)
  })
  it('at −60 °C is 1.08 Pa to the table’s last digit', () => expect(saturationPressurePa(-60)).toBeCloseTo(1.08, 2))
  it.each([-40, -1, 1, 37, 99])('has its stated slope at %d °C', (t) => {
    const numeric = (Math.log(saturationPressurePa(t + 0.01)) - Math.log(saturationPressurePa(t - 0.01))) / 0.02
    expect(saturationSlope(t)).toBeCloseTo(numeric, 7)
  })
  it('is undone by the dew point from −90 to 190 °C', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 190, noNaN: true }),
        (t) => Math.abs(dewPoint(saturationPressurePa(t)) - t) < 1e-3 || Math.abs(t) < 0.05,
      ),
    )
  })
})

describe('saturated humidity ratio', () => {
  // ASHRAE Fundamentals 2017, chapter 1, Table 2: real-gas values; the ideal-gas equations of the same chapter come within 0.5 to 2 %.
  it.each([
    [-20, 0.0006373, 0.01],
    [5, 0.005425, 0.005],
    [25, 0.020173, 0.005],
    [50, 0.086863, 0.01],
    [85, 0.838105, 0.02],
  ])('at %d °C is %d within its ideal-gas error (ASHRAE Fundamentals 2017, Table 2)', (tempC, ratio, relative) => {
    expect(Math.abs(humidityRatio(saturationPressurePa(tempC), 101_325) / ratio - 1)).toBeLessThan(relative)
  })
})

describe('heat.air', () => {
  // ASHRAE Fundamentals 2017, chapter 1, Example 1: 40 °C dry, 20 °C wet, 101.325 kPa, read off the chart: 6.5 g/kg, 7 °C dew point, 14 %, 56.7 kJ/kg.
  it('gives Example 1 of ASHRAE Fundamentals 2017, chapter 1, to the reading of its chart', () => {
    const a = air({ tempC: 40, wetBulbC: 20 })
    expect(a.humidityRatio).toBeCloseTo(0.0065, 3)
    expect(Math.abs(a.dewPointC - 7)).toBeLessThan(0.5)
    expect(Math.abs(a.rhPct - 14)).toBeLessThan(0.5)
    expect(Math.abs(a.enthalpyKjPerKg - 56.7)).toBeLessThan(0.1)
  })
  it('gives the humidity ratio of 30 °C dry, 25 °C wet at 95461 Pa worked by spreadsheet from the same equations (0.0192281)', () => {
    expect(air({ tempC: 30, wetBulbC: 25, pressurePa: 95_461 }).humidityRatio / 0.0192281274).toBeCloseTo(1, 3)
  })
  it('gives the humidity ratio over ice of −1 °C dry, −5 °C wet at 95461 Pa worked by spreadsheet (0.00120400)', () => {
    expect(air({ tempC: -1, wetBulbC: -5, pressurePa: 95_461 }).humidityRatio / 0.001203998).toBeCloseTo(1, 3)
  })
  it('gives 3.927 °C wet bulb for 7 °C, 61 %, 100000 Pa (a published hard case of the iteration)', () => {
    expect(air({ tempC: 7, rhPct: 61, pressurePa: 100_000 }).wetBulbC).toBeCloseTo(3.9267, 2)
  })
  it('gives 55.9 °C wet bulb for house air of 70 °C and 50 % (computed from the same equations)', () => {
    expect(air({ tempC: 70, rhPct: 50 }).wetBulbC).toBeCloseTo(55.88, 2)
  })
  it('returns through its own wet bulb to the same relative humidity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 95, noNaN: true }),
        fc.double({ min: 2, max: 100, noNaN: true }),
        (tempC, rhPct) => {
          const { wetBulbC } = air({ tempC, rhPct })
          // The balance switches from ice to water at 0 °C, with a small jump.
          return wetBulbC < 0.2 || Math.abs(air({ tempC, wetBulbC }).rhPct - rhPct) < 1e-4
        },
      ),
    )
  })
  it('keeps dew point ≤ wet bulb ≤ dry bulb', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 95, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (tempC, rhPct) => {
          const a = air({ tempC, rhPct })
          return a.dewPointC <= a.wetBulbC + 1e-3 && a.wetBulbC <= tempC + 1e-9
        },
      ),
    )
  })
  it('puts all three at the same temperature in saturated air', () => {
    const a = air({ tempC: 60, rhPct: 100 })
    expect(a.wetBulbC).toBeCloseTo(60, 6)
    expect(a.dewPointC).toBeCloseTo(60, 6)
  })
  it('refuses a wet bulb above the dry bulb, naming the field', () => {
    expect(() => air({ tempC: 50, wetBulbC: 51 })).toThrow(InvalidInput)
    expect(() => air({ tempC: 50, wetBulbC: 51 })).toThrow(/wetBulbC: is 51 °C, above the dry bulb of 50 °C/)
  })
  it('refuses a wet bulb lower than bone-dry air can have, saying from where', () => {
    expect(() => air({ tempC: 70, wetBulbC: 10 })).toThrow(/wetBulbC: .*bone-dry.*from 2/)
  })
  it('refuses both or neither of rhPct and wetBulbC', () => {
    const run = (x: unknown) => () => findCalculation('heat.air')!.run(x)
    expect(run({ tempC: 50 })).toThrow(/exactly one of rhPct and wetBulbC/)
    expect(run({ tempC: 50, rhPct: 101 })).toThrow(
      /rhPct: is 101; allowed: a number in % relative humidity, at least 0/,
    )
    expect(run({ tempC: 50, rhPct: 50, wetBulbC: 40 })).toThrow(/exactly one of rhPct and wetBulbC/)
  })
  it('refuses more vapour than the pressure holds above the boiling point', () => {
    expect(() => air({ tempC: 120, rhPct: 90 })).toThrow(/rhPct: is 90 %, more vapour than the pressure/)
  })
})
