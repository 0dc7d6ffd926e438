import { describe, expect, it } from 'vitest'
import { casingLine } from '../../src/declare/casing.ts'
import { lineFor } from '../../src/declare/fahrenheit.ts'
import { ingredients } from '../../src/declare/ingredients.ts'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'
import { translated } from '../../src/declare/label/translate.ts'
import { nutrition } from '../../src/declare/nutrition.ts'
import type { NutritionInput } from '../../src/declare/nutrition-schema.ts'

const base: LabelInput = {
  place: 'EU',
  recipe: 'STICK',
  product: { name: 'Lane stick', kind: 'dried', smoked: false, readyToEat: true },
  items: [
    { kg: 8, material: 'pork-shoulder-trim' },
    { kg: 2, material: 'beef-trim-85-15' },
    { kg: 0.2, material: 'salt' },
  ],
  packedOn: '2026-02-02',
  pack: { business: 'Tansy Lane Kitchen, Brindleholt' },
}
const ids = (input: LabelInput) => label(input).blocks

describe('quantities of meat over 100 % (Regulation (EU) 1169/2011, Annex VIII, point 3(a))', () => {
  // Collagen from memory of trim: it moves the figures, not the rule.
  const collagen = ['pork-shoulder-trim', 'beef-trim-85-15'].map((material) => ({
    material,
    allergens: [],
    document: 'specification 7',
    collagenPct: 2,
  }))
  const at = (lossPct: number) =>
    label({ ...base, lossPct, pack: { ...base.pack, fatLossPct: 0, statements: collagen } })

  it('stand as g per 100 g for each where together they are over 100 %, by the meat content itself', () => {
    for (let lossPct = 0; lossPct <= 30; lossPct += 0.5) {
      const { meatPct, ingredients: list } = at(lossPct)
      expect(meatPct).toBeDefined()
      const over = meatPct! > 100
      expect(/g per 100 g/.test(list.text), `${lossPct} % lost, ${meatPct} % meat: ${list.text}`).toBe(over)
      expect(/ %\)/.test(list.text)).toBe(!over)
    }
  })

  it('are both in grams where neither alone is over 100 %', () => {
    expect(
      ingredients({
        jurisdiction: 'EU',
        items: [
          { kg: 8, name: 'pork', quidPct: 81.2, allergens: [] },
          { kg: 2, name: 'beef', quidPct: 20.26, allergens: [] },
        ],
      }).text,
    ).toBe('pork (81 g per 100 g of product), beef (20 g per 100 g of product)')
  })

  it('stay in percent at 100 %', () => {
    expect(
      ingredients({
        jurisdiction: 'EU',
        items: [
          { kg: 8, name: 'pork', quidPct: 80, allergens: [] },
          { kg: 2, name: 'beef', quidPct: 20, allergens: [] },
        ],
      }).text,
    ).toBe('pork (80 %), beef (20 %)')
  })
})

describe('an analysis beside its recipe', () => {
  const parts = [{ kg: 1, material: 'pork-shoulder-trim' }]
  const run = (more: Partial<NutritionInput>) =>
    nutrition({ jurisdiction: 'EU', parts, ...more }).findings.find((f) => f.rule === 'all.nutrition.analysis')
  const computed = nutrition({ jurisdiction: 'EU', parts }).panel.find((r) => r.key === 'fat')!.per100g!

  it('is asked about where the fat is 1 g as analysed and far more as computed', () => {
    expect(run({ per100g: { fatG: 1 } })).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/^of 100 g, Fat 1 g as analysed, [\d.]+ g as computed$/),
    })
  })

  it('stands where it lies within the tolerance of the declared value (Commission guidance, December 2012: 20 % from 10 to 40 g)', () => {
    expect(run({ per100g: { fatG: computed * 1.1 } })).toBeUndefined()
    expect(run({ per100g: { fatG: computed } })).toBeUndefined()
  })

  it('is for a person to answer on the label', () => {
    const made = label({ ...base, pack: { ...base.pack, per100g: { fatG: 1 }, per100gSource: 'analysis 12' } })
    expect(made.blocks.find((b) => b.id.startsWith('all.nutrition.analysis'))).toMatchObject({ by: 'person' })
  })

  it('takes all of an unweighed loss as fat before it asks', () => {
    expect(run({ lossPct: 20, per100g: { fatG: Math.max(0.6, computed - 3) } })).toBeUndefined()
  })
})

describe('a serving beside the reference amount (9 CFR 317.312(b), 21 CFR 101.12(b): sausage 55 g, uncooked 75 g, from memory)', () => {
  const serving = (kind: 'cooked' | 'fresh', servingG: number) =>
    ids({
      ...base,
      place: 'US',
      product: { ...base.product, kind },
      pack: { ...base.pack, servingG },
    }).find((b) => b.id.startsWith('us.nutrition.serving'))

  it.each([
    ['cooked', 5],
    ['cooked', 27],
    ['cooked', 111],
    ['fresh', 30],
  ] as const)('%s, %d g is for a person to answer', (kind, g) =>
    expect(serving(kind, g)).toMatchObject({ by: 'person' }),
  )

  it.each([
    ['cooked', 55],
    ['cooked', 28],
    ['fresh', 75],
  ] as const)('%s, %d g is not asked about', (kind, g) => expect(serving(kind, g)).toBeUndefined())
})

describe('what stands in another language', () => {
  const german = (words: { of: string; is: string }[]): LabelInput => ({
    ...base,
    pack: {
      ...base.pack,
      origin: 'Origin of the meat: Brindleholt',
      languages: [{ language: 'de', name: 'Stange', words }],
    },
  })

  it('stops by data where the origin has no words, and prints those it has', () => {
    const open = label(german([]))
    expect(open.blocks.find((b) => b.id.startsWith('words:de:Origin of'))).toMatchObject({ by: 'data' })
    const said = label(german([{ of: 'Origin of the meat: Brindleholt', is: 'Herkunft des Fleisches: Brindleholt' }]))
    expect(said.blocks.filter((b) => b.id.startsWith('words:de:Origin'))).toEqual([])
    expect(said.business).toBe('Tansy Lane Kitchen, Brindleholt. Herkunft des Fleisches: Brindleholt')
  })

  it.each(['fr', 'es', 'de', 'it', 'nl'] as const)(
    '%s has words for casings, connective tissue and both dates',
    (to) => {
      const texts = [
        ...['pork', 'beef', 'lamb', 'goat'].map((species) =>
          casingLine({ edible: true, kind: 'natural', species }, ['chicken']),
        ),
        ...['pork', 'beef'].map((species) => casingLine({ edible: true, kind: 'collagen', species }, ['chicken'])),
        casingLine({ edible: true, kind: 'natural' }, ['chicken']),
        casingLine({ edible: true, kind: 'collagen' }, ['chicken']),
        ...['pork', 'beef', 'veal', 'lamb', 'goat', 'chicken', 'turkey', 'duck', 'venison', 'wild boar', 'rabbit'].map(
          (s) => `${s} connective tissue`,
        ),
        'Use By 9 February 2026',
        'Best Before 9 February 2026',
        'Use By February 9, 2026',
      ]
      expect(texts.flatMap((t) => translated(t!, to, 'AU-NZ', new Map()).missing)).toEqual([])
    },
  )
})

describe("a maker's line in the United States", () => {
  it.each([
    ['Cook to 74C', 'Cook to 166 °F (74 °C)'],
    ['Cook to 74 C.', 'Cook to 166 °F (74 °C).'],
    ['Keep below 4 degrees C', 'Keep below 39 °F (4 °C)'],
    ['Keep below 4 deg. Celsius', 'Keep below 39 °F (4 °C)'],
    ['Keep at 4º C', 'Keep at 39 °F (4 °C)'],
    ['Keep at -18C', 'Keep at −1 °F (−18 °C)'],
    ['Cook to 165F (74C)', 'Cook to 165F (74C)'],
    ['Lot B4C, vitamin C 20 mg', 'Lot B4C, vitamin C 20 mg'],
  ])('"%s" reads "%s"', (typed, printed) => expect(lineFor('US', typed)).toBe(printed))
})
