import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import { jurisdictions, type Recipe } from '@forcemeat/craft/recipe/schema'
import { describe, expect, it } from 'vitest'
import { judgeRecipe } from '../../src/recipe/judge-recipe.ts'
import { whereSold } from '../../src/recipe/where-sold.ts'

const ring: Recipe = {
  name: 'Ring',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  route: 'comminuted',
  meat: [{ material: 'pork-butt', pct: 100 }],
  additions: [
    { material: 'ice', pct: 10 },
    { material: 'salt', pct: 1.7 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
    { material: 'sodium-erythorbate', pct: 0.05 },
  ],
  cook: { targetCoreC: 70, lossPct: 8 },
}
const judged = (recipe: Recipe) => {
  const { facts, measures } = computeRecipe({ recipe, meatKg: 10 })
  const findings = judgeRecipe({ facts, measures, on: '2026-11-25', jurisdictions })
  return { findings, places: whereSold(findings, jurisdictions) }
}

describe('a recipe judged for every place at once', () => {
  const { findings, places } = judged(ring)

  it('has findings of its own in each place the rulebook holds', () => {
    expect(places.map((p) => p.jurisdiction)).toEqual(['US', 'US-home', 'EU', 'GB', 'CA', 'AU-NZ', 'Codex'])
    for (const place of jurisdictions)
      expect(
        findings.some((f) => f.jurisdiction === place),
        place,
      ).toBe(true)
  })

  it('150 ppm of ingoing nitrite passes in the US (156, 9 CFR 424.21(c)) and fails the EU’s 80 as ion (2023/2108), with the least change', () => {
    const of = (place: string) => places.find((p) => p.jurisdiction === place)!
    expect(of('US').stops).toEqual([])
    expect(of('EU').verdict).toBe('fail')
    // 0.24 % × 6.25 % of nitrite is 150 mg/kg, 100 mg/kg as ion by the molar masses 46.005 and 68.995.
    expect(of('EU').change.join(' ')).toMatch(/from 100(\.0\d*)? down to 80 mg\/kg/)
  })

  it('says in each finding how its figure was read, and never passes on one from memory', () => {
    const marks = new Set(findings.map((f) => f.source.mark))
    expect([...marks].every((m) => m !== undefined)).toBe(true)
    const memory = findings.filter((f) => f.source.mark === 'from-memory')
    expect(memory.length).toBeGreaterThan(0)
    for (const f of memory) expect(f.verdict, f.rule).not.toBe('pass')
    const doubtful = findings.filter((f) => /second hand|from memory/.test(f.because))
    expect(doubtful.length).toBeGreaterThan(0)
    for (const f of doubtful) expect(f.verdict, f.rule).not.toBe('pass')
  })

  it('frees the EU by the change it names: at 80 mg/kg as ion nothing of that limit stops it', () => {
    const less = {
      ...ring,
      additions: ring.additions.map((a) => (a.material.startsWith('curing') ? { ...a, pct: 0.24 * 0.799 } : a)),
    }
    const eu = judged(less).places.find((p) => p.jurisdiction === 'EU')!
    expect(eu.stops).toEqual([])
  })
})
