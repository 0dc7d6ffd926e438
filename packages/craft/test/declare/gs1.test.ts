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

  it('completes a body without its check digit where it is told so, and says so', () => {
    const told = { gtin: '629104150021', withoutCheckDigit: true }
    expect(run(told)).toMatchObject({ gtin14: '06291041500213', checkDigit: 3 })
    expect(run(told).warnings).toHaveLength(1)
    expect(run({ gtin: '2345678' })).toMatchObject({ gtin14: '00000023456785' })
    expect(() => run({ gtin: '6291041500213', withoutCheckDigit: false })).not.toThrow()
    expect(() => run({ lot: 'A', withoutCheckDigit: true })).toThrow(/withoutCheckDigit.*gtin/)
    expect(() => run({ gtin: '96291041500216', withoutCheckDigit: true })).toThrow(/14 digits.*7, 11, 12 or 13/)
  })

  // A GTIN-12 with one digit mistyped would else become the number of another product.
  it.each(['999999999994', '629104150021', '036000291453'])('takes %s for a whole GTIN-12 and refuses it', (gtin) =>
    expect(() => run({ gtin })).toThrow(/check digit is \d.*withoutCheckDigit/),
  )

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
    [0.4755, '(3104)004755'],
    [0.00001, '(3105)000001'],
    [1234.5, '(3102)123450'],
  ])('writes %d kg as %s', (netKg, element) => expect(run({ netKg }).elementString).toBe(element))

  it.each([
    [{ netKg: 999.9999 }, /netKg.*at most 3 decimals/],
    [{ netKg: 999.9995 }, /netKg.*at most 3 decimals/],
    [{ netKg: 9999.996 }, /netKg.*at most 2 decimals/],
    [{ netKg: 99_999.96 }, /netKg.*at most 1 decimal/],
    [{ netKg: 999_998.7 }, /netKg.*allowed: a whole number/],
    [{ netLb: 999.9999 }, /netLb.*at most 3 decimals/],
    [{ netKg: 0.000001 }, /netKg.*at most 5 decimals/],
    [{ netKg: 10.123456 }, /netKg.*at most 4 decimals/],
    [{ gtin: '96291041500216', netKg: 1, price: 1.005 }, /price.*at most 2 decimals/],
    [{ gtin: '96291041500216', netKg: 1, price: 12.345 }, /price.*at most 2 decimals/],
  ])('refuses what its field cannot hold exactly, and rounds nothing: %j', (input, message) =>
    expect(() => run(input)).toThrow(message),
  )

  it('always writes six digits that give the weight back (any weight of at most 5 decimals that fits)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999 }), fc.integer({ min: 0, max: 5 }), (units, decimals) => {
        const netKg = units / 10 ** decimals
        const [, n, digits] = /^\(310(\d)\)(\d{6})$/.exec(run({ netKg }).elementString)!
        expect(Number(digits) / 10 ** Number(n)).toBe(netKg)
      }),
    )
  })

  // GS1 General Specifications, 7.12: the reader takes the year nearest its own, 49 back to 50 ahead.
  it.each(['1999-12-31', '2076-01-01', '2125-06-30'])('refuses %s, whose two digits a reader takes for another', (d) =>
    expect(() => run({ bestBefore: d })).toThrow(/bestBefore.*2000 to 2075/),
  )
  it('writes the first and the last date every reader understands', () => {
    expect(run({ producedOn: '2000-01-01', bestBefore: '2075-12-31' }).elementString).toBe('(11)000101(15)751231')
  })
})

describe('more of a pack in its code (GS1 application identifiers, gs1.org list)', () => {
  it('orders fixed fields first and parts the open ones with the separator, the lot last', () => {
    const o = run({
      gtin: '96291041500216',
      netKg: 1.25,
      packedOn: '2025-12-01',
      sellBy: '2025-12-20',
      useBy: '2025-12-31',
      price: 12.5,
      serial: 'A7',
      lot: 'L1',
    })
    expect(o.elementString).toBe('(01)96291041500216(3103)001250(13)251201(16)251220(17)251231(3922)1250(21)A7(10)L1')
    expect(o.encoded.split('\u001d')).toEqual([
      '0196291041500216310300125013251201162512201725123139221250',
      '21A7',
      '10L1',
    ])
    expect(o.warnings).toEqual([])
  })

  it('writes what a case holds with 02 and 37, and pounds with 320n', () => {
    expect(run({ contentGtin: '6291041500213', count: 12 }).elementString).toBe('(02)06291041500213(37)12')
    expect(run({ gtin: '96291041500216', netLb: 2.5 }).elementString).toBe('(01)96291041500216(3203)002500')
  })

  it('warns of a weight beside a number of fixed measure, and of a variable one without', () => {
    expect(run({ gtin: '6291041500213', netKg: 1 }).warnings.join()).toMatch(/begins with 9/)
    expect(run({ gtin: '96291041500216' }).warnings.join()).toMatch(/net weight goes with it/)
  })

  it.each([
    [{ gtin: '6291041500213', price: 3 }, /price.*variable measure/],
    [{ netKg: 1, netLb: 2 }, /netLb.*one of the two/],
    [{ gtin: '6291041500213', contentGtin: '6291041500213', count: 2 }, /contentGtin.*one of the two/],
    [{ contentGtin: '6291041500213' }, /count.*missing/],
    [{ lot: 'A', count: 2 }, /count.*without contentGtin/],
    [{ packedOn: '2026-02-02', useBy: '2026-02-01' }, /packedOn.*after useBy/],
    [{ producedOn: '2026-02-03', packedOn: '2026-02-02' }, /producedOn.*after packedOn/],
    [{ contentGtin: '6291041500214', count: 2 }, /contentGtin.*check digit is 3/],
  ])('refuses what cannot stand together: %j', (input, message) => expect(() => run(input)).toThrow(message))
})

describe('thirteen digits with price or weight', () => {
  type InStore = {
    inStore: { ean13: string; checkDigit: number; parts: { digits: string; laidDownBy: string }[] }
    warnings: string[]
  }
  const inStore = (i: object) => (run({ inStore: i }) as unknown as InStore).inStore
  const price = { prefix: '02', item: '12345', of: 'price', value: 12.5, digits: 5, decimals: 2 }

  // Check digits by hand, weights 3, 1 … from the right: 02 12345 01250 sums to 45 → 5; 28 1234 5 00475 to 87 → 3.
  it('puts the price in five digits: 02 12345 01250 5', () => {
    expect(inStore(price).ean13).toBe('0212345012505')
    expect(
      inStore({ ...price, prefix: '28', item: '1234', verifier: '5', of: 'weight', value: 0.475, decimals: 3 }).ean13,
    ).toBe('2812345004753')
  })

  it('says which parts a country or a shop lays down', () => {
    const { parts } = inStore(price)
    expect(parts.map((p) => p.laidDownBy)).toEqual(['GS1', 'country or shop', 'country or shop', 'GS1'])
    expect(run({ inStore: price }).warnings.join()).toMatch(/country or the shop/)
  })

  it.each([
    [{ ...price, prefix: '30' }, /prefix/],
    [{ ...price, item: '1234' }, /makes 9 digits/],
    [{ ...price, value: 12.505 }, /2 decimals cannot hold/],
    [{ ...price, value: 1000 }, /allowed: under 1000/],
    [{ ...price, verifier: '7' }, /makes 11 digits/],
    [{ ...price, item: '12a45' }, /item/],
  ])('refuses %j', (i, message) => expect(() => run({ inStore: i })).toThrow(message))

  it('always checks, and gives the value back (any price)', () => {
    fc.assert(
      fc.property(
        fc.nat(99_999),
        fc.stringMatching(/^\d{5}$/),
        fc.constantFrom('02', '20', '29'),
        (cents, item, prefix) => {
          const { ean13 } = inStore({ ...price, item, prefix, value: cents / 100 })
          expect(readGtin(ean13)).toMatchObject({ ok: true })
          expect(Number(ean13.slice(7, 12))).toBe(cents)
        },
      ),
    )
  })
})
