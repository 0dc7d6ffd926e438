import { describe, expect, it } from 'vitest'
import { allergensIn } from '../../src/declare/allergen-words.ts'
import { declareAllergens } from '../../src/declare/allergens.ts'
import { ingredients } from '../../src/declare/ingredients.ts'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

const base: LabelInput = {
  place: 'EU',
  recipe: 'LINK',
  batch: 'LINK-7',
  product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
  items: [
    { kg: 9, material: 'pork-shoulder-trim' },
    { kg: 0.5, material: 'rusk' },
  ],
  packedOn: '2026-02-02',
  pack: {
    netG: 400,
    lotPattern: '{batch}',
    shelfLifeDays: 7,
    validation: 'storage trial',
    storage: 'chilled',
    storageC: 4,
    highlyPerishable: true,
    productClass: 'meat-preparation',
    business: 'Tansy Lane Kitchen, Brindleholt',
  },
}
const stating = (
  statement: Omit<NonNullable<LabelInput['pack']['statements']>[number], 'document'>,
  more: Partial<LabelInput> = {},
): LabelInput => ({
  ...base,
  ...more,
  pack: { ...base.pack, statements: [{ document: 'specification 7', ...statement }] },
})
const sources = (input: LabelInput) => label(input).blocks.filter((b) => b.id.includes('allergen-source'))

describe('a statement that denies what its own list or the table names (Regulation (EU) 1169/2011, Article 9(1)(c) and Annex II)', () => {
  const rusk = stating({
    material: 'rusk',
    allergens: [],
    parts: [{ name: 'wheat flour' }, { name: 'mustard flour' }, { name: 'celery' }],
  })

  it('declares wheat, mustard and celery of a rusk all the same', () => {
    const made = label(rusk)
    expect(made.allergens).toEqual(expect.arrayContaining(['wheat', 'celery', 'mustard']))
    expect(made.ingredients.textCapitals).toMatch(/WHEAT flour, MUSTARD flour, CELERY/)
  })

  it('stops the label by data, each denial in words', () => {
    const [block] = sources(rusk)
    expect(block).toMatchObject({ by: 'data' })
    for (const w of ['wheat', 'mustard', 'celery'])
      expect(block!.what).toContain(`the statement on Rusk toast denies ${w}, which its list names`)
  })

  it('keeps the mustard of mustard seed and stops the label', () => {
    const seed = stating(
      { material: 'mustard-seed', allergens: [] },
      { items: [...base.items.slice(0, 1), { kg: 0.05, material: 'mustard-seed' }] },
    )
    expect(label(seed).allergens).toContain('mustard')
    expect(sources(seed)[0]).toMatchObject({ by: 'data', what: expect.stringContaining('denies mustard') })
  })

  it('stops nothing where the statement names all that its list does, and adds what it names beyond', () => {
    const right = stating({
      material: 'rusk',
      allergens: ['wheat', 'mustard', 'sesame'],
      parts: [{ name: 'wheat flour' }, { name: 'mustard flour' }],
    })
    expect(sources(right)).toEqual([])
    expect(label(right).allergens).toEqual(expect.arrayContaining(['wheat', 'mustard', 'sesame']))
  })

  it.each([
    ['wheat flour', ['wheat']],
    ['barley malt', ['gluten-cereal']],
    ['spelt', ['wheat']],
    ['mayonnaise', ['egg']],
    ['whey powder', ['milk']],
    ['tahini', ['sesame']],
    ['hazelnut pieces', ['tree-nut']],
    ['Weizenmehl', ['wheat']],
    ['farine de moutarde', ['mustard']],
    ['sodium metabisulphite', ['sulphite']],
    ['coconut milk', []],
    ['cocoa butter', []],
    ['milk-free margarine', []],
    ['Milchsäure', []],
    ['nuez moscada', []],
    ['buckwheat', []],
    ['black pepper', []],
    ['ohne Milch', []],
  ])('reads %s as %j', (text, carried) => expect(allergensIn(text)).toEqual(carried))
})

describe('cereals with gluten named by kind (Regulation (EU) 1169/2011, Annex II point 1)', () => {
  const list = (jurisdiction: 'EU' | 'CA', parts: readonly string[], allergens: ('wheat' | 'gluten-cereal')[]) =>
    ingredients({
      jurisdiction,
      items: [
        {
          kg: 1,
          name: 'seasoning',
          allergens: [...allergens],
          allergenSource: 'specification 7',
          parts: parts.map((name) => ({ name })),
        },
      ],
    })
  const grain = ['wheat flour', 'barley malt', 'rye flour']

  it('sets off wheat, barley and rye of one ingredient', () => {
    expect(list('EU', grain, ['wheat', 'gluten-cereal']).textCapitals).toBe(
      'seasoning (WHEAT flour, BARLEY malt, RYE flour)',
    )
  })

  it('names each of them after Contains in Canada', () => {
    expect(list('CA', grain, ['wheat', 'gluten-cereal']).contains).toBe('Contains: Wheat, Barley, Rye')
  })

  it('stops where a part holds a cereal nobody names, wheat beside it or not', () => {
    const open = list('EU', ['wheat flour', 'malt extract'], ['wheat', 'gluten-cereal'])
    expect(open.findings.find((f) => f.rule === 'eu.label.allergen-kind')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringContaining('malt extract in seasoning (gluten-containing cereal: which one is not known)'),
    })
  })

  it('asks for no second cereal where the gluten is that of the wheat', () => {
    const plain = list('EU', ['wheat flour', 'salt'], ['wheat', 'gluten-cereal'])
    expect(plain.findings.every((f) => f.verdict === 'pass')).toBe(true)
    expect(plain.textCapitals).toBe('seasoning (WHEAT flour, salt)')
  })

  it('keeps "may contain" another cereal where wheat is in the recipe', () => {
    const of = (because: string, more: object = {}) =>
      declareAllergens({
        jurisdictions: ['EU'],
        items: [{ kg: 1, material: 'wheat-flour', ...more }],
        crossContact: [{ allergen: 'gluten-cereal', because }],
      }).places[0]!.mayContain
    expect(of('rye flour on the same mill')).toMatchObject([{ group: 'cereals containing gluten', say: ['rye'] }])
    expect(of('the same mill')).toMatchObject([{ say: ['gluten cereal'] }])
    expect(of('wheat and more', { mayContain: ['wheat', 'gluten-cereal'] })).toMatchObject([{ say: ['gluten cereal'] }])
  })

  it('says rye and barley in German where the text holds only one of them', () => {
    const made = label({
      ...stating({
        material: 'rusk',
        name: 'Seasoning',
        allergens: ['wheat', 'gluten-cereal'],
        parts: [{ name: 'wheat flour' }, { name: 'barley malt' }, { name: 'rye flour' }],
      }),
      pack: {
        ...base.pack,
        statements: [
          {
            material: 'rusk',
            name: 'Seasoning',
            allergens: ['wheat', 'gluten-cereal'],
            document: 'specification 7',
            parts: [{ name: 'wheat flour' }, { name: 'barley malt' }, { name: 'rye flour' }],
          },
        ],
        languages: [
          {
            language: 'de',
            name: 'Bratwurst',
            words: [
              { of: 'barley malt', is: 'Malz' },
              { of: 'rye flour', is: 'Roggenmehl' },
              { of: 'seasoning', is: 'Würzung' },
            ],
          },
        ],
      },
    })
    const de = made.versions.find((v) => v.language === 'de')!.list
    expect(de.textCapitals).toMatch(/WEIZENMEHL/)
    expect(de.textCapitals).toMatch(/ROGGENMEHL/)
    expect(de.textCapitals).toMatch(/\(GERSTE\)/)
  })
})
