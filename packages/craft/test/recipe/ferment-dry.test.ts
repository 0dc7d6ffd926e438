import { describe, expect, it } from 'vitest'
import { course } from '../../src/dry/course.ts'
import { fermentDryOf } from '../../src/recipe/ferment-dry/ferment-dry.ts'
import { recipeSchema, type Recipe } from '../../src/recipe/schema.ts'

const recipe = (over: Partial<Recipe> = {}, more: Recipe['additions'] = []): Recipe =>
  recipeSchema.parse({
    name: 'Dry sausage',
    kind: 'dried',
    smoked: false,
    readyToEat: true,
    meat: [
      { material: 'pork-shoulder-trim', pct: 75 },
      { material: 'pork-back-fat', pct: 25 },
    ],
    additions: [
      { material: 'salt', pct: 2.5 },
      { material: 'dextrose-monohydrate', pct: 0.5 },
      { material: 'starter-culture', pct: 0.025 },
      ...more,
    ],
    casing: { calibreMm: 55 },
    ferment: { targetPh: 5.2, startPh: 5.8, stages: [{ hours: 48, tempC: 22, rhPct: 92 }] },
    dry: { lossPct: 25, stages: [{ days: 30, tempC: 14, rhPct: 80 }] },
    ...over,
  })
const of = (r: Recipe) => fermentDryOf({ recipe: r, meatKg: 10 })
const drying = (r: Recipe) => {
  const found = of(r).drying
  if (!found?.known) throw new Error(found?.because ?? 'nothing is dried')
  return found
}
const acid = (r: Recipe) => {
  const found = of(r).acid
  if (!found?.known) throw new Error(found?.because ?? 'nothing is fermented')
  return found
}

describe('the acid of a recipe', () => {
  it('takes dextrose monohydrate as 90.91 % dextrose (stoichiometry: 180.16 of 198.17) of the whole mix', () => {
    // 0.5 kg on 100 kg of meat in 103.025 kg of mix.
    expect(acid(recipe()).asked.dextrosePct).toBeCloseTo((0.5 * 90.91) / 103.025, 6)
  })

  it('adds nothing for pepper, and milk powder as slow milk sugar', () => {
    const peppered = acid(recipe({}, [{ material: 'black-pepper', pct: 0.3 }]))
    expect(peppered.sugars.map((s) => s.material)).toEqual(['dextrose-monohydrate'])
    const milk = acid(recipe({}, [{ material: 'milk-powder-skimmed', pct: 2 }]))
    expect(milk.asked.lactosePct!).toBeGreaterThan(0.9)
    expect(milk.endPh.high).toBeCloseTo(acid(recipe()).endPh.high, 1)
    expect(milk.endPh.low).toBeLessThanOrEqual(acid(recipe()).endPh.low)
  })

  it('counts no culture where the recipe has none', () => {
    const bare = recipe({ additions: [{ material: 'dextrose-monohydrate', pct: 0.5 }] })
    expect(acid(bare).asked.culture).toBe(false)
    expect(acid(bare).endPh.low).toBeCloseTo(5.8, 9)
  })
})

describe('the drying of a recipe', () => {
  it('begins with the fermentation’s own air and ends with the drying’s', () => {
    const { course: asked, fermentDays } = drying(recipe())
    expect(fermentDays).toBe(2)
    expect(asked.stages.map((s) => [s.days, s.tempC, s.rhPct])).toEqual([
      [2, 22, 92],
      [30, 14, 80],
    ])
  })

  it('keeps the water: loss, water and protein close to 1e-9', () => {
    const { course: asked, atLoss } = drying(recipe())
    const { waterPct, proteinPct } = asked.composition
    expect((atLoss.waterPct * (100 - 25)) / 100 + 25).toBeCloseTo(waterPct, 9)
    expect(atLoss.moistureToProtein * proteinPct + 25).toBeCloseTo(waterPct, 9)
  })

  it('a loss that meets a target is the loss the course meets it at', () => {
    const {
      course: asked,
      lossForAw,
      lossForMoistureToProtein,
    } = drying(
      recipe({
        dry: {
          lossPct: 20,
          targetAw: 0.92,
          targetMoistureToProtein: 2.2,
          stages: [{ days: 60, tempC: 14, rhPct: 78 }],
        },
      }),
    )
    const target = (of: 'aw' | 'moistureToProtein') => {
      const run = course({ ...asked, target: { [of]: asked.target[of]! } })
      const step = run.working.find((w) => w.step === 'weight loss at the target')
      return step!.value
    }
    expect(target('aw')).toBeCloseTo(lossForAw!, 6)
    expect(target('moistureToProtein')).toBeCloseTo(lossForMoistureToProtein!, 6)
  })

  it('a fermentation without humidity is taken to run at 90 %, and says so (common practice, no source)', () => {
    const silent = drying(recipe({ ferment: { targetPh: 5.2, stages: [{ hours: 48, tempC: 22 }] } }))
    expect(silent.notes[0]).toMatch(/names no humidity: 90 % is assumed/)
    expect(silent.course.stages[0]).toEqual({ days: 2, tempC: 22, rhPct: 90 })
  })

  it('a fermentation warmer than the model takes is brought to its edge, which errs late, and says so', () => {
    const of = (tempC: number) =>
      drying(recipe({ ferment: { targetPh: 5.2, stages: [{ hours: 8, tempC, rhPct: 90 }] } }))
    expect(of(48).course).toEqual(of(45).course)
    expect(of(48).notes).toContain('air over 45 °C is taken as 45 °C')
    expect(of(45).notes.join()).not.toContain('45 °C')
  })

  it('what is cooked between the two is dried as it comes from the cook: drier, thinner, without the fermentation', () => {
    const cooked = drying(recipe({ cook: { targetCoreC: 71, lossPct: 10 } }))
    const raw = drying(recipe())
    const w = raw.course.composition.waterPct
    expect(cooked.course.composition.waterPct).toBeCloseTo((w - 10) / 0.9, 9)
    expect(cooked.course.diameterMm).toBeCloseTo(55 * Math.sqrt(0.9), 9)
    expect(cooked.fermentDays).toBe(0)
    expect(cooked.notes[0]).toMatch(/begins after the cook/)
  })

  it('is the same whatever the size of the batch', () => {
    const r = recipe()
    expect(fermentDryOf({ recipe: r, meatKg: 3 }).drying).toEqual(
      expect.objectContaining({ known: true, fermentDays: 2 }) as unknown,
    )
    const [a, b] = [3, 300].map((meatKg) => fermentDryOf({ recipe: r, meatKg }).drying)
    if (!a?.known || !b?.known) throw new Error('not known')
    expect(a.course.composition.waterPct).toBeCloseTo(b.course.composition.waterPct, 9)
  })

  it.each([
    [
      'a loss greater than the water',
      { dry: { lossPct: 65, stages: [{ days: 1, tempC: 14, rhPct: 80 }] } },
      /holds only/,
    ],
    ['no casing', { casing: undefined }, /names no casing/],
  ])('%s is told, not worked around', (_, over, because) => {
    const found = of(recipe(over)).drying
    expect(found?.known === false && found.because).toMatch(because)
  })
})
