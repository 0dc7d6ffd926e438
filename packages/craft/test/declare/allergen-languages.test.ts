// Regulation (EU) 1169/2011, Annex II and Article 9(1)(c): products made of a listed substance carry it, in whatever language a supplier writes.
import { describe, expect, it } from 'vitest'
import { allergensIn } from '../../src/declare/allergen-words.ts'
import { declareAllergens } from '../../src/declare/allergens.ts'
import { foodLanguages, foodWords } from '../../src/declare/label/words/foods.ts'
import { unreadLanguage } from '../../src/declare/label/words/other-languages.ts'

describe('foods made of an allergen, in the languages of the labels', () => {
  it.each([
    ['beurre', ['milk']],
    ['BEURRE DOUX', ['milk']],
    ['fromage fondu', ['milk']],
    ['lactosérum', ['milk']],
    ['LACTOSERUM', ['milk']],
    ['crème fraîche', ['milk']],
    ['caséinate de sodium', ['milk']],
    ['chapelure', ['wheat']],
    ['CELERI', ['celery']],
    ['BLE TENDRE', ['wheat']],
    ['extrait de malt', ['gluten-cereal']],
    ['métabisulfite de sodium', ['sulphite']],
    ['cacahuètes', ['peanut']],
    ['mantequilla', ['milk']],
    ['queso curado', ['milk']],
    ['nata', ['milk']],
    ['caseinato sódico', ['milk']],
    ['pan rallado', ['wheat']],
    ['mayonesa', ['egg']],
    ['ajonjolí', ['sesame']],
    ['cerveza', ['gluten-cereal']],
    ['metabisulfito sódico', ['sulphite']],
    ['Butter', ['milk']],
    ['Molkenpulver', ['milk']],
    ['Süßmolkenpulver', ['milk']],
    ['Schmelzkäse', ['milk']],
    ['Kaese', ['milk']],
    ['Sahnepulver', ['milk']],
    ['Natriumcaseinat', ['milk']],
    ['Paniermehl', ['wheat']],
    ['Weissbrot', ['wheat']],
    ['Bier', ['gluten-cereal']],
    ['Kaliummetabisulfit', ['sulphite']],
    ['Erdnüsse', ['peanut']],
    ['Erdnuesse', ['peanut']],
    ['Tintenfisch', ['mollusc']],
    ['burro', ['milk']],
    ['panna', ['milk']],
    ['grana padano', ['milk']],
    ['siero in polvere', ['milk']],
    ['pangrattato', ['wheat']],
    ['maionese', ['egg']],
    ['birra', ['gluten-cereal']],
    ['boter', ['milk']],
    ['kaaspoeder', ['milk']],
    ['weipoeder', ['milk']],
    ['slagroom', ['milk']],
    ['paneermeel', ['wheat']],
    ['knolselderij', ['celery']],
    ['moutextract', ['gluten-cereal']],
    ['volkorentarwemeel', ['wheat']],
  ])('%s carries %j', (text, carried) => expect(allergensIn(text)).toEqual(expect.arrayContaining(carried)))

  it.each([
    'beurre de cacao',
    'burro di cacao',
    'Kakaobutter',
    'cacaoboter',
    'Leberkäse',
    'fromage de tête',
    'noix de muscade',
    'noce moscata',
    'nootmuskaat',
    'Muskatnuss',
    'crème de tartre',
    'lait de coco',
    'Reismehl',
    'farine de riz',
    'harina de arroz',
    'farina di riso',
    'rijstmeel',
    'glutenfreies Paniermehl',
    'maltodextrine',
    'acide lactique',
    'Milchsäure',
    'pan drippings',
    'liver pâtés',
    'room temperature water',
    'piment de la Jamaïque',
  ])('%s carries none', (text) => expect(allergensIn(text)).toEqual([]))

  it('every name of the table that carries an allergen in English carries it in the five other languages', () => {
    const english = [...foodWords.fr.keys()]
    for (const language of foodLanguages)
      for (const name of english) {
        const carried = allergensIn(name)
        const word = foodWords[language].get(name)!
        // White wine and the like carry what only a statement says.
        expect([word, allergensIn(word)]).toEqual([word, expect.arrayContaining([...carried])])
      }
  })

  it('no name of the table carries in another language what it does not in English', () => {
    for (const language of foodLanguages)
      for (const [name, word] of foodWords[language]) {
        const english = new Set([
          ...allergensIn(name),
          ...(/rusk|bread|semolina|barley|malt/.test(name) ? ['wheat', 'gluten-cereal'] : []),
        ])
        expect([word, allergensIn(word).filter((a) => !english.has(a))]).toEqual([word, []])
      }
  })
})

describe('a text in a language that is not read', () => {
  it.each([
    ['mąka pszenna', 'Polish'],
    ['gorczyca', 'Polish'],
    ['farinha de trigo', 'Portuguese'],
    ['hvedemel, sennep', 'Danish'],
    ['vehnäjauho', 'Finnish'],
    ['pšenice', 'Czech'],
    ['búzaliszt', 'Hungarian'],
    ['făină de grâu', 'Romanian'],
    ['σιτάρι', 'script'],
    ['горчица', 'script'],
    ['小麦', 'script'],
    ['hardal', 'Turkish'],
  ])('%s is asked about', (text, language) => expect(unreadLanguage(text)).toContain(language))

  it('is none of the names of the table, in any language of the labels', () => {
    for (const language of foodLanguages)
      for (const [name, word] of foodWords[language])
        expect([name, unreadLanguage(name), word, unreadLanguage(word)]).toEqual([name, undefined, word, undefined])
    expect(unreadLanguage('β-carotene, 5 µg')).toBeUndefined()
  })

  const seasoning = (parts: { name: string; allergens?: [] }[]) =>
    declareAllergens({
      jurisdictions: ['EU'],
      items: [{ kg: 1, name: 'seasoning', allergens: [], allergenSource: 'specification 7', parts }],
    })
  it('is not passed as free of allergens on a statement above it', () => {
    const made = seasoning([{ name: 'sól' }, { name: 'mąka pszenna' }])
    expect(made.unknown).toMatchObject([
      { name: 'seasoning', because: expect.stringContaining('looks to be in Polish') },
    ])
    expect(made.findings.find((f) => f.rule === 'eu.label.allergen-source')?.verdict).not.toBe('pass')
  })

  it('is settled by the allergens of each part, or by words that are read', () => {
    expect(seasoning([{ name: 'sól', allergens: [] }]).unknown).toEqual([])
    expect(seasoning([{ name: 'salt' }, { name: 'black pepper' }]).unknown).toEqual([])
  })
})
