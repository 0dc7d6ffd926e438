import { describe, expect, it } from 'vitest'
import { findCalculation } from '../../src/calculations.ts'
import { addedWater } from '../../src/recipe/added-water.ts'

describe('added water by 9 CFR 318.22: water − 4 × (protein − max(Group 2 − 1, 0))', () => {
  it.each([
    { waterPct: 55, proteinPct: 12, addedWaterPct: 7 },
    { waterPct: 58, proteinPct: 12, addedWaterPct: 10 },
    { waterPct: 56, proteinPct: 13, group2ProteinPct: 1.8, addedWaterPct: 7.2 },
    { waterPct: 60, proteinPct: 12.5, group2ProteinPct: 0.8, addedWaterPct: 10 },
    { waterPct: 56, proteinPct: 13, group2ProteinPct: 1, addedWaterPct: 4 },
  ])('computed from the rule: %o', ({ addedWaterPct, ...product }) => {
    expect(addedWater(product).addedWaterPct).toBeCloseTo(addedWaterPct, 9)
  })

  it('trade magazine article, 2001: 12 % protein allows 58 % water in all at 10 % added', () => {
    expect(addedWater({ waterPct: 58, proteinPct: 12 }).addedWaterPct).toBeCloseTo(10, 9)
  })

  it('falls below zero for a product that dried', () => {
    expect(addedWater({ waterPct: 40, proteinPct: 20 }).addedWaterPct).toBe(-40)
  })

  it('refuses more Group 2 protein than protein, and more than a whole product', () => {
    const run = findCalculation('recipe.added-water')!.run
    expect(() => run({ waterPct: 50, proteinPct: 10, group2ProteinPct: 11 })).toThrow(/group2ProteinPct/)
    expect(() => run({ waterPct: 90, proteinPct: 20 })).toThrow(/adds up to 110 %/)
  })
})
