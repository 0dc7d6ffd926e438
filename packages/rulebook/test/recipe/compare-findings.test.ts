import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { describe, expect, it } from 'vitest'
import { compareFindings } from '../../src/recipe/compare-findings.ts'
import { judgeRecipe } from '../../src/recipe/judge-recipe.ts'

const at = (curePct: number) => {
  const recipe: Recipe = {
    name: 'Ring',
    kind: 'cooked',
    smoked: true,
    readyToEat: true,
    route: 'comminuted',
    meat: [{ material: 'pork-butt', pct: 100 }],
    additions: [{ material: 'curing-salt-6.25-nitrite', pct: curePct }],
  }
  const { facts, measures } = computeRecipe({ recipe, meatKg: 10 })
  return judgeRecipe({ facts, measures, on: '2026-11-25', jurisdictions: ['US'] })
}

describe('findings of two versions', () => {
  it('names the limit that a larger dose breaks: 9 CFR 424.21(c), 156 ppm of ingoing nitrite in comminuted meat', () => {
    const [first] = compareFindings(at(0.24), at(0.26))
    expect(first).toMatchObject({ turned: true, jurisdiction: 'US' })
    expect([first!.before!.verdict, first!.after!.verdict]).toEqual(['pass', 'fail'])
  })

  it('says nothing where nothing moved', () => expect(compareFindings(at(0.24), at(0.24))).toEqual([]))

  it('tells a finding that moved from one that turned', () => {
    const changes = compareFindings(at(0.2), at(0.22))
    expect(changes.length).toBeGreaterThan(0)
    expect(changes.every((c) => !c.turned)).toBe(true)
  })
})
