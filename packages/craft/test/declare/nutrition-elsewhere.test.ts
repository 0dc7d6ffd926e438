import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import type { NutritionInput, NutritionOutput } from '../../src/declare/nutrition-schema.ts'
import { declared } from '../../src/declare/rounding.ts'
import { figures } from '../../src/rules.ts'

const run = (input: NutritionInput) => calculations['declare.nutrition']!.run(input) as NutritionOutput
const format = (place: string) => figures('nutrition')[place]![0]!
const rowOf = (o: NutritionOutput, key: string) => o.panel.find((r) => r.key === key)!
const printed = (place: string, key: string, value: number) =>
  declared(format(place).rows.find((r) => r.key === key)!.rounding, value).text
const whole = {
  fatG: 20,
  saturatedG: 7,
  transG: 0.2,
  carbohydrateG: 3,
  sugarsG: 1,
  proteinG: 15,
  fibreG: 0.5,
  sodiumMg: 720,
  cholesterolMg: 60,
  potassiumMg: 260,
  calciumMg: 12,
  ironMg: 1,
}

// Food and Drug Regulations (Canada), B.01.401, table, items 2 to 15, column 4: as read, the amount of "all other cases".
describe('rounding in Canada (Food and Drug Regulations, B.01.401, table, column 4)', () => {
  it.each([
    ['calories', 4.4, '4'],
    ['calories', 4.5, '5'],
    ['calories', 5, '5'],
    ['calories', 7.5, '10'],
    ['calories', 50, '50'],
    ['calories', 50.1, '50'],
    ['calories', 55, '60'],
    ['fat', 0.04, '0'],
    ['fat', 0.49, '0.5'],
    ['fat', 0.5, '0.5'],
    ['fat', 0.74, '0.5'],
    ['fat', 0.75, '1'],
    ['fat', 5, '5'],
    ['fat', 5.01, '5'],
    ['fat', 5.5, '6'],
    ['saturated', 0.24, '0.2'],
    ['trans', 0.5, '0.5'],
    ['cholesterol', 2.4, '0'],
    ['cholesterol', 2.5, '5'],
    ['cholesterol', 62.5, '65'],
    ['sodium', 4.4, '4'],
    ['sodium', 5, '5'],
    ['sodium', 7.5, '10'],
    ['sodium', 140, '140'],
    ['sodium', 140.1, '140'],
    ['sodium', 145, '150'],
    ['carbohydrate', 0.49, '0'],
    ['carbohydrate', 0.5, '1'],
    ['fibre', 1.5, '2'],
    ['sugars', 0.4, '0'],
    ['protein', 0.44, '0.4'],
    ['protein', 0.5, '1'],
    ['protein', 14.5, '15'],
    ['potassium', 4.9, '0'],
    ['potassium', 5, '10'],
    ['potassium', 49, '50'],
    ['potassium', 50, '50'],
    ['potassium', 62.5, '75'],
    ['potassium', 249, '250'],
    ['potassium', 250, '250'],
    ['potassium', 275, '300'],
    ['calcium', 14, '10'],
    ['iron', 0.04, '0'],
    ['iron', 0.05, '0.1'],
    ['iron', 0.49, '0.5'],
    ['iron', 0.5, '0.5'],
    ['iron', 0.63, '0.75'],
    ['iron', 2.49, '2.5'],
    ['iron', 2.5, '2.5'],
    ['iron', 2.75, '3'],
  ])('%s %d is printed %s', (key, value, text) => expect(printed('CA', key, value)).toBe(text))

  it('servings in a pack: whole under 2, halves from 2 to 5, whole above (B.01.402, table, item 1)', () => {
    const servings = (packG: number) =>
      run({ jurisdiction: 'CA', per100g: whole, servingG: 100, packG }).servingsPerContainer
    expect([servings(149), servings(150), servings(225), servings(500), servings(549)]).toEqual([
      '1',
      '2',
      '2.5',
      '5',
      '5',
    ])
  })
})

describe('the table of Canada', () => {
  const o = run({ jurisdiction: 'CA', servingG: 100, per100g: whole })

  it('adds saturated and trans fat for one percent, and takes that of a mineral from the printed amount', () => {
    // (7 + 0.2) g of 20 g is 36 %; potassium 260 mg prints 250, which is 7.35 % of 3400. Daily values from memory.
    expect(rowOf(o, 'saturatedTrans')).toMatchObject({ declaredPerServing: '36', unit: '% DV' })
    expect(rowOf(o, 'saturatedTrans').declaredDv).toBeUndefined()
    expect(rowOf(o, 'potassium')).toMatchObject({ declaredPerServing: '250', declaredDv: '7' })
    expect(rowOf(o, 'calories').declaredPerServing).toBe('250')
  })

  it('is complete, but cannot tell where daily values and energy factors are from memory', () => {
    expect(o.complete).toBe(true)
    expect(o.findings.map((f) => [f.rule, f.verdict])).toEqual([
      ['ca.nutrition.complete', 'pass'],
      ['ca.nutrition.daily-values', 'cannot-tell'],
    ])
    expect(o.findings[1]!.source.mark).toBe('from-memory')
    expect(o.footnotes).toEqual(['*5% or less is a little, 15% or more is a lot'])
  })

  it('is not complete without potassium, and names it', () => {
    const { potassiumMg: _, ...without } = whole
    const less = run({ jurisdiction: 'CA', servingG: 100, per100g: without })
    expect(less.complete).toBe(false)
    expect(less.findings[0]!.because).toMatch(/Potassium/)
  })

  it('asks for the serving', () =>
    expect(() => run({ jurisdiction: 'CA', per100g: whole })).toThrow(/servingG.*panel of CA/))
})

// Standard 1.2.8 (1.2.8—6, 1.2.8—8) and Schedule 11 (S11—3), New Zealand Gazette of 8 May 2015, numbers 49 and 50.
describe('the panel of Australia and New Zealand', () => {
  const o = run({ jurisdiction: 'AU-NZ', servingG: 75, packG: 450, per100g: whole })

  it('stands for a serving and for 100 g beside each other', () => {
    expect(o.columns).toEqual(['per serving', 'per 100 g'])
    // 20 × 37 + 3 × 17 + 15 × 17 + 0.5 × 8 = 1050 kJ; of 75 g 787.5.
    expect(rowOf(o, 'energyKj')).toMatchObject({ declaredPer100g: '1050', declaredPerServing: '788' })
    expect(rowOf(o, 'sodium')).toMatchObject({ declaredPer100g: '720', declaredPerServing: '540' })
    expect(o.servingsPerContainer).toBe('6')
  })

  it('holds the reference values of the percent daily intake of 1.2.8—8', () => {
    expect(Object.fromEntries(format('AU-NZ').rows.map((r) => [r.key, r.dailyValue]))).toEqual({
      energyKj: 8700,
      protein: 50,
      fat: 70,
      saturated: 24,
      carbohydrate: 310,
      sugars: 90,
      fibre: 30,
      sodium: 2300,
    })
    // 15 g of fat in 75 g, of 70 g: 21.4 %.
    expect(rowOf(o, 'fat').declaredDv).toBe('21')
  })

  it.each([
    ['energyKj', 999.4, '999'],
    ['energyKj', 999.5, '1000'],
    ['energyKj', 1234, '1230'],
    ['energyKj', 1235, '1240'],
    ['fat', 9.96, '10.0'],
    ['fat', 99.94, '99.9'],
    ['fat', 99.96, '100'],
    ['sodium', 1004.9, '1000'],
    ['sodium', 1005, '1010'],
  ])('%s %d prints %s, never more than three figures', (key, value, text) => {
    expect(printed('AU-NZ', key, value)).toBe(text)
    expect(text.replace(/^0\.|\./, '').replace(/0+$/, '').length).toBeLessThanOrEqual(3)
  })

  it('cannot tell energy or carbohydrate where there are polyols, whose factors are not held', () => {
    const sweet = run({ jurisdiction: 'AU-NZ', servingG: 75, per100g: { ...whole, carbohydrateG: 13, polyolsG: 10 } })
    expect(rowOf(sweet, 'energyKj').declaredPer100g).toBeUndefined()
    expect(rowOf(sweet, 'carbohydrate').missing.join()).toMatch(/polyols/)
    expect(sweet.complete).toBe(false)
  })

  it('never passes on energy factors from memory', () => {
    expect(o.findings.find((f) => f.rule === 'au-nz.nutrition.energy-factors')?.verdict).toBe('cannot-tell')
  })
})
