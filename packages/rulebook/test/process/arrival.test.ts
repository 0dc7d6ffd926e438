import { materials } from '@forcemeat/craft/materials/materials'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { arrivalRules, ownLimitRules, reworkRules } from '../../data/process/arrival.ts'
import type { BatchInstrument } from '../../src/batch/facts.ts'
import { findRule } from '../../src/catalogue.ts'
import { arrivalClassOf, judgeArrival, type ArrivalFacts } from '../../src/process/arrival.ts'
import { judgeReworkLimits } from '../../src/process/rework.ts'

const probe: BatchInstrument = { instrument: 'TH', name: 'probe', toleranceC: 0.5, standing: 'in-date' }
const judge = (facts: Partial<ArrivalFacts>) =>
  judgeArrival({
    material: 'pork-shoulder-trim',
    on: '2026-11-25',
    jurisdictions: ['EU'],
    thermometer: probe,
    arrivalC: 4,
    ...facts,
  })
const verdicts = (facts: Partial<ArrivalFacts>) => judge(facts).map((f) => f.verdict)

describe('arrival of chilled meat', () => {
  it.each([
    ['pork-shoulder-trim', 7],
    ['beef-trim-90-10', 7],
    ['pork-liver', 3],
    ['chicken-thigh', 4],
    ['beef-blood', 3],
    ['pork-ground', 2],
  ])('%s: at most %d °C (Regulation (EC) No 853/2004, Annex III, as quoted)', (material, limit) => {
    for (const place of ['EU', 'GB']) {
      const at = (arrivalC: number) => judge({ material, arrivalC, jurisdictions: [place] })[0]!
      // The thermometer's own error of 0.5 °C lies between.
      expect(at(limit - 0.5).verdict).toBe('pass')
      expect(at(limit).verdict).toBe('cannot-tell')
      expect(at(limit + 0.5).verdict).toBe('cannot-tell')
      expect(at(limit + 0.6)).toMatchObject({ verdict: 'fail', weight: 'limit', limit })
    }
  })

  it('is advice at 5 °C in the United States (FDA Food Code, as quoted), and never passes on a figure from memory', () => {
    expect(judge({ jurisdictions: ['US'], arrivalC: 4 })[0]).toMatchObject({ verdict: 'pass', weight: 'advice' })
    expect(judge({ jurisdictions: ['US'], arrivalC: 6 })[0]).toMatchObject({ verdict: 'fail', weight: 'advice' })
    for (const place of ['AU-NZ', 'CA'])
      for (const arrivalC of [1, 9]) expect(verdicts({ jurisdictions: [place], arrivalC })).toEqual(['cannot-tell'])
  })

  it('cannot be told without a temperature, without a named thermometer, or by one past its check', () => {
    expect(verdicts({ arrivalC: undefined })).toEqual(['cannot-tell'])
    expect(verdicts({ thermometer: undefined })).toEqual(['cannot-tell'])
    for (const standing of ['overdue', 'never-checked', 'out-of-tolerance', 'retired'] as const)
      expect(verdicts({ thermometer: { ...probe, standing } })).toEqual(['cannot-tell'])
  })

  it("is held against the kitchen's own limit too, by what the thermometer shows", () => {
    const own = { arrivalMaxC: 4 }
    expect(judge({ own }).map((f) => [f.rule, f.verdict])).toEqual([
      ['receive.eu.red', 'pass'],
      ['receive.own', 'pass'],
    ])
    expect(judge({ own, arrivalC: 5, jurisdictions: [] })).toMatchObject([
      { rule: 'receive.own', verdict: 'fail', weight: 'advice', measured: 5, limit: 4, margin: -1 },
    ])
    expect(verdicts({ own, thermometer: undefined, jurisdictions: [] })).toEqual(['cannot-tell'])
  })

  it('says nothing of salt, spice, casings, or what is rendered or cured', () => {
    for (const material of ['salt', 'black-pepper', 'lard', 'bacon', 'salt-pork', 'duck-fat', 'milk-whole', 'no-such'])
      expect(judge({ material })).toEqual([])
  })

  it('classes every material of an animal, and nothing else', () => {
    for (const m of materials) if (m.species === undefined) expect(arrivalClassOf(m.id), m.id).toBeUndefined()
    for (const m of materials.filter((x) => x.category === 'offal' && /liver|kidney|lung|spleen/.test(x.id)))
      expect(['offal', 'poultry']).toContain(arrivalClassOf(m.id))
  })

  it('never gets better as the meat gets warmer', () => {
    const rank = { pass: 0, 'cannot-tell': 1, fail: 2 }
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (c, more) => {
          const [a, b] = [judge({ arrivalC: c })[0]!, judge({ arrivalC: c + more })[0]!]
          expect(rank[a.verdict]).toBeLessThanOrEqual(rank[b.verdict])
        },
      ),
    )
  })

  it('has each of its rules in the rulebook', () => {
    for (const r of [...arrivalRules, ...reworkRules, ...Object.values(ownLimitRules)]) expect(findRule(r.id)).toBe(r)
  })
})

describe('rework in a batch', () => {
  const facts = {
    rework: [
      { lot: 'RW-1', kg: 1, on: '2026-11-20' },
      { lot: 'RW-2', kg: 1, on: '2026-11-24' },
    ],
    totalKg: 50,
    on: '2026-11-25',
    jurisdictions: ['CA'],
  }

  it('of 4 % cannot be told in Canada, where cased sausage is re-worked to at most 3 % (archived CFIA manual, as quoted); 2 % passes', () => {
    expect(judgeReworkLimits(facts)).toMatchObject([
      { rule: 'rework.ca.cased', verdict: 'cannot-tell', weight: 'advice' },
    ])
    expect(judgeReworkLimits({ ...facts, totalKg: 100 })).toMatchObject([{ verdict: 'pass' }])
    expect(judgeReworkLimits({ ...facts, jurisdictions: ['EU'] })).toEqual([])
  })

  it("is held against the kitchen's own share and age: the shares add up, the oldest counts", () => {
    const own = { reworkMaxPct: 5, reworkMaxDays: 3 }
    expect(judgeReworkLimits({ ...facts, jurisdictions: [], own })).toMatchObject([
      { rule: 'rework.own-share', verdict: 'pass', measured: 4, limit: 5 },
      { rule: 'rework.own-age', verdict: 'fail', measured: 5, limit: 3 },
    ])
    expect(judgeReworkLimits({ ...facts, jurisdictions: [], own: { reworkMaxPct: 3.9 } })[0]!.verdict).toBe('fail')
  })

  it('that is not there gives no finding', () => {
    expect(judgeReworkLimits({ ...facts, rework: [] })).toEqual([])
  })
})
