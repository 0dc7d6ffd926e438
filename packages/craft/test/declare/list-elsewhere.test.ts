import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { AllergensInput, AllergensOutput } from '../../src/declare/allergens.ts'
import type { IngredientsInput, IngredientsOutput } from '../../src/declare/ingredients-schema.ts'

const run = (input: IngredientsInput) => calculations['declare.ingredients']!.run(input) as IngredientsOutput
const verdict = (o: IngredientsOutput, rule: string) => o.findings.find((f) => f.rule.endsWith(rule))?.verdict
const pork = { kg: 90, material: 'pork-shoulder-trim' }

// Food and Drug Regulations (Canada), B.01.008 to B.01.010.3, consolidation of 21 November 2025.
describe('the list of Canada', () => {
  it('puts everything that sweetens behind "Sugars", by the weight of them all, most first (B.01.008.3)', () => {
    const o = run({
      jurisdiction: 'CA',
      items: [
        pork,
        { kg: 0.6, material: 'dextrose-monohydrate' },
        { kg: 1.8, material: 'salt' },
        { kg: 1.5, material: 'honey' },
        { kg: 0.1, name: 'corn syrup solids', allergens: [], allergenSource: 'spec' },
      ],
    })
    expect(o.text).toBe('Pork, Sugars (honey, dextrose, corn syrup solids), Salt')
    expect(o.items[1]!.kg).toBeCloseTo(2.2, 9)
    expect(o.items[1]!.from).toEqual([3, 1, 4])
  })

  it('leaves one that says sugar itself alone (B.01.008.3(4)(d)), also the sugar of a cure', () => {
    expect(run({ jurisdiction: 'CA', items: [pork, { kg: 1, material: 'sugar' }] }).text).toBe('Pork, Sugar')
    expect(run({ jurisdiction: 'CA', items: [pork, { kg: 1, material: 'dextrose-monohydrate' }] }).text).toBe(
      'Pork, Sugars (dextrose)',
    )
  })

  it('asks for no list of bread, crumbs, cultures and mixtures of spices (B.01.009), and of mustard for one', () => {
    const of = (material: string) =>
      verdict(
        run({
          jurisdiction: 'CA',
          items: [pork, { kg: 2, material, allergens: [], allergenSource: 'spec' }],
        }),
        'compound',
      )
    expect([of('bread-white'), of('breadcrumb'), of('curry-powder')]).toEqual(['pass', 'pass', 'pass'])
    expect(of('mustard-prepared')).toBe('cannot-tell')
  })

  it('begins each entry of the statement with a capital (B.01.010.3(1)(c))', () => {
    const o = calculations['declare.allergens']!.run({
      jurisdictions: ['CA'],
      items: [
        { kg: 1, material: 'mustard-seed' },
        { kg: 1, material: 'milk-powder-skimmed' },
      ],
    } satisfies AllergensInput) as AllergensOutput
    expect(o.places[0]!.statement).toBe('Contains: Milk, Mustard')
  })
})

// Standard 1.2.4 (1.2.4—3 and 1.2.4—5), New Zealand Gazette of 8 May 2015, number 49, pages 44 and 45.
describe('the list of Australia and New Zealand', () => {
  const of = (waterKg: number, finishedKg: number, rest: Partial<IngredientsInput> = {}) =>
    run({
      jurisdiction: 'AU-NZ',
      items: [
        { kg: 95, material: 'pork-shoulder-trim' },
        { kg: waterKg, material: 'water' },
      ],
      finishedKg,
      ...rest,
    })

  it('places water by what is left after what is removed', () => {
    expect(of(12, 103).items.find((i) => i.name === 'water')!.kg).toBeCloseTo(8, 9)
    expect(of(12, 95).text).toBe('pork')
  })

  it('leaves water out only where it is less than 5 % of the food, whatever the food', () => {
    // 5 kg in 100 kg is 5 %, which is not less.
    expect(of(5, 100, { leaveOutWater: true }).text).toBe('pork, water')
    expect(verdict(of(5, 100, { leaveOutWater: true }), 'water')).toBe('fail')
    expect(of(4.9, 99.9, { leaveOutWater: true }).text).toBe('pork')
  })

  it('cannot tell how additives are to be named, which was not read', () => {
    const o = run({ jurisdiction: 'AU-NZ', items: [pork, { kg: 0.02, material: 'sodium-nitrite' }] })
    expect(o.findings.find((f) => f.rule === 'au-nz.label.additive-class')?.verdict).toBe('cannot-tell')
    expect(verdict(o, 'compound')).toBe('pass')
  })
})

// 9 CFR 317.8(b)(37) and (38), FSIS constituent update of 26 May 2023: same animal not declared, another or an unknown one declared.
describe('the casing', () => {
  const of = (name: string, edible = true) =>
    run({ jurisdiction: 'US', items: [pork], casing: { edible, name } }).statements
  it.each([
    ['pork casing', true, []],
    ['hog casing', true, []],
    ['sheep casing', true, ['packed in lamb casing']],
    ['pork collagen casing', true, []],
    ['beef collagen casing', true, ['packed in beef collagen casing']],
    ['collagen casing', true, ['packed in collagen casing']],
    ['cellulose casing', false, ['cellulose casing not edible']],
  ])('%s (edible: %s) asks for %j', (name, edible, lines) => expect(of(name, edible)).toEqual(lines))

  it('takes what is given over what the name says', () => {
    const o = run({ jurisdiction: 'CA', items: [pork], casing: { edible: true, kind: 'natural', species: 'lamb' } })
    expect(o.statements).toEqual(['packed in lamb casing'])
  })
})

describe('mechanically separated meat', () => {
  it('is named as such and never as the meat of its species, in any place', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('US' as const, 'EU' as const, 'GB' as const, 'CA' as const, 'AU-NZ' as const),
        (jurisdiction) => {
          const o = run({
            jurisdiction,
            items: [pork, { kg: 20, material: 'pork-mechanically-separated' }],
          })
          expect(o.text.toLowerCase()).toBe('pork, mechanically separated pork')
        },
      ),
    )
  })
})
