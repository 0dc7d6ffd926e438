import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { celsius, kilograms, kelvins, millimetres, minutesOf, percent } from '../../src/quantity/brand.ts'
import { formatNumber, formatQuantity } from '../../src/quantity/format.ts'
import { parseQuantity } from '../../src/quantity/parse.ts'
import { convert, units } from '../../src/quantity/units.ts'

describe('formatNumber', () => {
  it.each([
    [0.1 + 0.2, {}, '0.3'],
    [1e-7, {}, '0.0000001'],
    [1.5e21, {}, '1500000000000000000000'],
    [0.000_123_456, {}, '0.0001235'],
    [12_345.6, {}, '12346'],
    [1.0005, { digits: 4 }, '1.001'],
    [2.675, { digits: 3 }, '2.68'],
    [9.9996, {}, '10'],
    [0.09999, { digits: 2 }, '0.1'],
    [-0.000_01, { places: 2 }, '0.00'],
    [-2.34567, { digits: 3 }, '\u22122.35'],
    [1.5, { places: 2 }, '1.50'],
    [1.5, { decimal: ',' }, '1,5'],
    [0, {}, '0'],
    [-0, {}, '0'],
  ] as const)('prints %d with %j as %s', (value, format, text) => {
    expect(formatNumber(value, format)).toBe(text)
  })

  it('never prints a power of ten, nor more than the digits asked after the mark', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e12, max: 1e12, noNaN: true }),
        fc.integer({ min: 1, max: 15 }),
        (value, digits) => {
          const text = formatNumber(value, { digits })
          expect(text).toMatch(/^\u2212?\d+(\.\d*[1-9])?$/)
          const back = Number(text.replace('\u2212', '-'))
          // Half a unit of the last digit kept, or half of one where digits before the mark are kept whole.
          const step = Math.min(1, 10 ** (Math.floor(Math.log10(Math.abs(value) || 1)) + 1 - digits))
          return Math.abs(back - value) <= 0.5 * step * (1 + 1e-9) + Math.abs(value) * 2e-16
        },
      ),
    )
  })

  it('refuses what is not a number', () => {
    expect(() => formatNumber(Number.NaN)).toThrow(/finite/)
    expect(() => formatNumber(1, { digits: 0 })).toThrow(/1 to 15/)
    expect(() => formatQuantity(Infinity, 'mass', { system: 'us' })).toThrow(/finite/)
  })
})

describe('formatQuantity', () => {
  it.each([
    [1.25, 'mass', { system: 'metric' }, '1.25 kg'],
    [0.25, 'mass', { system: 'metric' }, '250 g'],
    [0.000_15, 'mass', { system: 'metric' }, '150 mg'],
    [0, 'mass', { system: 'metric' }, '0 g'],
    [1.020_582_832_5, 'mass', { system: 'us' }, '2 lb 4 oz'],
    [0.453_592_37, 'mass', { system: 'us' }, '1 lb'],
    [0.453_59, 'mass', { system: 'us' }, '1 lb'],
    [0.028_349_523_125, 'mass', { system: 'us' }, '1 oz'],
    [1.25, 'mass', { system: 'us' }, '2 lb 12.1 oz'],
    [1000, 'mass', { system: 'us' }, '2205 lb'],
    [1.25, 'mass', { system: 'metric', unit: 'g' }, '1250 g'],
    [1.25, 'mass', { system: 'metric', decimal: ',' }, '1,25 kg'],
    [66.666_666, 'temperature', { system: 'metric' }, '66.7 °C'],
    [71, 'temperature', { system: 'metric' }, '71 °C'],
    [66.666_666_666, 'temperature', { system: 'us' }, '152 °F'],
    [-20, 'temperature', { system: 'us' }, '\u22124 °F'],
    [5, 'temperature-difference', { system: 'us' }, '9 °F'],
    [36, 'length', { system: 'metric' }, '36 mm'],
    [91_440, 'length', { system: 'metric' }, '91.44 m'],
    [50.8, 'length', { system: 'us' }, '2 in'],
    [91_440, 'length', { system: 'us' }, '300 ft'],
    [90, 'time', { system: 'metric' }, '1 h 30 min'],
    [59.99, 'time', { system: 'metric' }, '1 h'],
    [0.5, 'time', { system: 'metric' }, '30 s'],
    [12.5, 'time', { system: 'metric' }, '12.5 min'],
    [4560, 'time', { system: 'metric' }, '3 d 4 h'],
    [6.25, 'percent', { system: 'metric' }, '6.25 %'],
  ] as const)('prints %d (%s, %j) as %s', (value, kind, format, text) => {
    expect(formatQuantity(value, kind, format)).toBe(text)
  })

  it('prints no 16 oz and no 60 min', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (v) => {
        expect(formatQuantity(v, 'mass', { system: 'us' })).not.toMatch(/\b16(\.0)? oz/)
        expect(formatQuantity(v * 100, 'time', { system: 'us' })).not.toMatch(/\b60 min/)
      }),
    )
  })

  it('is read back to the printed precision in every unit, system and decimal mark', () => {
    const kinds = [
      ['mass', 1e4],
      ['temperature', 300],
      ['length', 1e5],
      ['percent', 100],
    ] as const
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        fc.constantFrom('metric', 'us'),
        fc.constantFrom('.', ','),
        ([kind, top], share, system, decimal) => {
          const value = share * top
          const text = formatQuantity(value, kind, {
            system,
            decimal,
            digits: 12,
            ...(kind === 'mass' && system === 'us' ? { unit: 'lb' } : {}),
          })
          const back = parseQuantity(text, { kind, decimal })
          expect(back.ok).toBe(true)
          // Twelve digits were printed; a temperature loses two more to the 32 °F offset.
          if (back.ok) expect(Math.abs(back.value - value)).toBeLessThanOrEqual(1e-9 * Math.max(value, 1))
        },
      ),
    )
  })
})

describe('convert', () => {
  it('is its own inverse between any two units of a kind', () => {
    for (const a of units)
      for (const b of units.filter((u) => u.kind === a.kind))
        expect(convert(convert(123.456, a.kind, a.symbol, b.symbol), a.kind, b.symbol, a.symbol)).toBeCloseTo(
          123.456,
          9,
        )
  })

  it('gives 1 kg = 2.204 62 lb and 1 oz = 28.3495 g as 16 CFR 500.19(a) prints them', () => {
    expect(convert(1, 'mass', 'kg', 'lb')).toBeCloseTo(2.204_62, 5)
    expect(convert(1, 'mass', 'oz', 'g')).toBeCloseTo(28.3495, 4)
    expect(convert(1, 'length', 'mm', 'in')).toBeCloseTo(0.039_37, 6)
    expect(convert(1, 'length', 'm', 'ft')).toBeCloseTo(3.280_84, 5)
  })

  it('refuses a unit the kind does not have', () => {
    expect(() => convert(1, 'mass', 'kg', 'mm')).toThrow(/no unit mm of mass/)
  })
})

describe('branded numbers', () => {
  it('refuse what their unit cannot hold', () => {
    expect(kilograms(2)).toBe(2)
    expect(() => kilograms(-1)).toThrow(RangeError)
    expect(() => celsius(-274)).toThrow(RangeError)
    expect(kelvins(-3)).toBe(-3)
    expect(() => millimetres(Number.NaN)).toThrow(RangeError)
    expect(() => minutesOf(Infinity)).toThrow(RangeError)
    expect(percent(12)).toBe(12)
  })
})

it('a weight that rounds up to a thousand of its unit is one of the next', () => {
  expect(formatQuantity(0.99999, 'mass', { system: 'metric' })).toBe('1 kg')
  expect(formatQuantity(0.9994, 'mass', { system: 'metric' })).toBe('999.4 g')
  expect(formatQuantity(0.0009999999, 'mass', { system: 'metric' })).toBe('1 g')
  expect(formatQuantity(0.999, 'mass', { system: 'metric', places: 0 })).toBe('999 g')
})
