import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import type { MeatAnalysisInput, MeatAnalysisOutput } from '../../src/declare/meat-analysis.ts'

const run = (input: MeatAnalysisInput) => calculations['declare.meat-analysis']!.run(input) as MeatAnalysisOutput

// Factors of the Analytical Methods Committee (Analyst 1991, 116, 761; 1993, 118, 1217); arithmetic by hand.
describe('declare.meat-analysis', () => {
  it('gives 55.71 % fat-free and 75.71 % apparent meat for nitrogen 1.95 % and fat 20 % of pork, factor 3.50', () => {
    const o = run({ meat: 'pork', nitrogenPct: 1.95, fatPct: 20 })
    expect(o.fatFreeMeatPct).toBeCloseTo(55.71, 2)
    expect(o.apparentMeatPct).toBeCloseTo(75.71, 2)
  })

  it('takes 0.24 % off for 12 % of carbohydrate of rusk: 68.86 %, and says that the correction is from memory', () => {
    const o = run({ meat: 'pork', nitrogenPct: 1.95, fatPct: 20, carbohydratePct: 12 })
    expect(o.fatFreeMeatPct).toBeCloseTo(48.86, 2)
    expect(o.apparentMeatPct).toBeCloseTo(68.86, 2)
    expect(o.notes[0]).toMatch(/from memory/)
  })

  it('gives 83.75 % for beef of nitrogen 2.40 % and fat 18 %, factor 3.65', () =>
    expect(run({ meat: 'beef', nitrogenPct: 2.4, fatPct: 18 }).apparentMeatPct).toBeCloseTo(83.75, 2))

  it('takes nitrogen that is not of meat off as given: 3.55 as the factor of canned beef, 2.84 less 0 is 80 %', () =>
    expect(
      run({ nitrogenFactor: 3.55, nitrogenPct: 3, extraneousNitrogenPct: 0.16, fatPct: 0 }).fatFreeMeatPct,
    ).toBeCloseTo(80, 10))

  it('refuses two factors, none, two corrections, and more foreign nitrogen than there is', () => {
    expect(() => run({ nitrogenPct: 2, fatPct: 10 })).toThrow(/meat/)
    expect(() => run({ meat: 'pork', nitrogenFactor: 3.5, nitrogenPct: 2, fatPct: 10 })).toThrow(/one of the two/)
    expect(() =>
      run({ meat: 'pork', nitrogenPct: 2, fatPct: 10, carbohydratePct: 1, extraneousNitrogenPct: 0.1 }),
    ).toThrow(/carbohydratePct/)
    expect(() => run({ meat: 'pork', nitrogenPct: 2, fatPct: 10, extraneousNitrogenPct: 2.1 })).toThrow(/at most that/)
  })
})
