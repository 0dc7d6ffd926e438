import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { decimalOf, parseQuantity } from '../../src/quantity/parse.ts'
import type { QuantityKind } from '../../src/quantity/units.ts'

const read = (text: string, kind: QuantityKind, more: Record<string, unknown> = {}): number => {
  const r = parseQuantity(text, { kind, decimal: '.', ...more })
  if (!r.ok) throw new Error(r.message)
  return r.value
}
const refusal = (text: string, kind: QuantityKind, more: Record<string, unknown> = {}): string => {
  const r = parseQuantity(text, { kind, decimal: '.', ...more })
  return r.ok ? `read as ${r.value}` : r.message
}

// NIST Handbook 44, Appendix C, section 4: 1 lb = 0.453 592 37 kg and 1 oz = 28.349 523 125 g, exact.
const masses: [string, number][] = [
  ['2 lb 4 oz', 1.020_582_832_5],
  ['2lb4oz', 1.020_582_832_5],
  ['2 lb, 4 oz', 1.020_582_832_5],
  ['1 lb', 0.453_592_37],
  ['1 OZ', 0.028_349_523_125],
  ['2½ oz', 0.070_873_807_812_5],
  ['2 1/2 oz', 0.070_873_807_812_5],
  ['2-1/2 oz', 0.070_873_807_812_5],
  ['½ lb', 0.226_796_185],
  ['1/2 lb', 0.226_796_185],
  ['250g', 0.25],
  ['250 g', 0.25],
  ['1 kg 250 g', 1.25],
  ['1\u00A0500\u202Fkg', 1500],
  ['1,500 kg', 1500],
  ["1'500.25 kg", 1500.25],
  ['1,234,567 g', 1234.567],
  ['.5 kg', 0.5],
  ['0.75 t', 750],
  ['150 mg', 0.000_15],
  ['1 st', 6.350_293_18],
  ['0 kg', 0],
]

describe('parseQuantity', () => {
  it.each(masses)('reads %j as %d kg, factors of NIST Handbook 44 App. C', (text, kg) => {
    // The factors are exact, so only the last bit of a double may differ.
    expect(read(text, 'mass')).toBeCloseTo(kg, 12)
  })

  it.each([
    ['152 °F', 66.666_666_666_666_67],
    ['160F', 71.111_111_111_111_11],
    ['-4 °F', -20],
    ['\u221240 °F', -40],
    ['32 ºF', 0],
    ['71 ℃', 71],
    ['273.15 K', 0],
    ['−18 C', -18],
  ])('reads %j as %d °C, t/°C = (t/°F − 32) × 5/9', (text, c) => {
    expect(read(text, 'temperature')).toBeCloseTo(c, 10)
  })

  it.each([
    ['1 in', 'length', 25.4],
    ['3 ft 4 in', 'length', 1016],
    ['100 yd', 'length', 91_440],
    ['1.2 m', 'length', 1200],
    ['2"', 'length', 50.8],
    ['1 h 30 min', 'time', 90],
    ['1h30m', 'time', 90],
    ['90 s', 'time', 1.5],
    ['2 days', 'time', 2880],
    ['12.5 %', 'percent', 12.5],
    ['6.25%', 'percent', 6.25],
    ['156 ppm', 'percent', 0.0156],
    ['9 °F', 'temperature-difference', 5],
  ] as const)('reads %j (%s) as %d of the base unit', (text, kind, value) => {
    expect(read(text, kind)).toBeCloseTo(value, 10)
  })

  it('reads a decimal comma only where the setting says so', () => {
    expect(read('1,5 kg', 'mass', { decimal: ',' })).toBe(1.5)
    expect(read('1.500 kg', 'mass', { decimal: ',' })).toBe(1500)
    expect(read('1.500,25 kg', 'mass', { decimal: ',' })).toBe(1500.25)
    expect(read('1.500 kg', 'mass', { decimal: '.' })).toBe(1.5)
    expect(refusal('1,5 kg', 'mass')).toMatch(/groups thousands.*allowed: 1500, 1,500 or 1500\.5/)
    expect(refusal('1.5 kg', 'mass', { decimal: ',' })).toMatch(/allowed: 1500, 1\.500 or 1500,5/)
  })

  it('takes the decimal mark of a locale and refuses one that has neither mark', () => {
    expect(decimalOf('de-DE')).toBe(',')
    expect(decimalOf('en-US')).toBe('.')
    expect(decimalOf('ar-EG')).toBeUndefined()
    const german = parseQuantity('1,5 kg', { kind: 'mass', locale: 'de-DE' })
    expect(german.ok && german.value).toBe(1.5)
    const egyptian = parseQuantity('1,5 kg', { kind: 'mass', locale: 'ar-EG' })
    expect(egyptian.ok).toBe(false)
  })

  it('takes the default unit for a bare number, and refuses one without it', () => {
    expect(read('250', 'mass', { defaultUnit: 'g' })).toBe(0.25)
    expect(read('152°', 'temperature', { defaultUnit: '°F' })).toBeCloseTo(66.6667, 4)
    expect(refusal('250', 'mass')).toMatch(/has no unit; allowed: a number with one of t, kg, g, mg/)
    expect(refusal('2 lb 4', 'mass', { defaultUnit: 'oz' })).toMatch(/has no unit/)
  })

  it.each([
    ['12,34 kg', 'mass', /not of three/],
    ['1,5,000 kg', 'mass', /not of three/],
    ['0,500 kg', 'mass', /not of three/],
    ['1.2.3 kg', 'mass', /is not a number/],
    ['1e3 kg', 'mass', /is not a unit/],
    ['2 lb 20 oz', 'mass', /less than 16 oz/],
    ['2.5 lb 4 oz', 'mass', /whole numbers first/],
    ['4 oz 2 lb', 'mass', /larger units first/],
    ['2 lb 4 lb', 'mass', /larger units first/],
    ['1 kg 4 oz', 'mass', /mixes kg with oz/],
    ['2.5 1/2 oz', 'mass', /is not a/],
    ['2 3/2 oz', 'mass', /fraction below one/],
    ['1/0 lb', 'mass', /divides by 0/],
    ['5 gr', 'mass', /grain to some and a gram to others/],
    ['1 ton', 'mass', /depending on the place/],
    ['1 Mg', 'mass', /thousandth of a gram/],
    ['2 tsp', 'mass', /a spoon measures volume/],
    ['5 km', 'mass', /"km" is not a unit of mass; allowed: t, kg, g, mg, st, lb, oz/],
    ['-5 kg', 'mass', /below zero; allowed: zero or more/],
    ['-500 °F', 'temperature', /below absolute zero/],
    ['70 80 °C', 'temperature', /is not a/],
    ['60 °C 5 °C', 'temperature', /has 2 numbers/],
    ['1:30', 'time', /hours or minutes/],
    ['', 'mass', /is empty/],
    ['   ', 'mass', /is empty/],
    ['kg', 'mass', /is not a quantity/],
    ['NaN kg', 'mass', /is not a quantity/],
    ['١٢ kg', 'mass', /is not a quantity/],
    ['9'.repeat(100), 'mass', /characters long/],
  ] as const)('refuses %j as %s and says what is allowed', (text, kind, why) => {
    const message = refusal(text, kind)
    expect(message).toMatch(why)
    expect(message).toMatch(/allowed/)
  })

  it('lets a mass be below zero where a correction is meant', () => {
    expect(read('−2 lb 4 oz', 'mass', { allowNegative: true })).toBeCloseTo(-1.020_582_832_5, 12)
  })

  it('never throws and never gives a number that is not finite, whatever is typed', () => {
    const kinds = ['mass', 'temperature', 'length', 'time', 'percent'] as const
    const typed = fc.oneof(
      fc.string({ maxLength: 40 }),
      fc.stringMatching(/^[0-9.,' /-]{1,12} ?(kg|g|lb|oz|°F|min|h|%)?( [0-9]{1,3} ?(oz|g|min))?$/),
    )
    fc.assert(
      fc.property(typed, fc.constantFrom(...kinds), fc.constantFrom('.', ','), (text, kind, decimal) => {
        const r = parseQuantity(text, {
          kind,
          decimal,
          defaultUnit: { mass: 'kg', temperature: '°C', length: 'mm', time: 'min', percent: '%' }[kind],
        })
        return r.ok ? Number.isFinite(r.value) : r.message.includes('allowed')
      }),
      { numRuns: 2000 },
    )
  })
})
