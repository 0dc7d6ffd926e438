// A casing of another animal than the meat is said. Regulation (EU) 1169/2011, Article 7(1); 9 CFR 317.8(b)(37).
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

const made = (name: string, recipe: string | undefined, casing: LabelInput['pack']['casing'] = { edible: true }) =>
  label({
    place: 'US',
    recipe: 'LINK',
    product: {
      name,
      kind: 'fresh',
      smoked: false,
      readyToEat: false,
      cased: true,
      ...(recipe === undefined ? {} : { casing: recipe }),
    },
    items: [
      { kg: 9, material: 'beef-chuck' },
      { kg: 0.2, material: 'salt' },
    ],
    packedOn: '2026-02-02',
    pack: casing ? { casing } : {},
  })
const ids = (...of: Parameters<typeof made>) => made(...of).blocks.map((b) => b.id)

describe("a recipe's casing", () => {
  it('stands on the label where it is of another animal than the meat', () => {
    expect(made('Beef link', 'hog casing').ingredients.statements).toContain('packed in pork casing')
    expect(made('Beef link', 'beef bung').ingredients.statements).toEqual([])
    expect(made('Beef link', undefined, { edible: true, name: 'sheep casing' }).ingredients.statements).toContain(
      'packed in lamb casing',
    )
  })
  it.each(['Halal beef link', 'Pork-free beef link', 'Kosher beef link'])('of pork speaks against %s', (name) => {
    const against = (casing: string) =>
      made(name, casing).blocks.some((b) => b.id.includes('.name.claims') && /casing is of pork/.test(b.what))
    expect(against('hog casing')).toBe(true)
    expect(against('sheep casing')).toBe(false)
  })
  it('that can be eaten and that nobody names stops the label', () => {
    expect(ids('Beef link', undefined)).toContain('casing-name')
    expect(ids('Beef link', '32 mm')).toContain('casing-name')
    expect(ids('Beef link', 'collagen casing')).not.toContain('casing-name')
    expect(ids('Beef link', undefined, { edible: false })).not.toContain('casing-name')
  })
  it('of another animal than the one the label names stops it', () => {
    expect(ids('Beef link', 'hog casing', { edible: true, name: 'sheep casing' })).toContain('casing-other')
  })
})
