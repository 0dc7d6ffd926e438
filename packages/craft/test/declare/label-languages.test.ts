import { label } from '../../src/declare/label/label.ts'
import type { LabelLanguage } from '../../src/declare/label/languages.ts'
import { labelInput, type LabelInput } from '../../src/declare/label/schema.ts'
import { translated, translatedWhole } from '../../src/declare/label/translate.ts'
import { allergenTerms } from '../../src/declare/label/words/allergens.ts'
import { foodLanguages, foodWords } from '../../src/declare/label/words/foods.ts'
import { terms } from '../../src/declare/label/words/terms.ts'
import { materials } from '../../src/materials/materials.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const none = new Map<string, string>()
const inputOf = (
  place: LabelInput['place'],
  languages: LabelLanguage[],
  rest: Partial<LabelInput> = {},
): LabelInput => ({
  place,
  recipe: 'LINK',
  product: { name: 'Pork sausage', kind: 'fresh', smoked: false, readyToEat: false },
  items: [
    { kg: 9.5, material: 'pork-shoulder-trim' },
    { kg: 0.18, material: 'salt' },
    { kg: 0.2, material: 'milk-powder-skimmed' },
    { kg: 0.02, material: 'mustard-seed' },
    { kg: 0.3, material: 'ice' },
  ],
  packedOn: '2026-02-02',
  pack: {
    netG: 400,
    shelfLifeDays: 7,
    storage: 'chilled',
    storageC: 4,
    highlyPerishable: true,
    lotPattern: '{recipe}-{YY}{DDD}',
    languages: languages.map((language) => ({ language })),
  },
  ...rest,
})
const version = (input: LabelInput, language: LabelLanguage) =>
  label(input).versions.find((v) => v.language === language)!
const bold = (v: { list: { text: string; emphasised: { start: number; end: number }[] } }) =>
  v.list.emphasised.map((s) => v.list.text.slice(s.start, s.end))

describe('words of a label in another language', () => {
  // Regulation (EU) 1169/2011, Annex X, German edition, as an authority page of the Federal Information Centre for Agriculture quotes it.
  it('says the date of minimum durability in German as Annex X does', () => {
    expect(translated('Best before 9 February 2026', 'de', 'EU', none).text).toBe(
      'Mindestens haltbar bis 9. Februar 2026',
    )
  })

  // Annex II in French, German and Italian, as reproductions of the annex have it.
  it.each([
    ['fr', 'milk', 'lait'],
    ['fr', 'celery', 'céleri'],
    ['fr', 'mustard', 'moutarde'],
    ['de', 'milk', 'Milch'],
    ['de', 'mustard', 'Senf'],
    ['de', 'tree-nut', 'Schalenfrüchte'],
    ['it', 'celery', 'sedano'],
    ['it', 'tree-nut', 'frutta a guscio'],
  ] as const)('calls in %s the allergen %s %s (Annex II)', (language, allergen, word) => {
    expect(allergenTerms[language][allergen].say).toBe(word)
  })

  // Canadian Food Inspection Agency, Information within the Nutrition Facts table, description of the bilingual figure.
  it.each([
    ['Nutrition Facts', 'Valeur nutritive'],
    ['Fat', 'Lipides'],
    ['Saturated', 'saturés'],
    ['Cholesterol', 'Cholestérol'],
    ['% Daily Value*', '% valeur quotidienne*'],
  ])('has on the table of Canada %s as %s', (en, fr) => {
    expect(translated(en, 'fr', 'CA', none).text).toBe(fr)
  })

  it('has for the same English the words of the place: Fat is Lipides in Canada, Matières grasses in the European Union', () => {
    expect(translated('Fat', 'fr', 'EU', none).text).toBe('Matières grasses')
  })

  it('takes a list apart at commas and brackets, keeps figures, and writes them with a comma', () => {
    expect(translated('pork (85.3 %), rusk (wheat flour, salt)', 'fr', 'EU', none)).toMatchObject({
      text: 'porc (85,3 %), chapelure (farine de blé, sel)',
      missing: [],
    })
    expect(translated('antioxidant (sodium ascorbate), preservative (E250)', 'de', 'EU', none).text).toBe(
      'Antioxidationsmittel (Natriumascorbat), Konservierungsstoff (E250)',
    )
  })

  it("leaves nothing silently in English: a text it has no words for is named, and the maker's word settles it", () => {
    expect(translated('salt, moon dust', 'fr', 'EU', none).missing).toEqual(['moon dust'])
    expect(translated('salt, moon dust', 'fr', 'EU', new Map([['moon dust', 'poussière de lune']]))).toMatchObject({
      text: 'sel, poussière de lune',
      missing: [],
    })
  })

  it('asks for a sentence as a whole, not for its pieces', () => {
    const sentence = 'Heat through, then (after 5 min) serve.'
    expect(translatedWhole(sentence, 'fr', 'EU', none).missing).toEqual([sentence])
  })

  it('has every name of an ingredient in all five languages', () => {
    for (const l of foodLanguages) for (const [en, word] of foodWords[l]) expect(word, `${en} in ${l}`).toMatch(/\S/)
  })

  it('fills every brace of a fixed text in every language', () => {
    for (const t of terms)
      for (const l of foodLanguages) {
        const braces = (s: string) => (s.match(/\{\w+\}/g) ?? []).toSorted()
        if (t[l] !== undefined) expect(braces(t[l]), `${t.en} in ${l}`).toEqual(braces(t.en))
      }
  })
})

describe('a label in several languages', () => {
  it('sets the allergens off in each', () => {
    const input = inputOf('EU', ['en', 'fr', 'de', 'nl'])
    expect(bold(version(input, 'fr'))).toEqual(['lait', 'moutarde'])
    expect(bold(version(input, 'de'))).toEqual(['Magermilchpulver', 'Senfkörner'])
    expect(bold(version(input, 'nl'))).toEqual(['mageremelkpoeder', 'mosterdzaad'])
  })

  it('stops for the name of the product and for every own line that has no words', () => {
    const { blocks } = label(
      inputOf('CA', ['en', 'fr'], {
        pack: { ...inputOf('CA', ['en', 'fr']).pack, servingG: 55, handling: ['Cook through.'] },
      }),
    )
    const words = blocks.filter((b) => b.id.startsWith('words:fr'))
    expect(words.map((b) => b.id)).toEqual(['words:fr:Pork sausage', 'words:fr:Cook through.'])
    expect(words.every((b) => b.by === 'data')).toBe(true)
    expect(blocks.find((b) => b.id === 'read:fr')?.by).toBe('person')
  })

  it('asks for both official languages in Canada where the maker chooses one', () => {
    expect(label(inputOf('CA', ['en'])).blocks.map((b) => b.id)).toContain('language:fr')
    expect(label(inputOf('EU', ['en'])).blocks.map((b) => b.id)).not.toContain('language:fr')
  })

  it('is a change against the label approved in one language, and refuses a language twice', () => {
    const one = label(inputOf('EU', ['en']))
    const two = label({ ...inputOf('EU', ['en', 'fr']), approved: { fields: one.fields, allergens: one.allergens } })
    expect(two.changes.map((c) => c.field)).toContain('ingredients (fr)')
    const twice = labelInput.safeParse(inputOf('EU', ['fr', 'fr']))
    expect(twice.error?.issues[0]?.message).toContain('allowed: each once')
  })

  it('names in every language every allergen it carries, set off, and has words for or names as missing all else', () => {
    const known = materials.filter((m) => m.allergens.length > 0 || m.category === 'spice').map((m) => m.id)
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.constantFrom(...known), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(...foodLanguages),
        (ids, language) => {
          const input = inputOf('EU', [language], {
            items: [
              { kg: 9, material: 'pork-shoulder-trim' },
              ...ids.map((material, i) => ({ kg: 0.1 + i / 50, material })),
            ],
          })
          const made = label(input)
          const v = made.versions[0]!
          const missing = new Set(v.missing.map((m) => m.text.toLowerCase()))
          made.ingredients.items.forEach((item) => {
            const named = item.allergens.filter((a) => !(a === 'gluten-cereal' && item.allergens.includes('wheat')))
            for (const a of named) {
              const pattern = new RegExp(
                `^(?:${allergenTerms[language][a].words.join('|')}|${allergenTerms[language][a].say})$`,
                'iu',
              )
              expect(
                bold(v).some((b) => pattern.test(b)),
                `${item.text}: ${a} in ${language}: ${v.list.text}`,
              ).toBe(true)
            }
            // An English name that stands in the list is one that stops the label.
            const name = item.name.toLowerCase()
            if (v.list.text.toLowerCase().includes(name) && !foodWords[language].has(name))
              expect(
                [...missing].some((m) => name.includes(m) || m.includes(name)),
                name,
              ).toBe(true)
          })
        },
      ),
      { numRuns: 400 },
    )
  })
})
