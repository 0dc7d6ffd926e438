// What the law words, and what names an allergen or an animal, a maker's words for a language cannot put otherwise. Regulation (EU) 1169/2011,
// Articles 7(1), 9 and 21; Food and Drug Regulations (Canada), B.01.012.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

const made = (of: string, is: string, place: LabelInput['place'] = 'CA') =>
  label({
    place,
    recipe: 'LINK',
    product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
    items: [
      { kg: 9, material: 'pork-shoulder-trim' },
      { kg: 0.2, material: 'salt' },
      { kg: 0.5, material: 'milk-powder-skimmed' },
    ],
    packedOn: '2026-02-02',
    pack: {
      shelfLifeDays: 7,
      storage: 'chilled',
      storageC: 4,
      languages: [{ language: 'en' }, { language: 'fr', name: 'Saucisse', words: [{ of, is }] }],
    },
  })

describe("the maker's words for a language", () => {
  it.each([
    ['Contains: Milk', 'Sans lait'],
    ['Ingredients', 'Sans gluten'],
    ['pork', 'bœuf'],
    ['milk', 'sel'],
    ['93 %', '12 %'],
    ['fancy roll (pork)', 'roulé (bœuf)'],
    ['Use by 9 February 2026', '9 mars 2027'],
  ])('%s cannot be put as %s', (of, is) => {
    expect(() => made(of, is)).toThrow(/languages\.1\.words\.0\.is/)
  })
  it('a line on storage cannot be put otherwise', () => {
    const { storage } = made('Lane link', 'Saucisse', 'EU')
    expect(storage.length).toBeGreaterThan(0)
    expect(() => made(storage[0]!, 'Garder à température ambiante', 'EU')).toThrow(/words\.0\.is/)
  })
  it.each([
    ['Cook through before eating.', 'Bien cuire.'],
    ['fancy roll (pork)', 'roulé (porc)'],
    ['Ingredients', 'Ingrédients'],
    ['Lane link', 'Saucisse'],
  ])('%s may be put as %s', (of, is) => {
    expect(() => made(of, is)).not.toThrow()
  })
})
