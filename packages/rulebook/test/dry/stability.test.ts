import { describe, expect, it } from 'vitest'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { calculations } from '@forcemeat/craft/calculations'
import { stability, type StabilityInput } from '@forcemeat/craft/dry/stability'
import { stabilityRules } from '../../data/dry/stability.ts'

const verdict = (rule: string, input: StabilityInput) => stability(input).findings.find((f) => f.rule === rule)?.verdict

describe('Listeria, class unable to support growth (Regulation (EC) No 2073/2005, Annex I, as quoted)', () => {
  const rule = 'eu.2073.listeria-no-growth'
  it.each<[StabilityInput, string]>([
    [{ ph: 4.4, aw: 0.99, shelfLifeDays: 30 }, 'pass'],
    [{ ph: 4.41, aw: 0.99, shelfLifeDays: 30 }, 'fail'],
    [{ ph: 6, aw: 0.92, shelfLifeDays: 30 }, 'pass'],
    [{ ph: 6, aw: 0.921, shelfLifeDays: 30 }, 'fail'],
    [{ ph: 5, aw: 0.94, shelfLifeDays: 30 }, 'pass'],
    [{ ph: 5.01, aw: 0.94, shelfLifeDays: 30 }, 'fail'],
    [{ ph: 5, aw: 0.941, shelfLifeDays: 30 }, 'fail'],
    [{ ph: 6, aw: 0.98, shelfLifeDays: 4.9 }, 'pass'],
    [{ ph: 6, aw: 0.98, shelfLifeDays: 5 }, 'fail'],
    [{ ph: 5.5, aw: 0.95 }, 'cannot-tell'],
    [{ ph: 5.5, shelfLifeDays: 30 }, 'cannot-tell'],
    [{ aw: 0.9 }, 'pass'],
  ])('%j is %s', (input, expected) => {
    expect(verdict(rule, input)).toBe(expected)
    expect(verdict('gb.2073.listeria-no-growth', input)).toBe(expected)
  })
})

describe('classes by pH and water activity (Leistner & Rödel as in an FSIS training text; IAFP 2014 P3-97 for one factor alone)', () => {
  it.each<[StabilityInput, string]>([
    [{ ph: 5.2, aw: 0.95 }, 'shelf-stable'],
    [{ ph: 5.21, aw: 0.95 }, 'perishable'],
    [{ ph: 5.2, aw: 0.951 }, 'perishable'],
    [{ ph: 4.99, aw: 0.97 }, 'shelf-stable'],
    [{ ph: 5, aw: 0.97 }, 'perishable'],
    [{ ph: 5.8, aw: 0.909 }, 'shelf-stable'],
    [{ ph: 5.8, aw: 0.91 }, 'perishable'],
    [{ ph: 5.3, aw: 0.96 }, 'very-perishable'],
    [{ ph: 5.3 }, 'cannot-tell'],
    [{}, 'cannot-tell'],
  ])('%j is %s', (input, expected) => {
    expect(stability(input).class).toBe(expected)
  })
  it('a reading within its error of a limit is not decided', () => {
    expect(stability({ ph: 5.6, aw: 0.908, awTolerance: 0.003 }).class).toBe('cannot-tell')
    expect(stability({ ph: 5.6, aw: 0.906, awTolerance: 0.003 }).class).toBe('shelf-stable')
    expect(stability({ ph: 5.6, aw: 0.914, awTolerance: 0.003 }).class).toBe('perishable')
  })
  it('a computed water activity and an uncalibrated pH meter never give a pass, yet may rule a class out', () => {
    expect(stability({ ph: 5.8, aw: 0.85, awMeasured: false }).class).toBe('cannot-tell')
    expect(stability({ ph: 4.6, aw: 0.97, phMeterCalibrated: false }).class).toBe('cannot-tell')
    expect(stability({ ph: 5.8, aw: 0.97, awMeasured: false, phMeterCalibrated: false }).class).toBe('very-perishable')
    const found = stability({ ph: 5.8, aw: 0.85, awMeasured: false }).findings[0]!
    expect(found.because).toMatch(/computed, not measured/)
    expect(found.settle).toMatch(/checked meter/)
  })
  it('binds where the product is kept without refrigeration, and is advice elsewhere', () => {
    const weight = (storage?: 'ambient' | 'chilled') =>
      stability({ ph: 5.8, aw: 0.97, ...(storage ? { storage } : {}) }).findings[0]!.weight
    expect(weight('ambient')).toBe('limit')
    expect(weight('chilled')).toBe('advice')
    expect(weight()).toBe('advice')
  })
})

describe('historic USDA criteria (IAFP 2014 P3-97): aw < 0.91, or pH < 5.0, or aw < 0.95 with pH < 5.2', () => {
  it.each<[StabilityInput, string]>([
    [{ ph: 5.2, aw: 0.94 }, 'fail'],
    [{ ph: 5.19, aw: 0.949 }, 'pass'],
    [{ ph: 5.19, aw: 0.95 }, 'fail'],
    [{ ph: 4.9 }, 'pass'],
  ])('%j is %s', (input, expected) => {
    expect(verdict('us.stability.historic', input)).toBe(expected)
  })
})

describe('growth limits', () => {
  it.each<[string, StabilityInput, string]>([
    ['stability.c-botulinum.proteolytic', { ph: 6, aw: 0.934, storage: 'ambient' }, 'pass'],
    ['stability.c-botulinum.proteolytic', { ph: 6, aw: 0.935, saltPct: 3, waterPct: 50, storage: 'ambient' }, 'fail'],
    ['stability.c-botulinum.proteolytic', { ph: 4.59, storage: 'ambient' }, 'pass'],
    ['stability.c-botulinum.proteolytic', { saltPct: 6, waterPct: 50, storage: 'ambient' }, 'pass'],
    ['stability.c-botulinum.non-proteolytic', { ph: 6, aw: 0.96, storage: 'chilled' }, 'pass'],
    [
      'stability.c-botulinum.non-proteolytic',
      { ph: 6, aw: 0.98, saltPct: 2, waterPct: 60, storage: 'chilled' },
      'fail',
    ],
    ['stability.s-aureus.growth', { ph: 5, aw: 0.829 }, 'pass'],
    ['stability.s-aureus.growth', { ph: 5, aw: 0.83 }, 'fail'],
    ['stability.s-aureus.snack-sausage', { ph: 5.1, aw: 0.96, storage: 'ambient' }, 'pass'],
    ['stability.s-aureus.snack-sausage', { ph: 5.6, aw: 0.96, storage: 'ambient' }, 'fail'],
  ])('%s: %j is %s (FDA guide 2022 Table A-1; ICMSF 1996; Borneman et al. 2015)', (rule, input, expected) => {
    expect(verdict(rule, input)).toBe(expected)
  })
  it('asks of botulism only what the storage makes matter', () => {
    expect(verdict('stability.c-botulinum.proteolytic', { ph: 6, storage: 'chilled' })).toBeUndefined()
    expect(verdict('stability.c-botulinum.non-proteolytic', { ph: 6, storage: 'ambient' })).toBeUndefined()
  })
})

describe('moisture to protein by name (US labels as tabulated)', () => {
  it.each<[NonNullable<StabilityInput['named']>, number, number]>([
    ['jerky', 0.75, 0.76],
    ['pepperoni', 1.6, 1.61],
    ['dry-salami', 1.9, 1.91],
    ['genoa', 2.1, 2.11],
  ])('%s passes at %d and fails at %d', (named, at, over) => {
    const rule = `us.moisture-protein.${named}`
    expect(verdict(rule, { named, moistureToProtein: at })).toBe('pass')
    expect(verdict(rule, { named, moistureToProtein: over })).toBe('fail')
    expect(verdict(rule, { named })).toBe('cannot-tell')
    expect(verdict(rule, { moistureToProtein: at })).toBeUndefined()
    expect(verdict(rule, { named, moistureToProtein: at, jurisdictions: ['EU'] })).toBeUndefined()
  })
  it('summer sausage needs its pH as well: 3.1 at pH 5.0', () => {
    const at = (ph: number) =>
      verdict('us.moisture-protein.summer-sausage', { named: 'summer-sausage', moistureToProtein: 3.1, ph })
    expect(at(5)).toBe('pass')
    expect(at(5.01)).toBe('fail')
  })
})

describe('the rules of stability as data', () => {
  it('give no pass to anything from memory', () => {
    for (const { anyOf } of stabilityRules)
      for (const { source } of anyOf) expect(['seen', 'quoted', 'computed']).toContain(source.mark)
  })
  it('name a figure on one side for every bound', () => {
    for (const { anyOf } of stabilityRules)
      for (const bound of anyOf.flatMap((c) => c.all))
        expect((bound.below === undefined) !== (bound.above === undefined)).toBe(true)
  })
})

describe('what dry.stability refuses', () => {
  it.each([
    [{ ph: 14 }, /ph: is 14; allowed/],
    [{ aw: 1.2 }, /aw: is 1\.2; allowed/],
    [{ saltPct: 60, waterPct: 60 }, /saltPct: and waterPct add up to 120 %/],
    [{ pH: 5 }, /pH: is not a field here/],
    [{ named: 'sausage' }, /named: is the text "sausage"; allowed: one of jerky/],
  ])('names the field, what was given and what is allowed (%#)', (input, message) => {
    const attempt = () => calculations['dry.stability']!.run(input)
    expect(attempt).toThrow(InvalidInput)
    expect(attempt).toThrow(message)
  })
})
