import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { gs1CheckDigit, readGtin } from '../../src/declare/gtin.ts'

type Output = { elementString: string; encoded: string; checkDigit?: number; gtin14?: string; warnings: string[] }
const run = (input: unknown) => calculations['declare.gs1']!.run(input) as Output

describe('GS1 check digit', () => {
  it.each([
    ['629104150021', 3, 'gs1.org, how to calculate a check digit manually'],
    ['4098765000022', 3, 'GTIN-14 40987650000223, re-computed'],
    ['2345678', 5, 'GTIN-8 23456785, re-computed'],
    ['9629104150021', 6, 'variable-measure GTIN-14, computed: sum 84'],
  ])('of %s is %d (%s)', (body, digit) => expect(gs1CheckDigit(body)).toBe(digit))

  it('finds every single wrong digit', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^\d{13}$/), fc.nat(13), fc.integer({ min: 1, max: 9 }), (body, at, add) => {
        const right = body + gs1CheckDigit(body)
        const wrong = Array.from(right, (d, i) => (i === at ? String((Number(d) + add) % 10) : d)).join('')
        expect(readGtin(right).ok).toBe(true)
        expect(readGtin(wrong).ok).toBe(false)
      }),
    )
  })
})

describe('declare.gs1', () => {
  it('writes fixed fields first and the lot last, with no separator needed', () => {
    const output = run({ gtin: '96291041500216', netKg: 1.25, bestBefore: '2025-12-31', lot: 'L25-0317' })
    expect(output.elementString).toBe('(01)96291041500216(3103)001250(15)251231(10)L25-0317')
    expect(output.encoded).toBe('019629104150021631030012501525123110L25-0317')
    expect(output.checkDigit).toBe(6)
  })

  it('completes a body without its check digit and says so', () => {
    expect(run({ gtin: '629104150021' })).toMatchObject({ gtin14: '06291041500213', checkDigit: 3 })
    expect(run({ gtin: '629104150021' }).warnings).toHaveLength(1)
  })

  it('refuses a wrong check digit naming the right one, and letters, and an empty request', () => {
    expect(() => run({ gtin: '6291041500214' })).toThrow(/check digit is 3/)
    expect(() => run({ gtin: '62910415002X3' })).toThrow(/digits only/)
    expect(() => run({ lot: 'lot#1' })).toThrow(/lot/)
    expect(() => run({})).toThrow(/nothing to encode/)
  })

  it.each([
    [0.001, '(3103)000001'],
    [999.999, '(3103)999999'],
    [1000, '(3102)100000'],
    [12_345.6, '(3101)123456'],
    [999_999, '(3100)999999'],
  ])('writes %d kg as %s', (netKg, element) => expect(run({ netKg }).elementString).toBe(element))
})
