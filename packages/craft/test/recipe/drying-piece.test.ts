import { describe, expect, it } from 'vitest'
import type { Material } from '../../src/materials/schema.ts'
import { dryingPieceFrom, missingWords } from '../../src/recipe/ferment-dry/drying-piece.ts'
import { fermentDryOf } from '../../src/recipe/ferment-dry/ferment-dry.ts'
import { batchAir, daysBeforeCourse, fermentDays, recipeAir } from '../../src/recipe/ferment-dry/planned-air.ts'
import { recipeSchema, type Recipe } from '../../src/recipe/schema.ts'

const salt = { material: 'salt', pct: 2.5 }
const recipe = (over: Partial<Recipe> = {}): Recipe =>
  recipeSchema.parse({
    name: 'Dry sausage',
    kind: 'dried',
    smoked: false,
    readyToEat: true,
    meat: [
      { material: 'pork-leg-lean', pct: 75 },
      { material: 'pork-back-fat', pct: 25 },
    ],
    additions: [salt],
    casing: { calibreMm: 55 },
    ferment: { targetPh: 5.2, stages: [{ hours: 48, tempC: 22, rhPct: 92 }] },
    dry: { lossPct: 30, targetAw: 0.9, stages: [{ days: 30, tempC: 14, rhPct: 80 }] },
    ...over,
  })
const of = (r: Recipe) => dryingPieceFrom({ recipe: r, meatKg: 10 })
const withCulture = (pct: number) => recipe({ additions: [salt, { material: 'starter-culture', pct }] })
/** A meat of the kitchen's own, of a composition given. */
const own = (composition: Material['composition']): Material => ({
  id: 'own-meat',
  name: 'Own meat',
  category: 'pork',
  meatBlock: true,
  composition,
  allergens: [],
  sources: ['own'],
})

describe('the piece a mix makes to be dried', () => {
  it('is the same for a recipe and for the lines weighed as it says', () => {
    const r = recipe()
    const lines = [
      { material: 'pork-leg-lean', kg: 7.5 },
      { material: 'pork-back-fat', kg: 2.5 },
      { material: 'salt', kg: 0.25 },
    ]
    expect(dryingPieceFrom({ recipe: r, meatKg: 10, lines }).piece).toEqual(of(r).piece)
  })

  it('is the one the recipe’s own panel is reckoned with', () => {
    const r = withCulture(0.02)
    const { drying } = fermentDryOf({ recipe: r, meatKg: 10 })
    if (!drying?.known) throw new Error('not known')
    expect(drying.course).toEqual({ ...of(r).piece, stages: recipeAir(r).stages })
    expect(drying.notes).toEqual([...recipeAir(r).notes, ...of(r).notes])
  })

  it('leaves a culture of unknown composition out up to 1 % of the mix and names it, and beyond that says what is missing', () => {
    expect(of(withCulture(1)).piece).toEqual(of(recipe()).piece)
    expect(of(withCulture(1)).notes).toEqual([
      expect.stringMatching(/culture.*: composition not known, left out of the mix as a trace/i),
    ])
    const much = of(withCulture(1.1))
    expect(much.piece).toBeUndefined()
    expect(missingWords(much.missing)).toMatch(
      /^the composition is not known: water of .*culture.*; protein of .*; fat of/i,
    )
  })

  it('as it comes from the cook has lost water alone, with the section shrunk as the weight', () => {
    const cooked = of(recipe({ cook: { targetCoreC: 71, lossPct: 10 } }))
    const [a, b] = [of(recipe()).piece!.composition, cooked.piece!.composition]
    // By hand: of 100 g, 10 g of water go and 90 g stay.
    expect(b.waterPct).toBeCloseTo((100 * (a.waterPct - 10)) / 90, 9)
    expect(b.proteinPct).toBeCloseTo((100 * a.proteinPct) / 90, 9)
    expect(b.saltPct!).toBeCloseTo((100 * a.saltPct!) / 90, 9)
    expect(cooked.diameterMm).toBeCloseTo(55 * Math.sqrt(0.9), 9)
  })

  it('holds the targets of the recipe, and none where it says nothing of drying', () => {
    expect(of(recipe()).target).toEqual({ weightLossPct: 30, aw: 0.9 })
    expect(of(recipe({ dry: undefined })).piece!.target).toEqual({})
  })

  it('counts no salt that nobody states, and says on which side that errs', () => {
    const r = recipe({ meat: [{ material: 'own-meat', pct: 100 }] })
    const from = (composition: Material['composition']) =>
      dryingPieceFrom({ recipe: r, meatKg: 10, materials: [own(composition)] })
    const found = from({ waterPct: 60, proteinPct: 18, fatPct: 20 })
    expect(found.piece!.composition.saltPct).toBeCloseTo((100 * 2.5) / 102.5, 1)
    expect(found.notes).toEqual([
      'the salt of Own meat is not known and not counted: computed water activity errs on the wet side',
    ])
  })

  it('shares back tables that add up to a little over 100 %, and believes none that add up to more than 102 %', () => {
    const r = recipe({ meat: [{ material: 'own-meat', pct: 100 }], additions: [] })
    const from = (fatPct: number) =>
      dryingPieceFrom({ recipe: r, meatKg: 10, materials: [own({ waterPct: 60, proteinPct: 20, fatPct, saltPct: 0 })] })
    expect(from(21).piece!.composition.waterPct).toBeCloseTo(6000 / 101, 9)
    expect(missingWords(from(23).missing)).toBe('the composition adds up to 103 %')
  })

  it('names the casing and a material that nobody knows', () => {
    expect(missingWords(of(recipe({ casing: undefined })).missing)).toBe(
      'the recipe names no casing, so the diameter is not known',
    )
    expect(missingWords(of(recipe({ meat: [{ material: 'unheard-of', pct: 100 }] })).missing)).toMatch(/"unheard-of"/)
  })
})

describe('the air planned', () => {
  it('is of the drying alone where the product is cooked before it, and the souring lies before day 0', () => {
    const cooked = recipe({ cook: { targetCoreC: 71, lossPct: 10 } })
    expect(recipeAir(cooked)).toMatchObject({ stages: cooked.dry!.stages, fermentDays: 0 })
    expect(recipeAir(cooked).notes).toEqual([
      'the course begins after the cook, which takes 10 % of its weight as water; the loss in drying is of the cooked weight',
    ])
    expect([daysBeforeCourse(cooked), daysBeforeCourse(recipe()), fermentDays(cooked)]).toEqual([2, 0, 2])
  })

  it('of a batch and of its recipe is the same where the recipe says it', () => {
    const r = recipe({ ferment: { targetPh: 5.2, stages: [{ hours: 48, tempC: 48 }] } })
    const batch = batchAir(r, { log: [] })
    expect(batch.stages).toEqual(recipeAir(r).stages)
    expect(batch.notes).toEqual(expect.arrayContaining([...recipeAir(r).notes]))
  })

  it('of a batch whose recipe names none is that of its room, else the log’s last day, else assumed and said so', () => {
    const r = recipe({ dry: { lossPct: 30, days: 20 } })
    const room = { name: 'Long room', tempC: 13, rhPct: 79 }
    const log = [20, 20.5, 21].map((day) => ({ day, tempC: 12, rhPct: 77 }))
    expect(batchAir(r, { room, log }).stages.at(-1)).toEqual({ days: 20, tempC: 13, rhPct: 79 })
    expect(batchAir(r, { log }).stages.at(-1)).toEqual({ days: 20, tempC: 12, rhPct: 77 })
    const assumed = batchAir(r, { log: [] })
    expect(assumed.stages.at(-1)).toEqual({ days: 20, tempC: 14, rhPct: 80 })
    expect(assumed.notes.join()).toContain('14 °C and 80 % are assumed')
  })
})
