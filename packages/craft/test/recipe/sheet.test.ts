import { describe, expect, it } from 'vitest'
import { sheetOf, type RecipeSheetInput } from '../../src/recipe/sheet.ts'

const scales = [
  { id: 'floor', readabilityG: 20, toleranceG: 20, capacityG: 60_000 },
  { id: 'bench', readabilityG: 1, toleranceG: 1, capacityG: 6000 },
  { id: 'cure', readabilityG: 0.1, toleranceG: 0.1, capacityG: 500 },
]

const input = (change: Partial<RecipeSheetInput> = {}): RecipeSheetInput => ({
  recipe: {
    name: 'Ring',
    kind: 'cooked',
    smoked: true,
    readyToEat: true,
    meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
    additions: [
      { material: 'salt', pct: 1.75 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.22 },
    ],
    nitriteTarget: { lowPpm: 120, highPpm: 156 },
  },
  meatKg: 20,
  scales,
  ...change,
})
const line = (material: string, of = input()) => sheetOf(of).lines.find((l) => l.material === material)!

describe('recipe.sheet', () => {
  it('gives meat the coarsest scale that carries it within 1 % (common practice, no source)', () => {
    expect(line('pork-shoulder-trim')).toMatchObject({
      scale: 'floor',
      verdict: 'fit',
      toleranceG: 200,
      toleranceFrom: 'common practice',
    })
  })

  it('holds a cure to the nitrite band of the recipe by the interval of the scale', () => {
    const cure = line('curing-salt-6.25-nitrite')
    expect(cure).toMatchObject({ verdict: 'fit', toleranceFrom: 'nitrite band' })
    expect(cure.targetKg).toBeCloseTo(0.044, 12)
    // 44 g of 6.25 % in 20 kg is 137.5 mg/kg; 120 and 156 mg/kg are 38.4 and 49.92 g of it.
    expect(cure.lowG).toBeCloseTo(38.4, 9)
    expect(cure.highG).toBeCloseTo(49.92, 9)
    expect(cure.misses).toBeUndefined()
  })

  it('puts a cure on the finest scale, though a coarser one would do', () => {
    expect(line('curing-salt-6.25-nitrite').scale).toBe('cure')
    const coarse = input({ scales: scales.slice(0, 2) })
    expect(line('curing-salt-6.25-nitrite', coarse)).toMatchObject({ scale: 'bench', verdict: 'fit' })
  })

  it('says of an amount outside the band that the amount misses it, whichever way', () => {
    const at = (kg: number) =>
      sheetOf(
        input({
          lines: [
            { material: 'pork-shoulder-trim', kg: 20 },
            { material: 'curing-salt-6.25-nitrite', kg },
          ],
        }),
      ).lines[1]!
    expect(at(0.058)).toMatchObject({ misses: 'high', verdict: 'unfit' })
    expect(at(0.03)).toMatchObject({ misses: 'low', verdict: 'unfit' })
    expect(at(0.058).highG).toBeCloseTo(49.92, 9)
  })

  it('says that no scale is on the list where there is none', () => {
    const none = input({ scales: [] })
    expect(line('pork-shoulder-trim', none)).toMatchObject({ because: 'no scale is on the list', advice: [] })
    expect(line('curing-salt-6.25-nitrite', none)).toMatchObject({ because: 'no scale is on the list', advice: [] })
  })

  it('finds no scale fit where the band is narrower than any of them', () => {
    const small = input({ meatKg: 0.4, scales: scales.slice(0, 2) })
    expect(line('curing-salt-6.25-nitrite', small)).toMatchObject({ verdict: 'unfit' })
    expect(line('curing-salt-6.25-nitrite', small).advice.join(' ')).toMatch(/scale|batch/)
  })

  it('judges the scale a person chose, and no other', () => {
    const lines = [
      { material: 'pork-shoulder-trim', kg: 20 },
      { material: 'salt', kg: 0.35 },
      { material: 'curing-salt-6.25-nitrite', kg: 0.044 },
    ]
    const chosen = sheetOf(input({ lines, chosenScales: ['', '', 'floor'] })).lines
    expect(chosen[2]).toMatchObject({ scale: 'floor', verdict: 'unfit' })
    expect(sheetOf(input({ lines, chosenScales: ['', '', 'cure'] })).lines[2]).toMatchObject({
      scale: 'cure',
      verdict: 'fit',
    })
    expect(chosen[0]).toMatchObject({ scale: 'floor', verdict: 'fit' })
  })

  it('cannot tell a cure without a band, and carries the caution', () => {
    const recipe = { ...input().recipe }
    delete recipe.nitriteTarget
    expect(line('curing-salt-6.25-nitrite', input({ recipe })).verdict).toBe('cannot-tell')
    expect(sheetOf(input()).cautions.join(' ')).toMatch(/never by spoon/)
  })

  it('finds nothing fit for a weight no scale carries', () => {
    expect(line('pork-shoulder-trim', input({ meatKg: 200 }))).toMatchObject({ verdict: 'unfit' })
  })
})
