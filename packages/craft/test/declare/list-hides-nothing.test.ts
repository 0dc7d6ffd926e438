import { describe, expect, it } from 'vitest'
import { ingredients } from '../../src/declare/ingredients.ts'
import { label } from '../../src/declare/label/label.ts'
import type { IngredientsInput } from '../../src/declare/ingredients-schema.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'
import { meatSpeciesOf } from '../../src/declare/label/meat-quid.ts'
import { computeRecipe } from '../../src/recipe/compute.ts'

type Items = IngredientsInput['items']
const list = (items: Items, jurisdiction: IngredientsInput['jurisdiction'] = 'EU', more: object = {}) =>
  ingredients({ jurisdiction, items: [{ kg: 10, material: 'pork-shoulder-trim' }, ...items], ...more })
const spec = { allergenSource: 'specification 4' }
const cure = { kg: 0.02, material: 'curing-salt-6.25-nitrite', ...spec }

describe('an additive the table knows stands in the list whatever a supplier calls it (Regulation (EU) 1169/2011, Annex VII C)', () => {
  it.each([
    ['a statement without allergens', { ...cure, allergens: [] }],
    ['a statement with a name', { ...cure, allergens: [], name: 'curing salt' }],
    ['a statement with an allergen', { ...cure, allergens: ['milk' as const], name: 'curing salt' }],
    ['a list that leaves it out', { ...cure, allergens: [], parts: [{ name: 'salt' }] }],
    ['a list that names it', { ...cure, allergens: [], parts: [{ name: 'salt' }, { name: 'sodium nitrite' }] }],
  ])('with %s', (_what, item) => {
    expect(list([item]).text).toContain('preservative (sodium nitrite)')
    expect(list([item], 'EU', { additiveBy: 'number' }).text).toContain('preservative (E250)')
    expect(list([item], 'US').text).toMatch(/sodium nitrite/)
  })

  it('names its allergen too', () => {
    const { text, textCapitals } = list([{ ...cure, allergens: ['milk'], name: 'curing salt' }])
    expect(text).toMatch(/curing salt \(salt, preservative \(sodium nitrite\)\) \(milk\)/)
    expect(textCapitals).toContain('MILK')
  })

  it('keeps the class of an additive with a name of its own, and of one within a list', () => {
    const named = { kg: 0.01, material: 'sodium-ascorbate', name: 'cure aid', allergens: [], ...spec }
    expect(list([named]).text).toContain('antioxidant (sodium ascorbate)')
    const mix = {
      kg: 0.1,
      name: 'seasoning',
      allergens: [],
      parts: [{ name: 'salt' }, { name: 'Sodium nitrite (E250)' }],
    }
    expect(list([mix]).text).toContain('seasoning (salt, preservative (sodium nitrite))')
  })

  it('is one of what a label counts as cured, by name or by number', () => {
    const base: LabelInput = {
      place: 'EU',
      recipe: 'RING',
      product: { name: 'Uncured ring', kind: 'cooked', smoked: false, readyToEat: true },
      items: [
        { kg: 10, material: 'pork-shoulder-trim' },
        { kg: 0.02, material: 'curing-salt-6.25-nitrite' },
      ],
      packedOn: '2026-02-02',
      pack: { additiveBy: 'number' },
    }
    expect(label(base).ingredients.text).toContain('E250')
    expect(label({ ...base, place: 'US' }).findings.length).toBeGreaterThan(0)
  })
})

describe('what is made of several things has its own list (Regulation (EU) 1169/2011, Annex VII E; 9 CFR 317.2(f))', () => {
  const compounds = [
    'bacon',
    'salt-pork',
    'sauerkraut',
    'cranberry-dried',
    'olives-green',
    'anchovy',
    'soy-textured-hydrated',
  ]
  const open = (id: string, place: IngredientsInput['jurisdiction'], item: object = {}) =>
    list([{ kg: 1, material: id, ...item }], place).findings.find((f) => f.rule.endsWith('.label.compound'))
  it.each(compounds)('%s', (id) => {
    for (const place of ['EU', 'US', 'AU-NZ', 'CA'] as const)
      expect(open(id, place), `${id} in ${place}`).toMatchObject({
        verdict: 'cannot-tell',
        because: /list is not given/,
      })
  })

  it('stops a cheese in the United States, and not in the European Union, where the salt of its make needs no list (Article 19(1)(d))', () => {
    const cheese = { allergens: ['milk' as const], ...spec }
    expect(open('cheese-cheddar', 'US', cheese)).toMatchObject({ verdict: 'cannot-tell', because: /list is not given/ })
    expect(open('cheese-cheddar', 'EU', cheese)!.because).not.toMatch(/list is not given/)
  })

  it('names bacon bacon, and lists what is in it with the class of its preservative', () => {
    const parts = [{ name: 'pork' }, { name: 'salt' }, { name: 'sodium nitrite' }]
    expect(list([{ kg: 2, material: 'bacon', allergens: [], ...spec, parts }]).text).toBe(
      'pork, bacon (pork, salt, preservative (sodium nitrite))',
    )
    expect(list([{ kg: 2, material: 'salt-pork' }]).text).toBe('pork, salt pork')
  })

  it.each([
    ['chicken-skin', 'chicken skin'],
    ['turkey-skin', 'turkey skin'],
    ['mutton-shoulder', 'mutton'],
  ])('%s is named %s', (id, name) => {
    expect(list([{ kg: 1, material: id }]).text).toContain(name)
  })

  it('does not count skin by itself as meat of the bird', () => {
    expect(meatSpeciesOf('chicken-skin')).toBeUndefined()
    expect(meatSpeciesOf('chicken-thigh-skin-on')).toBe('chicken')
  })

  it('leaves the nitrite of a recipe with bacon not known, never zero', () => {
    const recipe = {
      name: 'Farm link',
      kind: 'fresh' as const,
      smoked: false,
      readyToEat: false,
      meat: [
        { material: 'pork-shoulder-trim', pct: 80 },
        { material: 'bacon', pct: 20 },
      ],
      additions: [{ material: 'salt', pct: 1 }],
    }
    const { measures, facts } = computeRecipe({ recipe, meatKg: 10 })
    expect(measures['nitritePpm']).toMatchObject({ missing: expect.stringContaining('Bacon') })
    expect(facts['cured']).not.toBe(false)
  })
})

describe('fish, crustaceans and molluscs (Regulation (EU) 1169/2011, Article 21(1)(a): with reference to the name of Annex II)', () => {
  it.each([
    [
      {
        kg: 0.1,
        material: 'anchovy',
        allergens: ['fish' as const],
        ...spec,
        parts: [{ name: 'anchovy' }, { name: 'salt' }],
      },
      'FISH',
    ],
    [{ kg: 0.1, name: 'prawn powder', allergens: ['crustacean' as const], ...spec }, 'CRUSTACEAN'],
    [{ kg: 0.1, name: 'oyster extract', allergens: ['mollusc' as const], ...spec }, 'MOLLUSC'],
  ])('%s', (item, word) => {
    for (const place of ['EU', 'GB', 'AU-NZ'] as const) expect(list([item], place).textCapitals).toContain(`(${word})`)
  })
  it('stand by it in every language of the label, and in the summary of Australia and New Zealand by it alone', () => {
    const anchovy = { kg: 0.1, material: 'anchovy', lot: 'A', supplier: 'Quay' }
    const made = (place: 'EU' | 'AU-NZ') =>
      label({
        place,
        recipe: 'X',
        product: { name: 'Link', kind: 'fresh', smoked: false, readyToEat: false },
        items: [{ kg: 10, material: 'pork-shoulder-trim' }, anchovy],
        packedOn: '2026-02-02',
        pack: {
          languages: [
            { language: 'en' },
            { language: 'fr', name: 'Saucisse', words: [{ of: 'anchovy', is: 'anchois' }] },
          ],
          statements: [{ material: 'anchovy', supplier: 'Quay', allergens: ['fish'], document: 'spec 3' }],
        },
      })
    expect(made('EU').versions[1]!.list.textCapitals).toMatch(/ANCHOIS \(POISSON\)/)
    expect(made('AU-NZ').ingredients.contains).toBe('Contains: fish')
  })
  it('is not said twice', () => {
    expect(list([{ kg: 0.1, name: 'fish sauce', allergens: ['fish'], ...spec }]).textCapitals).not.toMatch(/\(FISH\)/)
  })
})
