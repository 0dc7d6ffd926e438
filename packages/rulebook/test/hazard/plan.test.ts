import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { describe, expect, it } from 'vitest'
import { findRule } from '../../src/catalogue.ts'
import { comparePlans, hazardPlan } from '../../src/hazard/plan.ts'

const cooked: Recipe = {
  name: 'Smoked link',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
  additions: [
    { material: 'salt', pct: 1.8 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
  ],
  nitriteTarget: { lowPpm: 120, highPpm: 156 },
  cook: { targetCoreC: 71.1, stages: [{ medium: 'steam', tempC: 78, untilCoreC: 71.1 }] },
}
const fresh: Recipe = {
  ...cooked,
  name: 'Fresh link',
  kind: 'fresh',
  smoked: false,
  readyToEat: false,
  additions: [{ material: 'salt', pct: 1.8 }],
}
delete (fresh as { cook?: unknown }).cook
delete (fresh as { nitriteTarget?: unknown }).nitriteTarget
const on = '2026-11-25'
const hazardsOf = (r: Recipe, places = ['US']) => hazardPlan(r, on, places).steps.flatMap((s) => s.hazards)

describe('a draft hazard plan', () => {
  it('has the steps of the product and no others', () => {
    expect(hazardPlan(cooked, on, ['US']).steps.map((s) => s.step)).toEqual([
      'receive',
      'store',
      'weigh',
      'grind',
      'mix',
      'stuff',
      'smoke',
      'cook',
      'chill',
      'pack',
      'dispatch',
    ])
    expect(hazardPlan(fresh, on, ['US']).steps.map((s) => s.step)).toEqual([
      'receive',
      'store',
      'grind',
      'mix',
      'stuff',
      'pack',
      'dispatch',
    ])
  })

  it('takes its critical limits from the rulebook, with their source: ingoing nitrite of 9 CFR 424.21(c), cook, chill', () => {
    const all = hazardsOf(cooked)
    const nitrite = all.find((h) => h.id === 'weigh-nitrite')!
    expect(nitrite.limits.some((l) => /424\.21/.test(l.source) && /at most 15\d/.test(l.limit))).toBe(true)
    for (const id of ['cook-survival', 'chill-outgrowth'])
      expect(all.find((h) => h.id === id)!.limits.length, id).toBeGreaterThan(0)
    for (const limit of all.flatMap((h) => h.limits)) {
      expect(findRule(limit.rule), limit.rule).toBeDefined()
      expect(['US', 'everywhere']).toContain(limit.jurisdiction)
      expect(limit.source.length).toBeGreaterThan(5)
    }
  })

  it('gives each critical point monitoring, correction, verification and a record', () => {
    for (const h of hazardsOf(cooked).filter((x) => x.critical))
      for (const field of ['monitoring', 'correction', 'verification', 'record'] as const)
        expect(h[field].length, h.id).toBeGreaterThan(3)
  })

  it('names trichinae for pork that is not cooked, and Listeria after the cook only for what is eaten as it is', () => {
    expect(hazardsOf(fresh).some((h) => h.id === 'receive-trichinella')).toBe(true)
    expect(hazardsOf(cooked).some((h) => h.id === 'receive-trichinella')).toBe(false)
    expect(hazardsOf(fresh).some((h) => h.id === 'pack-listeria')).toBe(false)
    expect(hazardsOf(cooked).some((h) => h.id === 'pack-listeria')).toBe(true)
  })

  it('follows the process, and says what changed', () => {
    const plan = hazardPlan(cooked, on, ['US'])
    expect(comparePlans(plan, hazardPlan(cooked, on, ['US']))).toEqual([])
    const hotter = hazardPlan({ ...cooked, cook: { targetCoreC: 68 } }, on, ['US'])
    expect(comparePlans(plan, hotter)).toMatchObject([{ step: 'Cooking', what: 'how it is done', is: 'core 68 °C' }])
    const changes = comparePlans(plan, hazardPlan(fresh, on, ['US']))
    expect(changes).toContainEqual({ step: 'Cooking', what: 'step gone' })
    expect(changes).toContainEqual({ step: 'Product', what: 'Cured', was: 'yes', is: 'no' })
  })

  it('says what it leaves open', () => {
    expect(hazardPlan(cooked, on, ['US']).open.join(' ')).toMatch(/validation/)
    const { cook: _, ...without } = cooked
    expect(hazardPlan(without, on, ['US']).open.join(' ')).toMatch(/target core temperature/)
  })
})
