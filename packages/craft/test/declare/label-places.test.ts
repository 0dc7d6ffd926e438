import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import { nameExcess } from '../../src/declare/label/excess.ts'
import { recordedPackWeights } from '../../src/declare/label/pack-weights.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'
import { degreesFor, lineFor, safeFahrenheit } from '../../src/declare/fahrenheit.ts'
import { materials } from '../../src/materials/materials.ts'

const places = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const
const base: LabelInput = {
  place: 'CA',
  recipe: 'LINK',
  batch: 'LINK-7',
  product: { name: 'Pork sausage', kind: 'fresh', smoked: false, readyToEat: false, cased: false },
  items: [
    { kg: 9, material: 'pork-shoulder-trim' },
    { kg: 0.18, material: 'salt' },
    { kg: 0.03, material: 'black-pepper' },
  ],
  packedOn: '2026-02-02',
  pack: {
    netG: 400,
    servingG: 75,
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
const at = (place: LabelInput['place'], more: Partial<LabelInput> = {}): LabelInput => ({ ...base, ...more, place })

describe('a label for each place', () => {
  it('dates by the form of the place', () => {
    const text = (place: LabelInput['place']) => label(at(place)).dateText
    // Food and Drug Regulations (Canada), B.01.007(4) and (5): year first, FE for February and février.
    expect(text('CA')).toBe('Best before / Meilleur avant 2026 FE 09')
    // Standard 1.2.5, 1.2.5—5: the words "Use By".
    expect(text('AU-NZ')).toBe('Use By 9 February 2026')
    expect(text('EU')).toBe('Use by 9 February 2026')
  })

  it('keeps by the words of the place, °F first in the United States and never warmer than asked', () => {
    const line = (place: LabelInput['place'], storageC = 4) =>
      label(at(place, { pack: { ...base.pack, storageC } })).storage[0]
    expect(line('CA')).toBe('Keep refrigerated / Garder réfrigéré, max. 4 °C')
    expect(line('US')).toBe('Keep refrigerated, at most 39 °F (4 °C)')
    expect(line('US', 4.4)).toBe('Keep refrigerated, at most 40 °F (4.4 °C)')
    expect(line('AU-NZ')).toBe('Keep refrigerated, at most 4 °C')
  })

  it('reckons the meat by the place: the definition of meat, ingoing weight, or not at all', () => {
    const items = [
      { kg: 6, material: 'pork-shoulder-trim' },
      { kg: 2, material: 'ice' },
      { kg: 2, material: 'rice-flour' },
    ]
    const list = (place: LabelInput['place'], lossPct = 0) => label(at(place, { items, lossPct })).ingredients.text
    // Standard 1.2.10, 1.2.10—4: 6 of 10 kg; with 1 kg of the water removed, 6 of 9.
    expect(list('AU-NZ')).toMatch(/^pork \(60 %\)/)
    expect(list('AU-NZ', 10)).toMatch(/^pork \(66 %\)/)
    expect(list('EU')).toMatch(/^pork \(\d+ %\)/)
    expect(list('CA')).toMatch(/^Pork, /)
    expect(list('US')).toMatch(/^pork, /)
  })

  it.each(['CA', 'AU-NZ'] as const)(
    'in %s leaves open to a person what nobody has read, and stops on what data settles',
    (place) => {
      const { blocks } = label(at(place))
      const unread = blocks.filter((b) => b.id.startsWith(place.toLowerCase()))
      expect(unread.length).toBeGreaterThan(0)
      for (const b of blocks) expect(b.settle.length).toBeGreaterThan(5)
      const byData = (more: Partial<LabelInput>, id: RegExp) =>
        label(at(place, more)).blocks.filter((b) => id.test(b.id) && b.by === 'data')
      const plus = (material: string, kg: number) => ({ items: [...base.items, { kg, material }] })
      expect(byData(plus('starter-culture', 0.02), /allergen-source/)).not.toHaveLength(0)
      expect(byData(plus('starter-culture', 1), /nutrition\.complete/)).not.toHaveLength(0)
      expect(byData({ failed: [{ title: 'Ingoing nitrite', because: '250 mg/kg' }] }, /limit:/)).not.toHaveLength(0)
      expect(byData({ pack: { ...base.pack, servingG: undefined } }, /^serving$/)).not.toHaveLength(0)
    },
  )

  it('holds the list in descending order and every allergen of every material, whatever the place (any recipe)', () => {
    const solid = materials.filter((m) => m.category !== 'water')
    fc.assert(
      fc.property(
        fc.array(fc.record({ m: fc.constantFrom(...solid), kg: fc.double({ min: 0.001, max: 20, noNaN: true }) }), {
          minLength: 1,
          maxLength: 8,
        }),
        fc.constantFrom(...places),
        (some, place) => {
          const made = label(
            at(place, { items: [...base.items, ...some.map(({ m, kg }) => ({ kg, material: m.id }))] }),
          )
          const kgs = made.ingredients.items.map((i) => i.kg)
          expect(kgs).toEqual(kgs.toSorted((a, b) => b - a))
          const listed = new Set(made.ingredients.items.flatMap((i) => i.allergens))
          for (const { m } of some) for (const a of m.allergens) expect([...listed]).toContain(a)
          for (const b of made.blocks) expect([b.what, b.settle].every((t) => t.length > 5)).toBe(true)
        },
      ),
      { numRuns: 1500 },
    )
  })
})

describe('excess fat and connective tissue (Regulation (EU) 1169/2011, Annex VII B 17)', () => {
  // Pork at 40 % fat: 100 − (40 − 25.7143) = 85.7143 % counts; 60 kg in 100 kg are 51.43 % pork and 8.57 % pork fat.
  it('names 8.57 kg of pork fat beside 51.43 kg of pork', () => {
    const made = label(
      at('EU', {
        items: [
          { kg: 60, material: 'pork-shoulder-trim' },
          { kg: 40, material: 'rice-flour' },
        ],
        pack: {
          ...base.pack,
          statements: [
            {
              material: 'pork-shoulder-trim',
              allergens: [],
              document: 'spec',
              composition: {
                waterPct: 46,
                proteinPct: 13,
                fatPct: 40,
                ashPct: 1,
                collagenPct: 1.5,
                saturatedPct: 15,
                carbohydratePct: 0,
                fibrePct: 0,
                sugarsPct: 0,
                sodiumPct: 0.05,
              },
            },
          ],
        },
      }),
    )
    const kg = Object.fromEntries(made.ingredients.items.map((i) => [i.name, i.kg]))
    expect(kg['pork']).toBeCloseTo(51.43, 2)
    expect(kg['pork fat']).toBeCloseTo(8.57, 2)
    expect(made.ingredients.text).toBe('pork (51 %), rice flour, pork fat')
  })

  it('takes nothing out twice where fat was weighed in by itself, and keeps the whole weight', () => {
    const items = [
      { kg: 60, material: 'pork-shoulder-trim' },
      { kg: 10, material: 'pork-back-fat' },
    ]
    const of = (fatKg: number) => nameExcess(items, { pork: { fatKg, connectiveKg: 1 } })
    const total = (list: readonly { kg: number }[]) => list.reduce((s, i) => s + i.kg, 0)
    expect(of(8).map((i) => i.name ?? i.material)).toEqual([
      'pork-shoulder-trim',
      'pork-back-fat',
      'pork connective tissue',
    ])
    expect(of(12).find((i) => i.name === 'pork fat')!.kg).toBeCloseTo(2, 9)
    for (const fat of [0, 8, 12, 90]) expect(total(of(fat))).toBeCloseTo(70, 9)
  })

  it('declares no more of any species than the spread of its trim leaves, also with several', () => {
    const items = (fatSdPct?: number) => [
      { kg: 5, material: 'pork-shoulder-trim', fatPct: 32, ...(fatSdPct === undefined ? {} : { fatSdPct }) },
      { kg: 5, material: 'beef-chuck', fatPct: 26, ...(fatSdPct === undefined ? {} : { fatSdPct }) },
    ]
    const quid = (sd?: number) =>
      [...label(at('EU', { items: items(sd) })).ingredients.text.matchAll(/\((\d+) %\)/g)].map((m) => Number(m[1]))
    const [sure, spread] = [quid(), quid(4)]
    expect(sure).toHaveLength(2)
    sure.forEach((s, i) => expect(spread[i]!).toBeLessThan(s))
  })
})

describe('pack weights of the batch', () => {
  const weighed = (weightsG: number[], more: object = {}) => label(at('GB', { packWeights: { weightsG, ...more } }))

  it('stand on the findings of the label with the least fill, and stop it where the law is not met', () => {
    const good = weighed([402, 405, 403, 404], { batchSize: 4, scaleErrorG: 1 })
    expect(good.weighed).toMatchObject({ n: 4, averageG: 403.5 })
    expect(good.findings.find((f) => f.rule === 'gb.net-weight.average')!.verdict).toBe('pass')
    expect(good.blocks.filter((b) => b.id.includes('net-weight'))).toEqual([])
    // The mean is met by a whole weighing, so the reference test of a sample stops nothing.
    expect(good.findings.find((f) => f.rule === 'gb.net-weight.test-mean')!.anyOf).toBe('gb.net-weight.mean')
    const part = weighed([402, 405, 403, 404], { batchSize: 400, scaleErrorG: 1 })
    expect(part.findings.find((f) => f.rule === 'gb.net-weight.test-mean')!.verdict).toBe('cannot-tell')
    expect(part.blocks.map((b) => b.id).join()).not.toMatch(/test-mean/)
    const short = weighed([390, 391, 389, 392], { batchSize: 4, scaleErrorG: 1 })
    expect(short.blocks.find((b) => b.id.startsWith('gb.net-weight.average'))).toMatchObject({ by: 'data' })
  })

  it('say what would settle what a sample leaves open, and are asked for where a batch has none', () => {
    const open = weighed([399, 402])
    const hit = open.blocks.filter((b) => b.id.includes('net-weight'))
    expect(hit.length).toBeGreaterThan(0)
    expect(hit.map((b) => b.settle).join()).toMatch(/batchSize/)
    expect(label(at('GB')).notes.join()).toMatch(/no pack weights of this batch are recorded/)
  })

  it('are taken from the measures of packing, in grams, none of a marked piece', () => {
    const of = (value: number, unit: string, rest: object = {}) => ({
      step: 'pack',
      what: 'weight',
      value,
      unit,
      ...rest,
    })
    const measures = [
      of(0.4, 'kg'),
      of(1, 'lb'),
      of(405, 'g', { piece: 'P1' }),
      of(9, 'C'),
      { ...of(500, 'g'), step: 'stuff' },
    ]
    expect(recordedPackWeights(measures, [{ count: 30 }, { count: 12 }], 0.5)).toEqual({
      weightsG: [400, 453.59237],
      batchSize: 42,
      scaleErrorG: 0.5,
    })
    expect(recordedPackWeights(measures.slice(1), [])).toBeUndefined()
    expect(recordedPackWeights(measures, [{ count: 1 }])?.batchSize).toBeUndefined()
  })

  it('are refused at their field', () =>
    expect(() => weighed([400, 401], { batchSize: 1 })).toThrow(/packWeights\.batchSize/))
})

describe('degrees of the United States', () => {
  it('never ask for less: 4 °C is 39 °F to keep, 71 °C 160 °F and 74 °C 166 °F to cook, −18 °C is −1 °F', () => {
    expect([4, 71, 74, -18].map((c) => safeFahrenheit(c))).toEqual([39, 160, 166, -1])
    expect(degreesFor('US', -18)).toBe('−1 °F (−18 °C)')
    fc.assert(
      fc.property(fc.double({ min: -40, max: 120, noNaN: true }), (c) => {
        const f = safeFahrenheit(c)
        if (c >= 30) expect(f).toBeGreaterThanOrEqual(c * 1.8 + 32 - 0.1 - 1e-9)
        else expect(f).toBeLessThanOrEqual(c * 1.8 + 32 + 0.1 + 1e-9)
      }),
    )
  })

  it('stand in the lines of the maker, and only there where none stands already', () => {
    expect(lineFor('US', 'Cook to a core of 71 °C.')).toBe('Cook to a core of 160 °F (71 °C).')
    expect(lineFor('US', 'Cook to 160 °F (71 °C)')).toBe('Cook to 160 °F (71 °C)')
    expect(lineFor('GB', 'Cook to a core of 70 °C')).toBe('Cook to a core of 70 °C')
    const made = label(at('US', { pack: { ...base.pack, handling: ['Keep below 4 °C after opening'] } }))
    expect(made.handling.at(-1)).toBe('Keep below 39 °F (4 °C) after opening')
  })
})
