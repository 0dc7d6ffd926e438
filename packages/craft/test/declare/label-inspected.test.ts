// What would let a wrong label through: a statement of nobody's lot, a list that is over its whole, an analysis of nowhere, a name that is not one.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import { labelPack } from '../../src/declare/label/pack.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

type Pack = LabelInput['pack']
const base: LabelInput = {
  place: 'EU',
  recipe: 'LINK',
  batch: 'LINK-7',
  product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
  items: [
    { kg: 10, material: 'pork-shoulder-trim', lot: 'P-1', supplier: 'Farm A' },
    { kg: 0.18, material: 'salt' },
  ],
  packedOn: '2026-02-02',
  pack: { business: 'Tansy Lane Kitchen, Brindleholt', productClass: 'meat-preparation' },
}
const made = (more: Partial<LabelInput> = {}, pack: Pack = {}) =>
  label({ ...base, ...more, pack: { ...base.pack, ...pack } })
const ids = (...of: Parameters<typeof made>) => made(...of).blocks.map((b) => b.id)
const items = (...more: LabelInput['items']) => [...base.items, ...more]

describe("a supplier's statement", () => {
  const curry = {
    material: 'curry-powder',
    supplier: 'Mill A',
    allergens: [],
    document: 'spec',
    parts: [{ name: 'turmeric' }],
  }
  it('does not speak for what was weighed into a batch without a lot, or from a lot of no named supplier', () => {
    for (const item of [
      { kg: 0.03, material: 'curry-powder' },
      { kg: 0.03, material: 'curry-powder', lot: 'C-1' },
    ]) {
      const blocks = ids({ items: items(item) }, { statements: [curry] })
      expect(blocks).toContain('supplier:curry-powder:')
      expect(blocks.some((b) => b.startsWith('eu.label.allergen-source'))).toBe(true)
    }
  })
  it('speaks for its lot, and for the material of a recipe', () => {
    const own = { kg: 0.03, material: 'curry-powder', lot: 'C-1', supplier: 'Mill A' }
    expect(
      ids({ items: items(own) }, { statements: [curry] }).filter((b) => /supplier:|allergen-source/.test(b)),
    ).toEqual([])
    const { batch: _batch, ...recipe } = base
    const { blocks } = label({
      ...recipe,
      items: items({ kg: 0.03, material: 'curry-powder' }),
      pack: { ...base.pack, statements: [curry] },
    })
    expect(blocks.filter((b) => /supplier:|allergen-source/.test(b.id))).toEqual([])
  })
  it('has parts of a hundred percent at most', () => {
    const parts = [
      { name: 'a', pct: 80 },
      { name: 'b', pct: 90 },
    ]
    const read = labelPack.safeParse({ statements: [{ ...curry, parts }] })
    expect(read.success).toBe(false)
    expect(JSON.stringify(read.error?.issues)).toMatch(/add up to 170 %; allowed: at most 100 %/)
    expect(
      labelPack.safeParse({
        statements: [
          {
            ...curry,
            parts: [
              { name: 'a', pct: 60 },
              { name: 'b', pct: 40 },
            ],
          },
        ],
      }).success,
    ).toBe(true)
  })
})

it('figures of an analysis stop a label while nobody says where they are from, in every place', () => {
  for (const place of ['EU', 'GB', 'US', 'CA', 'AU-NZ'] as const) {
    expect(ids({ place }, { per100g: { fatG: 20 }, servingG: 55 })).toContain('analysis-source')
    expect(
      ids({ place }, { per100g: { fatG: 20 }, per100gSource: 'laboratory report 12', servingG: 55 }),
    ).not.toContain('analysis-source')
  }
})

describe('texts of a label', () => {
  it.each([
    ['spaces', '   '],
    ['a mark that turns the writing', 'Pork link \u202Egnasuas'],
    ['an isolate', 'Pork\u2066link'],
    ['a space of no width', 'Pork\u200Blink'],
    ['a line feed', 'Pork\nlink'],
    ['a bell', 'Pork\u0007link'],
  ])('are refused with %s', (_what, wrong) => {
    for (const field of ['name', 'business', 'origin', 'validation'] as const) {
      const read = labelPack.safeParse({ [field]: wrong })
      expect(read.success, field).toBe(false)
      expect(JSON.stringify(read.error?.issues)).toMatch(/allowed: /)
    }
    expect(labelPack.safeParse({ handling: [wrong] }).success).toBe(false)
    expect(labelPack.safeParse({ statements: [{ material: 'salt', allergens: [], document: wrong }] }).success).toBe(
      false,
    )
    expect(labelPack.safeParse({ languages: [{ language: 'de', name: wrong }] }).success).toBe(false)
  })
  it('name the character', () => {
    const said = (name: string) => JSON.stringify(labelPack.safeParse({ name }).error?.issues)
    expect(said('Pork \u202Elink')).toMatch(/U\+202E/)
    expect(said('   ')).toMatch(/holds nothing but spaces/)
  })
  it('may be of any script, with accents and signs', () => {
    for (const name of ['Saucisse fumée', 'Knackwürste ½', 'ソーセージ', 'Ham & leek – “lane”', 'e\u0301claire'])
      expect(labelPack.safeParse({ name }).success, name).toBe(true)
  })
})

describe('the quantity of what a name names (Regulation (EU) 1169/2011, Article 22(1)(a); Standard 1.2.10)', () => {
  const apple = {
    product: { ...base.product, name: 'Pork and apple sausage' },
    items: items({ kg: 0.9, material: 'apple' }),
  }
  it('stands beside it, of what is put in', () => {
    for (const place of ['EU', 'GB', 'AU-NZ'] as const)
      expect(made({ ...apple, place }).ingredients.text, place).toMatch(/apple \(8(?:\.\d)? %\)/)
    expect(made({ ...apple, place: 'US' }).ingredients.text).toMatch(/apple(?! \()/)
  })
  it('is asked for no other', () => {
    expect(made({ items: items({ kg: 0.9, material: 'apple' }) }).ingredients.text).toMatch(/apple(?! \()/)
  })
  it('is one for all that the name means', () => {
    const two = { ...apple, items: items({ kg: 0.5, material: 'apple' }, { kg: 0.4, material: 'apple' }) }
    expect(made(two).ingredients.text).toMatch(/apple \(8(?:\.\d)? %\)/)
  })
})

describe('what the law has said beside the list', () => {
  it('of minced meat, its fat and collagen (Regulation (EU) 1169/2011, Annex VI, part B, point 2; wording from memory)', () => {
    const mince = (name: string, place: LabelInput['place'] = 'EU') =>
      made({
        place,
        product: { ...base.product, name },
        items: [{ kg: 10, material: 'pork-shoulder-trim', lot: 'P-1', supplier: 'Farm A' }],
      }).ingredients.statements
    expect(mince('Minced pork')).toEqual([
      'percentage of fat content under 30 %',
      'collagen/meat protein ratio under 18 %',
    ])
    expect(mince('Lean minced pork')).toEqual([
      'percentage of fat content under 7 %',
      'collagen/meat protein ratio under 12 %',
    ])
    expect(mince('Pork link')).toEqual([])
    expect(mince('Ground pork', 'US')).toEqual([])
  })
  it('of a protective atmosphere (Annex III, point 1.1)', () => {
    const said = (place: LabelInput['place'], protectiveAtmosphere?: boolean) =>
      made({ place }, { ...(protectiveAtmosphere === undefined ? {} : { protectiveAtmosphere }), servingG: 55 })
        .ingredients.statements
    expect(said('EU', true)).toEqual(['packaged in a protective atmosphere'])
    expect(said('GB', true)).toEqual(['packaged in a protective atmosphere'])
    expect(said('EU', false)).toEqual([])
    expect(said('US', true)).toEqual([])
  })
})

it('lamb and mutton share the quantity of their meat', () => {
  const meat = (material: string, kg: number) => ({ kg, material, lot: material, supplier: 'Farm A' })
  const statements = ['lamb-shoulder', 'mutton-shoulder'].map((material) => ({
    material,
    supplier: 'Farm A',
    allergens: [],
    document: 'spec',
    collagenPct: 2,
  }))
  const { text } = made({ items: [meat('lamb-shoulder', 6), meat('mutton-shoulder', 4)] }, { statements }).ingredients
  expect(text).toMatch(/^lamb \((5\d|60) %\), mutton \((3\d|40) %\)/)
})
