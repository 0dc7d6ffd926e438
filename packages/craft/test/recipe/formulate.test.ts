import { describe, expect, it } from 'vitest'
import { recipeCalculations } from '../../src/recipe/calculations.ts'
import type { FormulateInput } from '../../src/recipe/formulate-schema.ts'
import { formulateRecipe } from '../../src/recipe/formulate.ts'
import type { Material } from '../../src/materials/schema.ts'
import type { Recipe } from '../../src/recipe/schema.ts'

const own = (id: string, more: Partial<Material>): Material => ({
  id,
  name: id,
  category: 'pork',
  meatBlock: true,
  composition: {},
  allergens: [],
  sources: ['kitchen'],
  sure: 'declared',
  ...more,
})
const materials = [
  own('lean', { species: 'pork', composition: { waterPct: 70, proteinPct: 20, fatPct: 10 } }),
  own('fat', { species: 'pork', composition: { waterPct: 30, proteinPct: 8, fatPct: 60 } }),
  own('ice', { category: 'water', meatBlock: false, composition: { waterPct: 100, proteinPct: 0, fatPct: 0 } }),
  own('salt', {
    category: 'salt',
    meatBlock: false,
    composition: { waterPct: 0, proteinPct: 0, fatPct: 0, saltPct: 100 },
  }),
]
const recipe: Recipe = {
  name: 'Test',
  kind: 'cooked',
  smoked: false,
  readyToEat: true,
  meat: [
    { material: 'lean', pct: 70 },
    { material: 'fat', pct: 30 },
  ],
  additions: [
    { material: 'ice', pct: 10 },
    { material: 'salt', pct: 2 },
  ],
  cook: { targetCoreC: 70, lossPct: 10 },
}
const prices = [
  ['lean', 6],
  ['fat', 2],
  ['ice', 0],
  ['salt', 1],
].map(([material, costPerKg]) => ({ material: material as string, costPerKg: costPerKg as number }))
const base: FormulateInput = {
  recipe,
  meatKg: 10,
  materials,
  prices,
  targets: [{ of: 'fat', maxPct: 25 }],
  allow: [{ material: 'lean' }, { material: 'fat' }],
}
const measure = (r: ReturnType<typeof formulateRecipe>, name: string) =>
  (r.computed!.measures[name] as { value: number }).value

describe('recipe.formulate', () => {
  it('meets a fat of the finished product worked by hand: 25 % after a loss of a tenth is 25.2 % of the meat block', () => {
    const r = formulateRecipe(base)
    // Mix is 1.12 of the meat; finished 0.9 of that; fat 0.25·0.9·1.12 = 25.2 % of meat = 10 + 50 f.
    expect(r.recipe!.meat.find((m) => m.material === 'fat')!.pct).toBeCloseTo((25.2 - 10) / 0.5, 5)
    expect(measure(r, 'fatPct')).toBeLessThanOrEqual(25)
    expect(measure(r, 'fatPct')).toBeCloseTo(25, 5)
  })

  it('changes only what it may: the rest keeps its share of the meat block to the last digit', () => {
    const r = formulateRecipe({
      ...base,
      targets: [
        { of: 'fat', maxPct: 25 },
        { of: 'addedWater', maxPct: 0 },
      ],
      allow: [...base.allow, { material: 'ice', maxPct: 30 }],
    })
    expect(r.recipe!.additions.find((a) => a.material === 'salt')!.pct).toBe(2)
    expect(r.changes.map((c) => c.material).toSorted()).toEqual(['fat', 'ice', 'lean'])
    expect(measure(r, 'addedWaterPct')).toBeCloseTo(0, 5)
    expect(measure(r, 'addedWaterPct')).toBeLessThanOrEqual(0)
    expect(r.recipe!.meat.reduce((s, m) => s + m.pct, 0)).toBeCloseTo(100, 7)
  })

  it('costs no more than any of a grid of recipes that meet the targets', () => {
    const targets = [
      { of: 'fat', maxPct: 24 },
      { of: 'protein', minPct: 14 },
    ]
    const r = formulateRecipe({ ...base, targets, allow: [...base.allow, { material: 'ice', maxPct: 30 }] })
    let best = Infinity
    for (let f = 0; f <= 100; f++)
      for (let i = 0; i <= 60; i++) {
        const [fat, ice] = [f / 100, i / 200]
        const mix = 1.02 + ice
        const fatPct = (10 + 50 * fat) / mix / 0.9
        const proteinPct = (20 - 12 * fat) / mix / 0.9
        if (fatPct <= 24 && proteinPct >= 14) best = Math.min(best, (6 - 4 * fat + 0.02) / mix)
      }
    expect(r.costPerKg).toBeLessThanOrEqual(best + 1e-6)
    expect(r.costPerKg).toBeGreaterThan(best - 0.05)
  })

  it('says which target and which fixed share clash, and how far the target would have to move', () => {
    const r = formulateRecipe({ ...base, targets: [{ of: 'fat', maxPct: 8 }] })
    expect(r.status).toBe('infeasible')
    expect(r.conflict!.map((c) => c.of)).toContain('fat')
    // All lean: 10 % of meat, over 1.12 · 0.9.
    expect(r.relax!.alone[0]).toMatchObject({ of: 'fat', to: expect.closeTo(10 / 1.12 / 0.9, 5) })
    expect(r.relax!.alone.every((m) => m.of === 'fat')).toBe(true)
  })

  it('holds meat of the raw mix, and a cost', () => {
    const r = formulateRecipe({
      ...base,
      targets: [{ of: 'meat', minPct: 90 }],
      allow: [...base.allow, { material: 'ice', maxPct: 30 }],
    })
    expect(measure(r, 'meatPct')).toBeGreaterThanOrEqual(90)
    expect(measure(r, 'meatPct')).toBeCloseTo(90, 5)
    const dear = formulateRecipe({ ...base, maxCostPerKg: 3 })
    expect(dear.conflict!.map((c) => c.of)).toEqual(expect.arrayContaining(['cost', 'fat']))
  })

  it('takes in a material the recipe did not have, where it is allowed', () => {
    const trim = own('trim', { species: 'pork', composition: { waterPct: 60, proteinPct: 17, fatPct: 22 } })
    const r = formulateRecipe({
      ...base,
      materials: [...materials, trim],
      prices: [...prices, { material: 'trim', costPerKg: 1 }],
      allow: [...base.allow, { material: 'trim', maxPct: 40 }],
    })
    expect(r.recipe!.meat.find((m) => m.material === 'trim')!.pct).toBeCloseTo(40, 6)
  })

  it.each([
    [{ ...base, prices: prices.slice(1) }, /prices: hold none for lean/],
    [{ ...base, targets: [] }, /targets: has 0 items/],
    [{ ...base, targets: [{ of: 'collagen', maxPct: 3 }] }, /collagenPct: is missing/],
    [{ ...base, allow: [{ material: 'lean', minPct: 5, maxPct: 1 }] }, /allow\[0\]: has minPct above maxPct/],
    [{ ...base, targets: [{ of: 'moisture', maxPct: 3 }] }, /targets\[0\]\.of: is "moisture"/],
  ])('refuses by name: case %#', (input, message) => {
    const calculation = recipeCalculations.find((c) => c.name === 'recipe.formulate')!
    expect(() => calculation.run(input)).toThrow(message)
  })
})
