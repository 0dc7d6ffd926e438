import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import type { QualifyingInput, QualifyingOutput } from '../../src/declare/qualifying.ts'

const run = (input: QualifyingInput) => calculations['declare.qualifying-words']!.run(input) as QualifyingOutput
const places = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const
const due = (o: QualifyingOutput, id: string) => o.words.find((w) => w.id.endsWith(id))?.due

describe('words that qualify a name', () => {
  it.each(places)('smoked and smoke flavour are two things in %s: one is due where the other is not', (place) => {
    const smoked = run({ place, name: 'Pork sausage', facts: { smoked: true, smokeFlavoured: false } })
    expect([due(smoked, 'smoked'), due(smoked, 'smoke-flavour')]).toEqual(['due', 'not due'])
    expect(smoked.beside).toEqual(['smoked'])
    const flavoured = run({ place, name: 'Smoked pork sausage', facts: { smoked: false, smokeFlavoured: true } })
    expect(due(flavoured, 'smoke-flavour')).toBe('due')
    // The name claims smoke that the product has not seen.
    expect(flavoured.findings.find((f) => f.rule.endsWith('.smoked'))?.verdict).toBe('fail')
  })

  it.each(places)('in %s: what nobody says is not to be told, stops nothing and puts no word on the label', (place) => {
    const o = run({ place, name: 'Pork sausage', facts: {} })
    expect(new Set(o.words.map((w) => w.due))).toEqual(new Set(['cannot tell']))
    expect([o.beside, o.findings]).toEqual([[], []])
  })

  it.each(places)('in %s: a word the name says already does not stand beside it', (place) => {
    const o = run({ place, name: 'Smoked sausage, cooked', facts: { smoked: true, cooked: true } })
    expect(o.beside).toEqual([])
    expect(o.words.find((w) => w.id.endsWith('.smoked'))!.said).toBe('in the name')
  })

  it('never passes where the rule is from memory, and passes where it was read', () => {
    const of = (place: (typeof places)[number]) =>
      run({ place, name: 'Sausage', facts: { smoked: true } }).findings.find((f) => f.rule.endsWith('.smoked'))!
    // Canada: Food and Drug Regulations, B.01.006.1, as read; EU: Annex VI A 1, from memory.
    expect([of('CA').verdict, of('EU').verdict]).toEqual(['pass', 'cannot-tell'])
    expect(of('EU').settle).toMatch(/Annex VI/)
  })

  it('added water over 5 % goes into the name of what looks like a cut, not of a sausage (Annex VI A 6)', () => {
    const of = (addedWaterPct: number, looksLikeCut: boolean) =>
      due(run({ place: 'EU', name: 'Ham', facts: { looksLikeCut }, addedWaterPct }), 'added-water')
    expect([of(5, true), of(5.01, true), of(20, false)]).toEqual(['not due', 'due', 'not due'])
  })

  it('sweeteners alone and with sugars have each their own words (Annex III 2.1 and 2.2)', () => {
    const of = (sugars: boolean) => run({ place: 'EU', name: 'Ham', facts: { sweetener: true, sugars } }).beside
    expect([of(false), of(true)]).toEqual([['with sweetener(s)'], ['with sugar(s) and sweetener(s)']])
  })

  it('a product usually cured and made without nitrite is "Uncured" (9 CFR 319.2); "uncured" claims no cure', () => {
    const o = run({ place: 'US', name: 'Frankfurter', facts: { curedByStandardWithoutNitrite: true } })
    expect(o.beside).toEqual(['Uncured', 'No Nitrate or Nitrite Added'])
    expect(o.findings.find((f) => f.rule === 'us.name.uncured')!.verdict).toBe('pass')
    const wrong = run({ place: 'US', name: 'Uncured frankfurter', facts: { curedByStandardWithoutNitrite: false } })
    expect(wrong.findings.map((f) => [f.rule, f.verdict])).toEqual([['us.name.uncured', 'fail']])
  })

  it('fermented comminuted meat has prescribed names in the Code (2.2.1—9)', () => {
    const o = run({ place: 'AU-NZ', name: 'Salami', facts: { fermentedNotHeated: true, fermentedHeated: false } })
    expect(o.beside).toEqual(['fermented processed meat – not heat treated'])
  })

  it('looks into the list and the statements where the law wants the word there', () => {
    const of = (listText: string) =>
      run({ place: 'GB', name: 'Nuggets', facts: { mechanicallySeparated: true }, listText }).findings[0]!.verdict
    expect([of('mechanically separated chicken, salt'), of('chicken, salt')]).toEqual(['pass', 'fail'])
    const casing = run({ place: 'GB', name: 'S', facts: { casingInedible: true }, statements: ['casing not edible'] })
    expect(casing.words.find((w) => w.id.endsWith('.casing'))!.said).toBe('in a statement')
  })
})

// 9 CFR 319.104, chart: cooked ham 20.5, 18.5, 17.0; cooked shoulder 20.0, 18.0, 16.5; uncooked 18.0 and 17.5.
describe('cured pork by its protein on the fat-free part', () => {
  const of = (
    product: NonNullable<QualifyingInput['curedPork']>['product'],
    fatFreeProteinPct: number,
    addedPct?: number,
  ) =>
    run({
      place: 'US',
      name: 'Ham',
      facts: {},
      curedPork: { product, fatFreeProteinPct, ...(addedPct === undefined ? {} : { addedPct }) },
    }).curedPorkWords
  it.each([
    ['cooked-ham-or-loin', 20.5, ''],
    ['cooked-ham-or-loin', 20.49, 'with natural juices'],
    ['cooked-ham-or-loin', 18.49, 'water added'],
    ['cooked-shoulder-butt-or-picnic', 18, 'with natural juices'],
    ['cooked-shoulder-butt-or-picnic', 16.5, 'water added'],
    ['uncooked-ham-or-loin', 18, ''],
  ] as const)('%s at %d %% is called "%s"', (product, p, words) => expect(of(product, p)).toBe(words))

  it('says how much was added under the last step, never less', () =>
    expect(of('cooked-ham-or-loin', 16.9, 24.2)).toBe('and water product, 25 % of weight is added ingredients'))
})
