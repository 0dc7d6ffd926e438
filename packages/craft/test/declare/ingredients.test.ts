import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import type { IngredientsInput, IngredientsOutput } from '../../src/declare/ingredients-schema.ts'

const run = (input: IngredientsInput) => calculations['declare.ingredients']!.run(input) as IngredientsOutput
const verdict = (o: IngredientsOutput, rule: string) => o.findings.find((f) => f.rule.endsWith(rule))?.verdict

const brat = [
  { kg: 70, material: 'pork-shoulder-trim' },
  { kg: 20, material: 'pork-back-fat' },
  { kg: 9, material: 'ice' },
  { kg: 1.8, material: 'salt' },
  { kg: 0.3, material: 'white-pepper' },
  { kg: 0.1, material: 'mace' },
  { kg: 0.2, material: 'mustard-seed' },
  { kg: 0.05, material: 'marjoram-dried' },
]

describe('order of the list (Regulation (EU) 1169/2011, Article 18(1): descending weight as recorded at their use)', () => {
  it('names meat by its species and stands in descending weight', () => {
    expect(run({ jurisdiction: 'EU', items: brat.toReversed() }).text).toBe(
      'pork, pork fat, water, salt, white pepper, mustard seed, mace, marjoram',
    )
  })

  it('puts lots of one kind together before they are placed', () => {
    const o = run({
      jurisdiction: 'EU',
      items: [
        { kg: 30, material: 'beef-chuck-trim', name: 'beef' },
        { kg: 20, material: 'pork-shoulder-trim' },
        { kg: 15, material: 'pork-shoulder-lean' },
      ],
    })
    expect(o.items.map((i) => [i.name, i.kg])).toEqual([
      ['pork', 35],
      ['beef', 30],
    ])
    expect(o.items[0]!.from).toEqual([1, 2])
  })

  it('writes a cure as its constituents: 2 kg of 0.6 % curing salt is salt and, last, the nitrite', () => {
    const o = run({
      jurisdiction: 'EU',
      items: [
        { kg: 100, material: 'pork-shoulder-trim' },
        { kg: 2, material: 'curing-salt-0.6-nitrite' },
        { kg: 0.05, material: 'sodium-erythorbate' },
      ],
    })
    expect(o.text).toBe('pork, salt, antioxidant (sodium erythorbate), preservative (sodium nitrite)')
    expect(o.items.map((i) => Number(i.kg.toFixed(6)))).toEqual([100, 1.988, 0.05, 0.012])
  })

  it('names additives by class and number where asked, by number alone in Australia, by name alone in the US', () => {
    const items = [
      { kg: 100, material: 'pork-shoulder-trim' },
      { kg: 0.25, material: 'curing-salt-6.25-nitrite' },
      { kg: 0.5, material: 'glucono-delta-lactone' },
    ]
    const of = (jurisdiction: 'EU' | 'AU-NZ' | 'US', additiveBy: 'name' | 'number') =>
      run({ jurisdiction, items, additiveBy, minorClause: false }).text
    expect(of('EU', 'number')).toBe('pork, acidity regulator (E575), salt, preservative (E250)')
    expect(of('AU-NZ', 'number')).toBe('pork, acidity regulator (575), salt, preservative (250)')
    expect(of('US', 'number')).toBe('pork, glucono-delta-lactone, salt, sodium nitrite')
  })
})

describe('added water (Regulation (EU) 1169/2011, Annex VII A 1: weight in the finished product, 5 %)', () => {
  const cooked = (otherKg: number, finishedKg: number, rest: Partial<IngredientsInput> = {}) =>
    run({
      jurisdiction: 'EU',
      items: [
        { kg: otherKg, material: 'pork-shoulder-trim' },
        { kg: 12, material: 'water' },
      ],
      finishedKg,
      productClass: 'meat-product',
      leaveOutWater: true,
      ...rest,
    })

  it('of 95 kg of other ingredients, 12 kg of water and 103 kg cooked is 8 kg, 7.77 %, and is listed', () => {
    const o = cooked(95, 103)
    const water = o.items.find((i) => i.name === 'water')!
    expect(water.kg).toBeCloseTo(8, 10)
    expect(water.pct).toBeCloseTo(7.77, 2)
    expect(verdict(o, 'label.water')).toBe('fail')
  })

  it('may be left out at 5 % of the finished product and not above', () => {
    expect(cooked(95, 100).text).toBe('pork')
    expect(cooked(95, 100.01).text).toBe('pork, water')
  })

  it('is never left out of meat preparations, nor where the class is not said', () => {
    expect(cooked(95, 98, { productClass: 'meat-preparation' }).text).toBe('pork, water')
    const { text } = run({
      jurisdiction: 'EU',
      items: [
        { kg: 95, material: 'pork-shoulder-trim' },
        { kg: 2, material: 'water' },
      ],
      leaveOutWater: true,
    })
    expect(text).toBe('pork, water')
  })

  it('that has all gone in drying is not listed in the EU, and is listed as it went in in the US', () => {
    expect(cooked(95, 70).text).toBe('pork')
    const us = run({
      jurisdiction: 'US',
      items: [
        { kg: 95, material: 'pork-shoulder-trim' },
        { kg: 12, material: 'water' },
      ],
      finishedKg: 70,
    })
    expect(us.text).toBe('pork, water')
  })
})

describe('groups and clauses', () => {
  it('puts spices under one word up to 2 % in the EU, but never one that carries an allergen', () => {
    const o = run({ jurisdiction: 'EU', items: brat, groupSpices: true })
    expect(o.text).toBe('pork, pork fat, water, salt, spices, mustard seed, marjoram')
    expect(o.textCapitals).toContain('MUSTARD seed')
    const hot = run({
      jurisdiction: 'EU',
      items: [
        { kg: 95, material: 'pork-shoulder-trim' },
        { kg: 1.5, material: 'paprika' },
        { kg: 1, material: 'black-pepper' },
      ],
      groupSpices: true,
    })
    expect(hot.text).toBe('pork, paprika, black pepper')
  })

  it('names garlic powder and paprika on their own in the US', () => {
    const o = run({
      jurisdiction: 'US',
      groupSpices: true,
      items: [
        { kg: 95, material: 'pork-shoulder-trim' },
        { kg: 0.5, material: 'paprika' },
        { kg: 0.4, material: 'garlic-powder' },
        { kg: 0.3, material: 'black-pepper' },
        { kg: 0.3, material: 'nutmeg' },
      ],
    })
    expect(o.text).toBe('pork, Contains 2 % or less of: spices, paprika, garlic powder')
  })

  // 21 CFR 101.4(a)(2), quoted: ingredients of 2 percent or less after a quantifying statement, none above the threshold behind it.
  it('puts the clause before the first ingredient of 2 % or less, exactly 2 % behind it', () => {
    const o = run({
      jurisdiction: 'US',
      items: [
        { kg: 95.9, material: 'pork-shoulder-trim' },
        { kg: 2.1, material: 'water' },
        { kg: 2, material: 'salt' },
      ],
    })
    expect(o.text).toBe('pork, water, Contains 2 % or less of: salt')
  })

  it('prints a compound ingredient with its own list, most first, and its allergens set off', () => {
    const o = run({
      jurisdiction: 'GB',
      items: [
        { kg: 60, material: 'pork-shoulder-trim', quidPct: 60 },
        {
          kg: 10,
          name: 'rusk',
          parts: [
            { name: 'salt', pct: 2, allergens: [] },
            { name: 'wheat flour', pct: 96, allergens: ['wheat', 'gluten-cereal'] },
            { name: 'yeast', pct: 2, allergens: [] },
          ],
        },
      ],
    })
    expect(o.textCapitals).toBe('pork (60 %), rusk (WHEAT flour, salt, yeast)')
    expect(verdict(o, 'compound')).toBe('pass')
  })

  it('names wheat and gluten of two lots that go by one name and differ in what they carry', () => {
    const lot = (allergens: ('wheat' | 'gluten-cereal')[]) => ({ kg: 1, name: 'seasoning', allergens })
    const o = run({ jurisdiction: 'EU', items: [lot(['wheat']), lot(['gluten-cereal'])] })
    expect(o.textCapitals).toBe('seasoning (WHEAT, GLUTEN CEREAL)')
  })

  it('puts an allergen no word names in brackets behind: butter (MILK)', () => {
    const o = run({
      jurisdiction: 'EU',
      items: [
        { kg: 9, material: 'veal-shank', name: 'veal' },
        { kg: 1, material: 'butter' },
      ],
    })
    expect(o.textCapitals).toBe('veal, butter (MILK)')
    expect(o.text.slice(o.emphasised[0]!.start, o.emphasised[0]!.end)).toBe('milk')
  })

  it('writes grams for 100 g where the quantity passes 100 %, and says that a casing cannot be eaten', () => {
    const o = run({
      jurisdiction: 'EU',
      items: [{ kg: 97, material: 'pork-shoulder-trim', quidPct: 149.2 }],
      casing: { edible: false },
    })
    expect(o.text).toBe('pork (149 g per 100 g of product)')
    expect(o.statements).toEqual(['casing not edible'])
  })
})

describe('what stops the list', () => {
  it('an ingredient without an allergen statement, until its supplier gives one', () => {
    const mix = { kg: 2, name: 'bratwurst seasoning' }
    const items = [{ kg: 100, material: 'pork-shoulder-trim' }, mix]
    expect(verdict(run({ jurisdiction: 'EU', items }), 'allergen-source')).toBe('cannot-tell')
    const told = [
      items[0]!,
      { ...mix, allergens: ['mustard' as const, 'celery' as const], allergenSource: 'specification 12' },
    ]
    const o = run({ jurisdiction: 'EU', items: told })
    expect(verdict(o, 'allergen-source')).toBe('pass')
    expect(o.textCapitals).toContain('bratwurst seasoning (CELERY, MUSTARD)')
  })

  it('a compound material without its list, save a mix of spices under 2 % in the EU', () => {
    const at = (kg: number, jurisdiction: 'EU' | 'US') =>
      verdict(
        run({
          jurisdiction,
          items: [
            { kg: 100, material: 'pork-shoulder-trim' },
            { kg, material: 'curry-powder', allergens: [] },
          ],
        }),
        'compound',
      )
    expect(at(1, 'EU')).toBe('pass')
    expect(at(2.5, 'EU')).toBe('cannot-tell')
    expect(at(1, 'US')).toBe('cannot-tell')
  })

  it('an additive without its class in the EU', () => {
    const items = [
      { kg: 100, material: 'pork-shoulder-trim' },
      { kg: 0.1, name: 'gum', role: 'additive' as const, allergens: [] },
    ]
    expect(verdict(run({ jurisdiction: 'EU', items }), 'additive-class')).toBe('cannot-tell')
    const named = [items[0]!, { ...items[1]!, additive: { class: 'thickener', name: 'guar gum', number: '412' } }]
    const o = run({ jurisdiction: 'EU', items: named })
    expect(verdict(o, 'additive-class')).toBe('pass')
    expect(o.text).toBe('pork, thickener (guar gum)')
  })

  it('a nut, cereal or fish without its kind', () => {
    const of = (name: string) =>
      verdict(
        run({
          jurisdiction: 'US',
          items: [
            { kg: 10, material: 'pork-shoulder-trim' },
            { kg: 1, name, allergens: ['tree-nut'] },
          ],
        }),
        'allergen-kind',
      )
    expect(of('nuts')).toBe('cannot-tell')
    expect(of('pistachios')).toBe('pass')
  })

  it('nothing, no name and an unknown material', () => {
    expect(() => run({ jurisdiction: 'EU', items: [] })).toThrow(/items/)
    expect(() => run({ jurisdiction: 'EU', items: [{ kg: 0, material: 'salt' }] })).toThrow(/weigh nothing/)
    expect(() => run({ jurisdiction: 'EU', items: [{ kg: 1 }] })).toThrow(/neither material nor name/)
    expect(() => run({ jurisdiction: 'EU', items: [{ kg: 1, material: 'nope' }] })).toThrow(/does not hold/)
  })
})
