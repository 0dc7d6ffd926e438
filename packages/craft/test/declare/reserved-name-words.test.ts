import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'
import { usesName } from '../../src/declare/name-words.ts'
import { figures } from '../../src/rules.ts'

type Product = LabelInput['product']
const failed = (
  place: LabelInput['place'],
  name: string,
  kind: Product['kind'],
  measures: NonNullable<Product['measures']>,
  material = 'pork-shoulder-trim',
) =>
  label({
    place,
    recipe: 'LINK',
    product: { name, kind, smoked: false, readyToEat: kind === 'cooked', measures },
    items: [{ kg: 9, material }],
    packedOn: '2026-02-02',
    pack: {},
  })
    .findings.filter((f) => f.verdict === 'fail')
    .map((f) => f.rule)

describe('reserved names by their words, not by one spelling', () => {
  // 9 CFR 319.141 (fat 50 %), 319.143, 319.144, 319.145 (fat 35 %).
  it.each([
    ['Pork sausage', '319.141'],
    ['Italian pork sausage', '319.145'],
    ['Italian-style sausage', '319.145'],
    ['ITALIAN SAUSAGES, hot', '319.145'],
    ['Pork links', '319.141'],
    ['Sausage, pork', '319.141'],
    ['Breakfast sausage links', '319.143'],
    ['Whole hog sausage', '319.144'],
  ])('a fresh sausage of 72.9 percent fat sold in the US as "%s" fails 9 CFR %s', (name, section) => {
    const rules = failed('US', name, 'fresh', { fatPct: 72.9, rawFatPct: 72.9, formulaWaterPct: 2, meatAndFatPct: 95 })
    expect(rules.some((r) => r.startsWith(`us.${section}`))).toBe(true)
  })

  it('a fresh beef sausage of 45 % fat fails 9 CFR 319.142 (30 %)', () => {
    expect(failed('US', 'Beef links', 'fresh', { fatPct: 45, formulaWaterPct: 1 }, 'beef-trim-85-15')).toContain(
      'us.319.142.fat',
    )
  })

  // 9 CFR 319.180(a): fat 30 %; 319.181; 319.182: liver 30 %; 319.260 and 319.261.
  it.each([
    ['Wieners', '319.180'],
    ['Bologna', '319.180'],
    ['Bologna-style sausage', '319.180'],
    ['Hot dogs', '319.180'],
    ['Hotdog', '319.180'],
    ['Beef franks', '319.180'],
    ['Knockwurst', '319.180'],
    ['Vienna sausage', '319.180'],
    ['Braun-schweiger', '319.182'],
    ['Liver sausage', '319.182'],
    ['Liverwurst', '319.182'],
  ])('a cooked sausage of 45 percent fat without liver sold in the US as "%s" fails 9 CFR %s', (name, section) => {
    const rules = failed('US', name, 'cooked', { fatPct: 45, addedWaterPct: 5, liverPct: 0 })
    expect(rules.some((r) => r.startsWith(`us.${section}`))).toBe(true)
  })

  // SI 2014/3001, Schedule 1, item 11(a): 42 % meat; item 4: 75 % for pig meat.
  it.each([
    ['Pork and apple sausages', 'fresh', 'gb.3001.pork-sausage.pig'],
    ['Sausages, pork', 'fresh', 'gb.3001.pork-sausage.pig'],
    ['Pork links', 'fresh', 'gb.3001.pork-sausage.pig'],
    ['Pork chipolatas', 'fresh', 'gb.3001.pork-sausage.pig'],
    ['Chopped pork', 'cooked', 'gb.3001.chopped.pig'],
    ['Luncheon meat', 'cooked', 'gb.3001.luncheon.pig'],
    ['Porkburgers', 'fresh', 'gb.3001.burger.pig'],
  ] as const)('in Great Britain "%s" of 40 percent meat (%s) fails %s', (name, kind, rule) => {
    expect(failed('GB', name, kind, { declaredMeatPct: 40, meatPct: 40 })).toContain(rule)
  })

  it('keeps a pork sausage of 45 % meat within item 11 of SI 2014/3001', () => {
    expect(failed('GB', 'Pork sausages', 'fresh', { declaredMeatPct: 45 })).toEqual([])
  })

  // Regulation (EU) 1169/2011, Annex VI, part B: minced meat with pigmeat, fat 30 %; other species 25 %, beef 20 %.
  it.each([
    ['Minced pork', 'pork-shoulder-trim', 31],
    ['Minced meat', 'pork-shoulder-trim', 31],
    ['Pork mince', 'pork-shoulder-trim', 31],
  ])('in the EU "%s" of %s with %d percent fat fails the table of minced meat', (name, material, fatPct) => {
    expect(failed('EU', name, 'fresh', { fatPct, collagenOfProteinPct: 12 }, material)).toContain(
      'eu.1169.minced.pigmeat.fat',
    )
  })

  it('judges minced pork of 28 % fat by the line for pigmeat alone', () => {
    expect(failed('EU', 'Minced pork', 'fresh', { fatPct: 28, collagenOfProteinPct: 12 })).toEqual([])
  })

  it.each([
    ['CA', 'ca.b14.sausage.fresh', 'Fresh sausage'],
    ['CA', 'ca.b14.sausage.fresh', 'Fresh pork sausages'],
    ['CA', 'ca.b14.sausage.cooked', 'Wieners'],
    ['US', 'us.319.181', 'Cheesefurters'],
    ['US', 'us.319.181', 'Cheese franks'],
    ['US', 'us.319.260', 'Luncheon meat'],
    ['US', 'us.319.260', 'Meat loaves'],
    ['AU-NZ', 'anz.2.2.1.sausage', 'Beef sausages'],
  ])('in %s %s is used by "%s"', (_place, id, name) => {
    expect(
      usesName(
        figures('reservedNames').find((n) => n.id === id)!,
        name,
        ['pork'],
      ),
    ).toBe(true)
  })

  it.each([
    ['us.319.141', 'Pork-free sausage'],
    ['us.319.141', 'Chicken sausage without pork'],
    ['gb.3001.pork-sausage', 'Pork sausage roll'],
    ['us.319.180.a', 'Spaghetti bolognese'],
    ['eu.1169.minced.pigmeat', 'Sausage of minced pork'],
    ['gb.3001.burger', 'Hamburger'],
  ])('%s is not used by "%s"', (id, name) => {
    expect(
      usesName(
        figures('reservedNames').find((n) => n.id === id)!,
        name,
        ['pork'],
      ),
    ).toBe(false)
  })
})
