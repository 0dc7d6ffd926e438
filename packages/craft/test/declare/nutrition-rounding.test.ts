import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { NutritionInput, NutritionOutput } from '../../src/declare/nutrition-schema.ts'
import { declared } from '../../src/declare/rounding.ts'
import { figures } from '../../src/rules.ts'

const run = (input: NutritionInput) => calculations['declare.nutrition']!.run(input) as NutritionOutput
const format = (place: string, id?: string) => {
  const all = figures('nutrition')[place]!
  return all.find((f) => f.id === id) ?? all[0]!
}
const printed = (place: string, key: string, value: number) =>
  declared(format(place).rows.find((r) => r.key === key)!.rounding, value).text
const all = { fatG: 20, saturatedG: 7, carbohydrateG: 3, sugarsG: 1, proteinG: 15, fibreG: 0.5, sodiumMg: 720 }

describe('rounding in the US (FDA Food Labeling Guide, appendix H, October 2009, for 21 CFR 101.9(c))', () => {
  it.each([
    ['calories', 4.9, '0'],
    ['calories', 5, '5'],
    ['calories', 7.4, '5'],
    ['calories', 7.5, '10'],
    ['calories', 50, '50'],
    ['calories', 50.1, '50'],
    ['calories', 52, '50'],
    ['calories', 54.9, '50'],
    ['calories', 55, '60'],
    ['calories', 264, '260'],
    ['fat', 0.49, '0'],
    ['fat', 0.5, '0.5'],
    ['fat', 0.74, '0.5'],
    ['fat', 0.75, '1'],
    ['fat', 4.74, '4.5'],
    ['fat', 4.76, '5'],
    ['fat', 5, '5'],
    ['fat', 5.49, '5'],
    ['fat', 5.5, '6'],
    ['saturated', 0.49, '0'],
    ['trans', 0.5, '0.5'],
    ['cholesterol', 1.9, '0'],
    ['cholesterol', 2, 'less than 5'],
    ['cholesterol', 3, 'less than 5'],
    ['cholesterol', 5, 'less than 5'],
    ['cholesterol', 5.1, '5'],
    ['cholesterol', 7.5, '10'],
    ['sodium', 4.9, '0'],
    ['sodium', 5, '5'],
    ['sodium', 140, '140'],
    ['sodium', 142, '140'],
    ['sodium', 146, '150'],
    ['carbohydrate', 0.49, '0'],
    ['carbohydrate', 0.5, 'less than 1'],
    ['carbohydrate', 0.99, 'less than 1'],
    ['carbohydrate', 1, '1'],
    ['carbohydrate', 1.5, '2'],
    ['fibre', 0.5, 'less than 1'],
    ['sugars', 0.99, 'less than 1'],
    ['protein', 0.4, '0'],
    ['protein', 0.5, 'less than 1'],
    ['protein', 11.5, '12'],
  ])('%s %d is printed %s', (key, value, text) => expect(printed('US', key, value)).toBe(text))

  // "Nearest 2 % to 10 %, 5 % to 50 %, 10 % above": 21 CFR 101.9(c)(8)(iii), quoted; under 2 % zero, or 2 % from 1 %.
  it.each([
    [0.9, '0'],
    [1, '2'],
    [2.9, '2'],
    [3, '4'],
    [10, '10'],
    [10.1, '10'],
    [12.5, '15'],
    [50, '50'],
    [50.1, '50'],
    [55, '60'],
  ])('a vitamin or mineral at %d %% of its daily value is printed %s %%', (pct, text) => {
    const { dvRounding } = format('US').rows.find((r) => r.key === 'iron')!
    expect(declared(dvRounding!, pct).text).toBe(text)
  })

  it('servings in a pack go to the half from 2 to 5 and to the whole above', () => {
    const servings = (packG: number) =>
      run({ jurisdiction: 'US', per100g: all, servingG: 100, packG }).servingsPerContainer
    expect([servings(190), servings(224), servings(225), servings(500), servings(549), servings(550)]).toEqual([
      undefined,
      '2',
      '2.5',
      '5',
      '5',
      '6',
    ])
  })
})

describe('rounding in the EU and Great Britain (Commission guidance on tolerances, December 2012, section 6)', () => {
  it.each([
    ['energyKj', 1050.4, '1050'],
    ['energyKj', 1050.5, '1051'],
    ['energyKcal', 252.5, '253'],
    ['fat', 0, '< 0.5'],
    ['fat', 0.5, '< 0.5'],
    ['fat', 0.51, '0.5'],
    ['fat', 9.94, '9.9'],
    // The band stands by the unrounded value; the guidance leaves this open.
    ['fat', 9.96, '10.0'],
    ['fat', 10, '10'],
    ['fat', 10.4, '10'],
    ['fat', 10.5, '11'],
    ['saturated', 0.1, '< 0.1'],
    ['saturated', 0.11, '0.1'],
    ['saturated', 9.99, '10.0'],
    ['saturated', 10.5, '11'],
    ['carbohydrate', 0.5, '< 0.5'],
    ['sugars', 0.55, '0.6'],
    ['protein', 14.5, '15'],
    ['fibre', 0.5, '< 0.5'],
    ['salt', 0.0124, '< 0.01'],
    ['salt', 0.0125, '< 0.01'],
    ['salt', 0.0126, '0.01'],
    ['salt', 0.996, '1.00'],
    ['salt', 1, '1.0'],
    ['salt', 1.25, '1.3'],
    ['salt', 1.8, '1.8'],
  ])('%s %d is printed %s', (key, value, text) => expect(printed('EU', key, value)).toBe(text))
})

describe('every rounding rule', () => {
  const rows = ['EU', 'US', 'CA', 'AU-NZ'].flatMap((p) =>
    figures('nutrition')[p]!.flatMap((f) => f.rows.map((r) => [f.id, r] as const)),
  )
  it.each(rows.map(([id, r]) => [`${id} ${r.key}`, r] as const))(
    '%s never prints less for more, nor a figure far off',
    (_, r) => {
      fc.assert(
        fc.property(
          fc.double({ min: 0, max: 400, noNaN: true }),
          fc.double({ min: 0, max: 20, noNaN: true }),
          (v, d) => {
            const [a, b] = [declared(r.rounding, v), declared(r.rounding, v + d)]
            if (a.value !== undefined && b.value !== undefined) expect(b.value).toBeGreaterThanOrEqual(a.value)
            const step = Math.max(...r.rounding.map((x) => x.step ?? 0))
            if (a.value !== undefined) expect(Math.abs(a.value - v)).toBeLessThanOrEqual(step / 2 + 1e-9)
          },
        ),
        { numRuns: 300 },
      )
    },
  )
})
