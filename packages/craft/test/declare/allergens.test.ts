import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { allergensIn } from '../../src/declare/allergen-words.ts'
import { describe, expect, it } from 'vitest'
import type { AllergensInput, AllergensOutput } from '../../src/declare/allergens.ts'
import { materials } from '../../src/materials/materials.ts'
import { allergens } from '../../src/materials/schema.ts'
import { figures } from '../../src/rules.ts'

const run = (input: AllergensInput) => calculations['declare.allergens']!.run(input) as AllergensOutput
const of = (o: AllergensOutput, place: string) => o.places.find((p) => p.jurisdiction === place)!
const groups = (o: AllergensOutput, place: string) => of(o, place).contains.map((c) => c.group)

describe('lists by place', () => {
  it('hold nine in the US (FALCPA 2004 and FASTER Act 2021), fourteen in the EU and Great Britain (1169/2011, Annex II)', () => {
    const { places } = figures('labelling')
    expect(places['US']!.allergens.map((g) => g.group)).toEqual([
      'milk',
      'egg',
      'fish',
      'crustacean shellfish',
      'tree nuts',
      'wheat',
      'peanut',
      'soy',
      'sesame',
    ])
    expect(places['EU']!.allergens).toHaveLength(14)
    expect(places['GB']!.allergens).toEqual(places['EU']!.allergens)
    expect(new Set(places['EU']!.allergens.flatMap((g) => g.members))).toEqual(new Set(allergens))
  })

  it('hold mustard, sesame, sulphites and gluten in Canada, and no celery or lupin (Health Canada)', () => {
    const members = figures('labelling').places['CA']!.allergens.flatMap((g) => g.members)
    for (const a of ['mustard', 'sesame', 'sulphite', 'gluten-cereal', 'mollusc'] as const) expect(members).toContain(a)
    expect(members).not.toContain('celery')
    expect(members).not.toContain('lupin')
  })

  it('hold lupin and molluscs in Australia and New Zealand, and no celery or mustard (Standard 1.2.3)', () => {
    const members = figures('labelling').places['AU-NZ']!.allergens.flatMap((g) => g.members)
    for (const a of ['lupin', 'mollusc', 'sesame', 'sulphite'] as const) expect(members).toContain(a)
    expect(members).not.toContain('celery')
    expect(members).not.toContain('mustard')
  })
})

describe('declare.allergens', () => {
  it('declares celery seed in the EU and not in the US, and says that it is carried all the same', () => {
    const o = run({ items: [{ kg: 1, material: 'celery-seed' }] })
    expect(groups(o, 'EU')).toEqual(['celery'])
    expect(groups(o, 'US')).toEqual([])
    expect(of(o, 'US').notListed).toEqual(['celery'])
  })

  it('names rye as a cereal with gluten in the EU and Canada; the US lists wheat only', () => {
    const o = run({ items: [{ kg: 1, material: 'rye-flour' }] })
    expect(of(o, 'EU').contains[0]).toMatchObject({ group: 'cereals containing gluten', say: ['rye'] })
    expect(of(o, 'CA').statement).toBe('Contains: Rye')
    expect(groups(o, 'US')).toEqual([])
  })

  it('names wheat and gluten in the summary statement of Australia and New Zealand (Schedule 9)', () => {
    const o = run({ items: [{ kg: 1, material: 'wheat-flour' }] })
    expect(of(o, 'AU-NZ').statement).toBe('Contains: wheat, gluten')
    expect(of(o, 'US').statement).toBe('Contains: wheat')
  })

  it('names the rye beside the wheat where one ingredient brings each', () => {
    const o = run({
      items: [
        { kg: 1, material: 'wheat-flour' },
        { kg: 1, material: 'rye-flour' },
      ],
    })
    expect(of(o, 'EU').contains[0]!.say).toEqual(['wheat', 'rye'])
  })

  const sulphites = (sulphitePpm: number | undefined, place: string, material = 'wine-red') =>
    of(
      run({
        items: [{ kg: 1, ...(material === 'beef' ? { name: 'beef', allergens: [] } : { material }) }],
        ...(sulphitePpm === undefined ? {} : { sulphitePpm }),
      }),
      place,
    )

  // Annex II, point 12: "more than 10 mg/kg"; B.01.010.3(1)(b)(iii): "10 parts per million or more"; Schedule 9: 10 mg/kg or more.
  it.each([
    ['EU', 10, false],
    ['EU', 10.1, true],
    ['GB', 10, false],
    ['GB', 450, true],
    ['CA', 9.9, false],
    ['CA', 10, true],
    ['AU-NZ', 9.9, false],
    ['AU-NZ', 10, true],
  ] as const)('in %s at %d mg/kg, whether an ingredient is said to carry sulphites or not: %s', (place, level, due) => {
    for (const material of ['wine-red', 'beef']) {
      const here = sulphites(level, place, material)
      expect(here.contains.flatMap((c) => c.say)).toEqual(due ? ['sulphites'] : [])
    }
  })

  it('declares sulphites where their level is not known', () => {
    for (const place of ['EU', 'GB', 'CA', 'AU-NZ'] as const)
      expect(sulphites(undefined, place).contains).toHaveLength(1)
  })

  it('adds the sulphites an analysis found to what is carried, and says that no ingredient is said to bring them', () => {
    const o = run({ items: [{ kg: 10, name: 'beef', allergens: [] }], sulphitePpm: 450 })
    expect(o.carried).toEqual(['sulphite'])
    expect(of(o, 'EU').contains[0]).toMatchObject({ allergens: ['sulphite'], from: ['the level given, 450 mg/kg'] })
    expect(of(o, 'EU').notes.join()).toMatch(/no ingredient is said to carry/)
    expect(of(o, 'CA').statement).toBe('Contains: Sulphites')
  })

  it('says where the US names them: in the list of ingredients from 10 ppm, not among its allergens (21 CFR 101.100(a)(4))', () => {
    const over = sulphites(10, 'US', 'beef')
    expect(over.contains).toEqual([])
    expect(over.notListed).toEqual(['sulphite'])
    expect(over.notes.join()).toMatch(/10 mg\/kg.*list of ingredients.*101\.100/)
    expect(sulphites(9.9, 'US', 'beef').notes).toEqual([])
    expect(sulphites(undefined, 'US').notes.join()).toMatch(/list of ingredients/)
  })

  it('keeps cross-contact apart from what is in the recipe, and drops it where the recipe holds it anyway', () => {
    const o = run({
      items: [
        { kg: 1, material: 'pork-shoulder-trim' },
        { kg: 1, material: 'mustard-seed', mayContain: ['sesame'] },
      ],
      crossContact: [
        { allergen: 'milk', because: 'cheese sausage on the same filler' },
        { allergen: 'mustard', because: 'mustard store' },
      ],
    })
    expect(of(o, 'EU').mayContain.map((c) => c.group)).toEqual(['milk', 'sesame'])
    expect(of(o, 'EU').mayContain[1]!.from).toEqual(['Mustard seed, ground, by its supplier'])
  })

  it('stops the label when a change of supplier brings a spice mix nobody has a statement for', () => {
    const pork = { kg: 100, material: 'pork-shoulder-trim' }
    const before = run({ items: [pork, { kg: 1, name: 'seasoning', allergens: [] }] })
    const after = run({ items: [pork, { kg: 1, name: 'seasoning' }] })
    expect(before.findings.every((f) => f.verdict === 'pass')).toBe(true)
    expect(after.findings.filter((f) => f.rule.endsWith('allergen-source')).map((f) => f.verdict)).toEqual(
      Array.from({ length: 5 }, () => 'cannot-tell'),
    )
    expect(after.unknown[0]!.name).toBe('seasoning')
  })

  it.each(['starter-culture', 'liquid-smoke', 'curry-powder', 'rusk', 'pea-protein', 'juniper-berry'])(
    'cannot tell what %s carries from the table alone',
    (material) => expect(run({ items: [{ kg: 1, material }] }).unknown).toHaveLength(1),
  )

  it("lets a supplier's statement take off egg of a rusk, which one of its kind can be without, and never its wheat", () => {
    const rusk = { kg: 1, material: 'rusk', allergens: ['wheat' as const] }
    expect(run({ items: [rusk] }).carried).toContain('egg')
    const stated = run({ items: [{ ...rusk, allergenSource: 'specification 7 of 2026-03-01' }] })
    expect(stated.carried).toEqual(['wheat', 'gluten-cereal'])
    expect(stated.findings.filter((f) => f.verdict !== 'pass')).toEqual([])
    const none = run({ items: [{ ...rusk, allergens: [], allergenSource: 'specification 8' }] })
    expect(none.carried).toEqual(['wheat', 'gluten-cereal'])
    expect(none.findings.find((f) => f.rule === 'eu.label.allergen-source')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringContaining('the statement on Rusk toast denies wheat, which the table names'),
    })
  })

  it('carries every allergen of every ingredient, whatever is put together, and more ingredients never carry less', () => {
    const ids = materials.map((m) => m.id)
    const item = fc.record({ material: fc.constantFrom(...ids), kg: fc.constant(1) })
    fc.assert(
      fc.property(fc.array(item, { minLength: 1, maxLength: 20 }), item, (items, more) => {
        const o = run({ items })
        const all = new Set(items.flatMap((i) => materials.find((m) => m.id === i.material)!.allergens))
        expect(new Set(o.carried)).toEqual(all)
        const eu = of(o, 'EU').contains.flatMap((c) => c.allergens)
        const needed = items.flatMap((i) => {
          const own = materials.find((m) => m.id === i.material)!.allergens
          return own.filter((a) => !(a === 'gluten-cereal' && own.includes('wheat')))
        })
        for (const a of needed) expect(eu).toContain(a)
        for (const p of o.places) {
          const here = p.contains.flatMap((c) => c.allergens)
          for (const a of needed) expect(here.includes(a) || p.notListed.includes(a)).toBe(true)
        }
        const wider = run({ items: [...items, more] }).carried
        for (const a of o.carried) expect(wider).toContain(a)
      }),
      { numRuns: 2000 },
    )
  })
})

describe('foods that carry an allergen without its word', () => {
  // Words of the trade; common practice, no source.
  it.each([
    ['panko', ['wheat']],
    ['pasta', ['wheat']],
    ['flour', ['wheat']],
    ['tamari', ['soy']],
    ['gouda', ['milk']],
    ['crème fraîche', ['milk']],
    ['egg albumen', ['egg']],
    ['eel', ['fish']],
    ['Worcestershire sauce', ['fish']],
    ['calamari', ['mollusc']],
    ['Dijon', ['mustard']],
  ])('%s carries %j', (food, kinds) => expect(allergensIn(food)).toEqual(kinds))

  it.each(['rice flour', 'corn flour', 'rice noodles', 'gluten-free pasta', 'blood albumin', 'reel'])(
    '%s carries none',
    (food) => expect(allergensIn(food)).toEqual([]),
  )
})
