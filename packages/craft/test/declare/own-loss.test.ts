// Two tables of one batch: by the loss of its recipe, as printed, and by what it lost itself. Tolerances are from memory (Commission guidance of
// December 2012; 21 CFR 101.9(g)), so they never settle anything alone.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import { labelOutput, type LabelInput } from '../../src/declare/label/schema.ts'

const base: LabelInput = {
  place: 'EU',
  recipe: 'RING',
  batch: 'RING-1',
  product: { name: 'Lane ring', kind: 'cooked', smoked: false, readyToEat: true, heatTreated: true },
  items: [
    { kg: 10, material: 'pork-shoulder-trim' },
    { kg: 2, material: 'ice' },
    { kg: 0.2, material: 'salt' },
  ],
  lossPct: 10,
  packedOn: '2026-02-02',
  pack: {
    netG: 400,
    lotPattern: '{batch}',
    shelfLifeDays: 20,
    validation: 'storage trial',
    storage: 'chilled',
    storageC: 4,
    productClass: 'meat-product',
    business: 'Tansy Lane Kitchen, Brindleholt',
    fatLossPct: 0,
    casing: { edible: true },
  },
}
const made = (packedKg: number, more: Partial<NonNullable<LabelInput['made']>> = {}, rest: Partial<LabelInput> = {}) =>
  label({ ...base, ...rest, made: { inKg: 12.2, packedKg, lossOf: 'recipe', ...more } })
const fatOf = (l: ReturnType<typeof made>, of: 'packs' | 'pieces') =>
  l.nutritionOwn?.find((o) => o.of === of)?.rows.find((r) => r.key === 'fat')

describe('the nutrition table by what a batch itself lost', () => {
  it('stands beside the one of the label, each nutrient concentrated by its own loss', () => {
    const l = made(12.2 * 0.8)
    const fat = l.nutrition!.panel.find((r) => r.key === 'fat')!
    const own = fatOf(l, 'packs')!
    expect(own.printed).toBe(fat.declaredPer100g)
    // All of the loss is water: the share of fat is that of the mix / (1 − loss).
    expect(Number(own.own)).toBeCloseTo((fat.per100g! * 0.9) / 0.8, 0)
    expect(labelOutput.parse(l).nutritionOwn).toHaveLength(1)
  })

  it('over three points apart asks a person, and says what prints otherwise and whether the tolerance holds it', () => {
    const near = made(12.2 * 0.86).blocks.find((b) => b.id.startsWith('loss:'))
    expect(near).toMatchObject({ by: 'person' })
    expect(near?.what).toMatch(
      /14 % less.*the 10 % of the recipe\. By its own loss the nutrition table prints .*each lies within the tolerance/,
    )
    const far = made(12.2 * 0.55).blocks.find((b) => b.id.startsWith('loss:'))
    expect(far?.what).toMatch(/outside the tolerance of what is printed, as far as memory holds it: .*Fat/)
  })

  it('within three points is shown and asks nothing', () => {
    const l = made(12.2 * 0.88)
    expect(l.nutritionOwn).toHaveLength(1)
    expect(l.blocks.some((b) => b.id.startsWith('loss'))).toBe(false)
  })

  it('of weighed pieces asks by itself where they lie apart, however much was packed', () => {
    const l = made(12.2 * 0.9, { piecesLossPct: 22 })
    expect(l.blocks.find((b) => b.id === 'loss-pieces:RING-1')).toMatchObject({
      by: 'person',
      what: expect.stringContaining('Its weighed pieces lost 22 %'),
    })
    expect(fatOf(l, 'pieces')).toBeDefined()
    expect(l.blocks.some((b) => b.id.startsWith('loss:'))).toBe(false)
  })

  it('moves with the loss: more lost, more of everything that stays', () => {
    const shares = [0.9, 0.85, 0.8, 0.7, 0.6].map((k) => made(12.2 * k))
    const values = shares.map((l) =>
      Number(
        fatOf(l, 'packs')?.own ??
          fatOf(l, 'packs')?.printed ??
          l.nutrition!.panel.find((r) => r.key === 'fat')!.declaredPer100g,
      ),
    )
    expect(values).toEqual(values.toSorted((a, b) => a - b))
  })

  it('prints the same where an analysis stands in place of the figures', () => {
    const per100g = { fatG: 18, saturatedG: 6, carbohydrateG: 1, sugarsG: 0.5, proteinG: 15, saltG: 1.9, fibreG: 0 }
    const l = made(12.2 * 0.8, {}, { pack: { ...base.pack, per100g, per100gSource: 'analysis 3' } })
    expect(l.blocks.find((b) => b.id.startsWith('loss:'))?.what).toContain('the nutrition table prints the same')
  })

  it('says so where no value is known well enough', () => {
    const unknown = { kg: 6, material: 'mustard-prepared' }
    const pack = {
      ...base.pack,
      statements: [{ material: 'mustard-prepared', allergens: ['mustard' as const], document: 's', composition: {} }],
    }
    const l = made(14, { inKg: 18.2 }, { items: [...base.items, unknown], pack })
    expect(l.blocks.find((b) => b.id.startsWith('loss:'))?.what).toMatch(
      /No value of the nutrition table|By its own loss/,
    )
    expect(l.blocks.find((b) => b.id.startsWith('loss:'))?.what).not.toContain('prints the same')
  })

  it('makes none for a batch that gained weight, and none without a batch', () => {
    expect(made(12.5).nutritionOwn).toBeUndefined()
    expect(label(base).nutritionOwn).toBeUndefined()
  })

  it('says where a place has no tolerance that is held', () => {
    const l = made(12.2 * 0.8, {}, { place: 'CA', pack: { ...base.pack, servingG: 55 } })
    expect(l.blocks.find((b) => b.id.startsWith('loss:'))?.what).toContain('no tolerance of this place is held')
  })
})
