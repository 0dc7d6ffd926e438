// Meat as it is declared (Regulation (EU) 1169/2011, Annex VII B 17), which the reserved names of SI 2014/3001, Schedule 1, are held against.
import { describe, expect, it } from 'vitest'
import { judgeRecipe } from '@forcemeat/rulebook/recipe/judge-recipe'
import { meatContent } from '../../src/declare/meat-content.ts'
import { findMaterial } from '../../src/materials/materials.ts'
import { computeRecipe } from '../../src/recipe/compute.ts'
import type { RecipeComputeInput } from '../../src/recipe/compute-schema.ts'

type Recipe = RecipeComputeInput['recipe']
const recipe = (
  meat: Recipe['meat'],
  additions: Recipe['additions'] = [{ material: 'salt', pct: 1.8 }],
  more: Partial<Recipe> = {},
): Recipe => ({
  name: 'Lane link',
  kind: 'fresh',
  smoked: false,
  readyToEat: false,
  standards: ['gb.3001.pork-sausage'],
  meat,
  additions,
  ...more,
})
const computed = (r: Recipe, more: Partial<RecipeComputeInput> = {}) =>
  computeRecipe({ recipe: r, meatKg: 10, on: '2026-11-23', ...more })
const declared = (r: Recipe, more: Partial<RecipeComputeInput> = {}) => computed(r, more).measures['declaredMeatPct']
const verdict = (r: Recipe, more: Partial<RecipeComputeInput> = {}) => {
  const { facts, measures } = computed(r, more)
  return judgeRecipe({ facts, measures, on: '2026-11-23', jurisdictions: ['GB'] }).find(
    (f) => f.rule === 'gb.3001.pork-sausage.pig',
  )
}
const shoulder = [{ material: 'pork-shoulder-trim', pct: 100 }]

describe('declared meat of a recipe', () => {
  it('is the meat content of the parts, of all that goes in', () => {
    const c = findMaterial('pork-shoulder-trim')!.composition
    const { meatPct } = meatContent({
      parts: [{ kg: 10, species: 'pork', fatPct: c.fatPct!, proteinPct: c.proteinPct!, collagenPct: c.collagenPct! }],
      totalKg: 10.18,
    })
    expect(declared(recipe(shoulder))).toEqual({ value: expect.closeTo(meatPct, 9) })
  })

  it('leaves out rind, offal and skin, and what is taken off as excess', () => {
    const some = recipe([
      { material: 'pork-shoulder-trim', pct: 80 },
      { material: 'pork-liver', pct: 20 },
    ])
    expect(declared(some)).toMatchObject({ value: expect.closeTo((80 / 101.8) * 100, 0) })
    const fat = declared(recipe(shoulder), {
      lots: [{ lot: 'L', material: 'pork-shoulder-trim', fatPct: 60, collagenPct: 1 }],
    })
    // Limit of pork 30 %: 60 % fat leaves 40 % that is not fat, which carries 30 × 40 / 70 = 17.1 % fat.
    expect(fat).toMatchObject({ value: expect.closeTo((57.14 / 101.8) * 100, 1) })
  })

  it('is an interval where the collagen of a part is not known: none of its protein, or all of it', () => {
    const m = declared(
      recipe([
        { material: 'pork-shoulder-trim', pct: 80 },
        { material: 'pork-back-fat', pct: 20 },
      ]),
    )
    expect(m).toMatchObject({
      low: expect.any(Number),
      high: expect.any(Number),
      settle: expect.stringMatching(/collagen/),
    })
    expect(JSON.stringify(m)).toContain('back fat')
    const { low, high, value } = m as { low: number; high: number; value: number }
    expect(low).toBeLessThanOrEqual(value)
    expect(value).toBeLessThanOrEqual(high)
    const known = { lot: 'B', material: 'pork-back-fat', collagenPct: 2 }
    expect(
      declared(
        recipe([
          { material: 'pork-shoulder-trim', pct: 80 },
          { material: 'pork-back-fat', pct: 20 },
        ]),
        { lots: [known] },
      ),
    ).not.toHaveProperty('low')
  })

  it('lets a pork sausage of Great Britain pass or fail at 42 %', () => {
    expect(verdict(recipe(shoulder))).toMatchObject({ verdict: 'pass' })
    const rusk = (pct: number) => [
      { material: 'rusk', pct },
      { material: 'salt', pct: 1.8 },
    ]
    expect(verdict(recipe(shoulder, rusk(150)))).toMatchObject({ verdict: 'fail' })
    // The link of the invented kitchen: 77.5 % meat, a fifth of it back fat of unknown collagen.
    const lane = recipe(
      [
        { material: 'pork-shoulder-trim', pct: 80 },
        { material: 'pork-back-fat', pct: 20 },
      ],
      [
        { material: 'rusk', pct: 12.9 },
        { material: 'ice', pct: 12.9 },
        { material: 'salt', pct: 1.9 },
      ],
    )
    expect(verdict(lane)).toMatchObject({ verdict: 'pass' })
  })

  it('stays open where the interval goes over the limit, and a figure of the lot closes it', () => {
    const lamb = recipe([{ material: 'lamb-shoulder', pct: 100 }], undefined, { standards: ['gb.3001.sausage'] })
    const of = (lots: RecipeComputeInput['lots']) => {
      const { facts, measures } = computed(lamb, { lots })
      return judgeRecipe({ facts, measures, on: '2026-11-23', jurisdictions: ['GB'] }).find(
        (f) => f.rule === 'gb.3001.sausage.other',
      )
    }
    expect(of([])).toMatchObject({ verdict: 'cannot-tell', settle: expect.stringMatching(/collagen.*Lamb shoulder/) })
    expect(of([{ lot: 'C', material: 'lamb-shoulder', collagenPct: 2.2 }])).toMatchObject({ verdict: 'pass' })
  })
})
