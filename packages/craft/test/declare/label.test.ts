import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findCalculation } from '../../src/calculations.ts'
import { materials } from '../../src/materials/materials.ts'
import { labelChanges } from '../../src/declare/label/changes.ts'
import { label } from '../../src/declare/label/label.ts'
import { lotCode } from '../../src/declare/label/lot-code.ts'
import { netText } from '../../src/declare/label/net-text.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

const base: LabelInput = {
  place: 'EU',
  recipe: 'LINK',
  batch: 'LINK-7',
  product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
  items: [
    { kg: 9, material: 'pork-shoulder-trim' },
    { kg: 0.18, material: 'salt' },
    { kg: 0.03, material: 'black-pepper' },
  ],
  packedOn: '2026-02-02',
  pack: {
    netG: 400,
    gtin: '9506000134352',
    code: 'gs1-128',
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
const kinds = (input: LabelInput) => label(input).blocks.map((b) => b.id)
const withMore = (items: LabelInput['items'], pack: Partial<LabelInput['pack']> = {}): LabelInput => ({
  ...base,
  items: [...base.items, ...items],
  pack: { ...base.pack, ...pack },
})

describe('the content of a label', () => {
  it('stops nothing where every part is known, and says the date, weight, lot and code of the batch', () => {
    const made = label(base)
    expect(made.blocks).toEqual([])
    expect(made.netText).toBe('400 g')
    expect(made.lot).toBe('LINK-7')
    expect(made.dateText).toBe('Use by 9 February 2026')
    // GS1 General Specifications: AI 01, 17 (use by, YYMMDD) and 10.
    expect(made.code?.text).toBe('(01)09506000134352(17)260209(10)LINK-7')
  })

  it('gives the meat of Annex VII B 17 beside the name of the species', () => {
    const made = label(base)
    expect(made.ingredients.text).toMatch(/^pork \(\d+ %\), salt, black pepper$/)
    expect(made.meatPct).toBeGreaterThan(90)
  })

  it.each([
    [
      'an ingredient nobody has an allergen statement for',
      withMore([{ kg: 0.02, material: 'starter-culture' }]),
      /allergen-source/,
    ],
    [
      'a value of the nutrition table that is not known',
      withMore([{ kg: 1, material: 'starter-culture' }]),
      /nutrition/,
    ],
    [
      'a limit that failed',
      { ...base, failed: [{ title: 'Ingoing nitrite', because: '200 mg/kg' }] },
      /limit:Ingoing nitrite/,
    ],
    ['a meat without collagen', withMore([{ kg: 20, material: 'pork-back-fat' }]), /meat-content/],
    ['no net weight', { ...base, pack: { ...base.pack, netG: undefined } }, /^net$/],
    ['a life without proof', { ...base, pack: { ...base.pack, validation: undefined } }, /validated/],
  ] as [string, LabelInput, RegExp][])('is stopped by %s, and each says what would settle it', (_what, input, id) => {
    const { blocks } = label(input)
    const hit = blocks.filter((b) => id.test(b.id))
    expect(hit.length).toBeGreaterThan(0)
    for (const b of hit) expect([b.by, b.settle.length > 5]).toEqual(['data', true])
  })

  it("takes a statement for its own supplier's lots alone", () => {
    const statements = [{ material: 'starter-culture', supplier: 'Mill A', allergens: [], document: 'spec A/3' }]
    const of = (supplier: string) =>
      kinds(withMore([{ kg: 0.002, material: 'starter-culture', lot: 'ST-1', supplier }], { statements }))
    expect(of('Mill A').filter((k) => /allergen|supplier/.test(k))).toEqual([])
    expect(of('Mill B').some((k) => k.startsWith('supplier:starter-culture'))).toBe(true)
    expect(of('Mill B').some((k) => k.includes('allergen-source'))).toBe(true)
  })

  it('is stopped where a change of spice brings an allergen the approved label does not declare', () => {
    const approved = label(base)
    const now = label({
      ...withMore([{ kg: 0.02, material: 'mustard-seed' }]),
      approved: { fields: approved.fields, allergens: approved.allergens },
    })
    expect(now.blocks.filter((b) => b.id === 'new-allergen:mustard')).toHaveLength(1)
    expect(now.changes.map((c) => c.field)).toContain('ingredients')
    expect(now.ingredients.textCapitals).toContain('MUSTARD')
  })

  it('does not call the next batch of the same make a change', () => {
    const approved = label(base)
    const next = label({ ...base, batch: 'LINK-8', packedOn: '2026-02-09', approved })
    expect(next.changes).toEqual([])
    expect(next.lot).not.toBe(approved.lot)
  })

  it('declares every allergen any of its materials carries (any recipe)', () => {
    const solid = materials.filter((m) => m.category !== 'water')
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...solid), { minLength: 1, maxLength: 8 }),
        fc.constantFrom('EU', 'GB'),
        (some, place) => {
          const made = label({
            ...base,
            place,
            items: [...base.items, ...some.map((m) => ({ kg: 0.1, material: m.id }))],
          })
          for (const m of some)
            for (const a of m.allergens) if (a !== 'gluten-cereal') expect(made.allergens).toContain(a)
        },
      ),
      { numRuns: 300 },
    )
  })

  it('names the field of the pack an engine refuses', () => {
    expect(() => label({ ...base, pack: { ...base.pack, gtin: '9506000134353' } })).toThrow(/pack\.gtin.*check digit/s)
    expect(() => label({ ...base, pack: { ...base.pack, lotPattern: '{week}' } })).toThrow(/pack\.lotPattern/)
    expect(() => label({ ...base, items: [{ kg: 0, material: 'salt' }] })).toThrow(/items/)
  })

  it('is in the registry', () => {
    expect(findCalculation('declare.label')?.title).toBe('Content of a label')
  })
})

describe('its parts', () => {
  it('counts the day of the year in a lot code', () => {
    // 2028 is a leap year: 31 January + 29 February + 1 = day 61.
    expect(lotCode('L{YY}{DDD}', { recipe: 'R', packedOn: '2028-03-01' })).toBe('L28061')
    expect(lotCode('{batch}', { recipe: 'R', packedOn: '2028-03-01' })).toBeUndefined()
  })

  it('never prints more weight than there is (1 oz = 28.349523125 g, exact)', () => {
    expect(netText('US', 320)).toBe('Net Wt 11.2 oz (320 g)')
    expect(netText('US', 453.59237)).toBe('Net Wt 16 oz (1 lb) (453.5 g)')
    // 9 CFR 317.2(h)(5): "24 oz (1 lb 8 oz)"; 1.5 lb is 680.388555 g.
    expect(netText('US', 680.388555)).toBe('Net Wt 24 oz (1 lb 8 oz) (680.3 g)')
    expect(netText('US', 4 * 453.59237)).toBe('Net Wt 4 lb (1.814 kg)')
    expect(netText('US', 2400)).toBe('Net Wt 5 lb 4.6 oz (2.4 kg)')
    expect(netText('CA', 375)).toBe('375 g')
    expect(netText('EU', 1250)).toBe('1.25 kg')
    fc.assert(
      fc.property(fc.double({ min: 1, max: 20_000, noNaN: true }), (g) => {
        const said = netText('US', g)
        const part = (pattern: RegExp) => Number(pattern.exec(said)?.[1] ?? 0)
        const dual = /Net Wt [\d.]+ oz/.test(said)
        const oz = dual ? part(/Net Wt ([\d.]+) oz/) : 16 * part(/Net Wt (\d+) lb/) + part(/lb ([\d.]+) oz/)
        expect(oz * 28.349523125).toBeLessThanOrEqual(g + 1e-6)
        expect(oz * 28.349523125).toBeGreaterThan(g - 0.11 * 28.349523125)
      }),
    )
  })

  it('tells what came, went and changed, and leaves out what varies by itself', () => {
    const before = [
      { field: 'a', text: '1' },
      { field: 'b', text: '2' },
      { field: 'lot', text: 'x', varies: true },
    ]
    const now = [
      { field: 'a', text: '1' },
      { field: 'c', text: '3' },
      { field: 'lot', text: 'y', varies: true },
    ]
    expect(labelChanges(before, now)).toEqual([
      { field: 'b', before: '2' },
      { field: 'c', now: '3' },
    ])
  })
})
