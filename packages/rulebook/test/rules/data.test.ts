import { describe, expect, it } from 'vitest'
import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import { stabilityRules } from '../../data/dry/stability.ts'
import { allRules, findRule, searchRules } from '../../src/catalogue.ts'
import { evaluate } from '../../src/evaluate.ts'
import { recipeRules, standards } from '../../src/recipe/rules.ts'
import { EVERYWHERE, topics } from '../../src/rule.ts'

const day = /^\d{4}-\d{2}-\d{2}$/

describe('the rulebook as data', () => {
  it('gives every rule an id of its own', () => {
    const ids = allRules().map((r) => r.id)
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  })

  it.each(allRules().map((r) => [r.id, r] as const))(
    '%s names its place, topic, scope, source and edition, and its dates ascend without overlap',
    (_, rule) => {
      expect([...jurisdictions, EVERYWHERE]).toContain(rule.jurisdiction)
      expect(topics).toContain(rule.topic)
      expect(rule.title.length).toBeGreaterThan(3)
      expect(rule.scope.length).toBeGreaterThan(2)
      expect(rule.values.length).toBeGreaterThan(0)
      for (const { source, from, until, min, max } of rule.values) {
        expect(source.document.length).toBeGreaterThan(3)
        expect(source.section.length).toBeGreaterThan(0)
        expect(source.edition.length).toBeGreaterThan(0)
        if (from !== undefined) expect(from).toMatch(day)
        if (until !== undefined) expect(until).toMatch(day)
        if (from !== undefined && until !== undefined) expect(from < until).toBe(true)
        if (min !== undefined && max !== undefined) expect(min).toBeLessThanOrEqual(max)
      }
      for (let i = 1; i < rule.values.length; i += 1) {
        const [before, after] = [rule.values[i - 1]!, rule.values[i]!]
        expect((before.until ?? '9999') <= (after.from ?? '')).toBe(true)
      }
    },
  )

  it.each(recipeRules.filter((r) => r.finding === undefined).map((r) => [r.id, r] as const))(
    '%s limits something: a measure or a sum, with a figure',
    (_, rule) => {
      expect(rule.measure !== undefined || rule.sum !== undefined).toBe(true)
      for (const v of rule.values) expect(v.min !== undefined || v.max !== undefined).toBe(true)
    },
  )

  it('never passes a figure against a limit from memory, whatever the figure', () => {
    const memory = recipeRules.filter(
      (r) => r.values.some((v) => v.source.mark === 'from-memory') && r.finding === undefined,
    )
    expect(memory.length).toBeGreaterThan(5)
    for (const rule of memory) {
      const facts = Object.fromEntries(Object.entries(rule.when ?? {}).map(([k, v]) => [k, v[0]]))
      for (const value of [0, 1, 10, 45, 90, 120, 1000]) {
        const names = rule.sum?.map((s) => s.measure) ?? [rule.measure!]
        const measures = Object.fromEntries(names.map((n) => [n, { value }]))
        const found = evaluate(rule, { facts, measures, on: '2026-01-01', jurisdictions: [rule.jurisdiction] })
        expect(found?.verdict).toBe('cannot-tell')
      }
    }
  })

  it('has rules for every standard it offers', () => {
    const asked = new Set(recipeRules.flatMap((r) => Object.keys(r.when ?? {})))
    // The names of dried products are held against the finished batch, not the recipe.
    const dried = new Set(stabilityRules.flatMap((r) => (r.named === undefined ? [] : [`us.${r.named}`])))
    for (const id of Object.keys(standards)) expect(asked.has(`standard:${id}`) || dried.has(id), id).toBe(true)
    for (const id of dried) expect(standards[id], id).toBeDefined()
  })

  it('holds the exact ounces to the hundred pounds, 625 ppm an ounce, not the printed whole figures', () => {
    expect(findRule('us.424.21.nitrite.comminuted')?.values[0]?.max).toBe(0.25 * 625)
    expect(findRule('us.424.21.nitrite.dry-rubbed')?.values[0]?.max).toBe(625)
    expect(findRule('us.424.21.nitrate.comminuted')?.values[0]?.max).toBe(2.75 * 625)
    expect(findRule('us.424.21.nitrate.dry-rubbed')?.values[0]?.max).toBe(3.5 * 625)
    expect(findRule('us.424.21.accelerator.salts')?.values[0]?.max).toBe(0.875 * 625)
    expect(findRule('us.424.21.accelerator.acids')?.values[0]?.max).toBe(0.75 * 625)
  })

  it('is found by words, place and topic', () => {
    expect(searchRules('italian fat').map((r) => r.id)).toContain('us.319.145.fat')
    expect(searchRules('nitrite', { jurisdiction: 'EU', topic: 'cure' }).every((r) => r.jurisdiction === 'EU')).toBe(
      true,
    )
    expect(searchRules('')).toHaveLength(allRules().length)
    expect(searchRules('no such words at all')).toEqual([])
    expect(findRule('nothing')).toBeUndefined()
  })
})
