import { describe, expect, it } from 'vitest'
import { calculations } from '@forcemeat/craft/calculations'
import { fiveLog, type FiveLogInput } from '@forcemeat/craft/ferment/five-log'

const verdict = (id: string, input: FiveLogInput) =>
  fiveLog(input).findings.find((f) => f.rule === `ferment.five-log.${id}`)!
const long = [
  { tempC: 43.4, hours: 1 },
  { tempC: 51.7, hours: 6 },
]
const thick = [
  { tempC: 37.8, hours: 1 },
  { tempC: 43.4, hours: 1 },
  { tempC: 48.9, hours: 1 },
  { tempC: 51.7, hours: 7 },
]

describe('CFIA Annex K, option 2 (as quoted), and both sides of its edges', () => {
  it.each<[string, FiveLogInput, string]>([
    ['ca-21-weak-thin', { chamberC: 21, endPh: 5, casingMm: 55, heat: long }, 'pass'],
    ['ca-21-weak-thin', { chamberC: 21, endPh: 4.99, casingMm: 55, heat: long }, 'cannot-tell'],
    ['ca-21-weak-thin', { chamberC: 20.9, endPh: 5, casingMm: 55, heat: long }, 'cannot-tell'],
    ['ca-21-weak-thin', { chamberC: 21, endPh: 5, casingMm: 56, heat: long }, 'cannot-tell'],
    ['ca-32-hold-thin', { chamberC: 32, endPh: 4.6, casingMm: 55, heat: [{ tempC: 32, hours: 144 }] }, 'pass'],
    ['ca-32-hold-thin', { chamberC: 32, endPh: 4.6, casingMm: 55, heat: [{ tempC: 32, hours: 143 }] }, 'cannot-tell'],
    ['ca-32-heat-thin', { chamberC: 32, endPh: 4.6, casingMm: 55, heat: long }, 'pass'],
    ['ca-32-heat-thin', { chamberC: 32, endPh: 4.61, casingMm: 55, heat: long }, 'cannot-tell'],
    ['ca-32-heat-thick', { chamberC: 32, endPh: 4.6, casingMm: 105, heat: thick }, 'pass'],
    ['ca-32-heat-thick', { chamberC: 32, endPh: 4.6, casingMm: 106, heat: thick }, 'cannot-tell'],
    ['ca-32-heat-thick', { chamberC: 32, endPh: 4.6, casingMm: 105, heat: long }, 'cannot-tell'],
    ['ca-32-weak-thick', { chamberC: 32, endPh: 5.1, casingMm: 80, heat: thick }, 'pass'],
    ['ca-32-weak-thick', { chamberC: 32, endPh: 5.1, casingMm: 80, heat: thick.toReversed() }, 'cannot-tell'],
  ])('%s: %j is %s', (id, input, expected) => {
    expect(verdict(id, input).verdict).toBe(expected)
  })
})

describe('pepperoni of 55 mm, 36 °C to pH 5.0 (Hinkens et al. 1996, abstract)', () => {
  const base = { chamberC: 36, endPh: 5, casingMm: 55 }
  it('passes at 62.8 °C inside at once, or an hour at 53.3 °C inside', () => {
    expect(fiveLog({ ...base, heat: [{ tempC: 62.8, hours: 0, core: true }] }).followed).toBe(true)
    expect(fiveLog({ ...base, heat: [{ tempC: 53.4, hours: 1, core: true }] }).followed).toBe(true)
  })
  it('does not pass by a chamber temperature, a shorter hold, or no heat', () => {
    for (const heat of [[{ tempC: 62.8, hours: 1 }], [{ tempC: 53.4, hours: 0.9, core: true }], []])
      expect(fiveLog({ ...base, heat }).followed).toBeUndefined()
  })
  it('is not decided within the error of thermometer or pH meter, nor by an uncalibrated meter', () => {
    const heat = [{ tempC: 63.2, hours: 0, core: true }]
    expect(verdict('pepperoni-instant', { ...base, heat, endPh: 4.9, phTolerance: 0.2 }).because).toMatch(
      /error of the instrument/,
    )
    expect(verdict('pepperoni-instant', { ...base, chamberC: 37, heat, toleranceC: 0.5 }).verdict).toBe('cannot-tell')
    expect(verdict('pepperoni-instant', { ...base, heat, phMeterCalibrated: false }).settle).toMatch(/calibrated/)
  })
})

describe('ferment.five-log', () => {
  it('never fails a process: one that follows none says what would settle it', () => {
    const r = fiveLog({ chamberC: 24, endPh: 5.2, casingMm: 60 })
    expect(r.followed).toBeUndefined()
    expect(r.findings.every((f) => f.verdict === 'cannot-tell' && f.settle !== undefined)).toBe(true)
    expect(r.warnings.join()).toMatch(/no published combination/)
  })
  it('names the field it refuses', () => {
    expect(() => calculations['ferment.five-log']!.run({ chamberC: 36, endPh: 9, casingMm: 55 })).toThrow(
      /endPh: is 9; allowed/,
    )
  })
})
