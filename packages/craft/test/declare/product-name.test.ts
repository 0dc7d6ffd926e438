import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import type { NameInput, NameOutput } from '../../src/declare/product-name.ts'

const run = (input: NameInput) => calculations['declare.name']!.run(input) as NameOutput
const of = (o: NameOutput, standard: string) => o.names.find((n) => n.standard === standard)
const base = { smoked: false, cured: false, on: '2026-01-01' } as const

describe('declare.name', () => {
  // SI 2014/3001, Schedule 1, item 11: pork sausage 42 %, other sausage of pig meat 32 %, of other meat 30 %; burger 62 % of beef.
  it.each([
    [['pork'], 51.4, 'gb.3001.pork-sausage', 'pass'],
    [['pork'], 41.9, 'gb.3001.pork-sausage', 'fail'],
    [['pork'], 32, 'gb.3001.sausage', 'pass'],
    [['pork'], 31.9, 'gb.3001.sausage', 'fail'],
    [['beef'], 49.9, 'gb.3001.sausage', 'pass'],
    [['beef'], 49.9, 'gb.3001.burger', 'fail'],
    [['beef'], 49.9, 'gb.3001.economy-burger', 'pass'],
    [['beef'], 46.9, 'gb.3001.economy-burger', 'fail'],
    [['chicken'], 26, 'gb.3001.sausage', 'pass'],
  ])('in Great Britain %s of %d %% declared meat under %s is %s', (species, declaredMeatPct, standard, verdict) => {
    const o = run({ ...base, jurisdictions: ['GB'], kind: 'fresh', species, measures: { declaredMeatPct } })
    expect(of(o, standard)?.composition).toBe(verdict)
  })

  // 9 CFR 319.180(a): fat 30 %, fat and added water 40 %.
  it.each([
    [28, 12, 'pass'],
    [28, 12.1, 'fail'],
    [30.1, 5, 'fail'],
  ])('in the US fat %d and added water %d as a frankfurter is %s', (fatPct, addedWaterPct, verdict) => {
    const o = run({
      ...base,
      cured: true,
      jurisdictions: ['US'],
      kind: 'cooked',
      species: ['pork', 'beef'],
      measures: { fatPct, addedWaterPct, poultryPct: 0, binderPct: 0, strongBinderPct: 0 },
    })
    expect(of(o, 'us.319.180.a')?.composition).toBe(verdict)
  })

  // SI 1995/3205, Schedule 11, paragraph 1, the same table as Regulation (EU) 1169/2011, Annex VI B 1: fat and collagen in meat protein.
  it.each([
    ['pork', 7, 12, 'eu.1169.minced.lean', 'pass'],
    ['pork', 7.1, 12, 'eu.1169.minced.lean', 'fail'],
    ['pork', 7, 12.1, 'eu.1169.minced.lean', 'fail'],
    ['beef', 20, 15, 'eu.1169.minced.beef', 'pass'],
    ['beef', 20.1, 15, 'eu.1169.minced.beef', 'fail'],
    ['pork', 30, 18, 'eu.1169.minced.pigmeat', 'pass'],
    ['pork', 30, 18.1, 'eu.1169.minced.pigmeat', 'fail'],
    ['lamb', 25, 15, 'eu.1169.minced.other', 'pass'],
    ['lamb', 25.1, 15, 'eu.1169.minced.other', 'fail'],
  ])(
    'mince of %s with fat %d and collagen %d %% of its protein as %s: %s',
    (species, fatPct, collagenOfProteinPct, standard, verdict) => {
      const o = run({
        ...base,
        jurisdictions: ['EU'],
        kind: 'fresh',
        species: [species],
        measures: { fatPct, collagenOfProteinPct },
      })
      expect(of(o, standard)?.composition).toBe(verdict)
    },
  )

  it('does not bring a beef name into question for pork, nor a pork name for beef', () => {
    const o = run({ ...base, kind: 'fresh', species: ['pork'], measures: { fatPct: 20, formulaWaterPct: 2 } })
    expect(of(o, 'us.319.142')).toBeUndefined()
    expect(of(o, 'us.319.141')?.composition).toBe('pass')
    const beef = run({ ...base, kind: 'fresh', species: ['beef'], measures: { fatPct: 20, formulaWaterPct: 2 } })
    expect(of(beef, 'us.319.141')).toBeUndefined()
    expect(of(beef, 'us.319.142')?.composition).toBe('pass')
  })

  it('cannot tell where a figure the standard limits is not given', () => {
    const o = run({ ...base, kind: 'fresh', species: ['pork'], measures: {} })
    expect(o.names.every((n) => n.composition !== 'pass')).toBe(true)
  })

  it('puts "Uncured" before a name whose standard is cured where no nitrite is used (9 CFR 319.2)', () => {
    const cooked = {
      ...base,
      jurisdictions: ['US' as const],
      kind: 'cooked' as const,
      species: ['pork'],
      measures: { fatPct: 25 },
    }
    expect(of(run(cooked), 'us.319.180.a')?.asNamed).toMatch(/^Uncured Frankfurter/)
    expect(of(run({ ...cooked, cured: true }), 'us.319.180.a')?.asNamed).toMatch(/^Frankfurter/)
  })
})
