import { describe, expect, it } from 'vitest'
import type { Material } from '../../src/materials/schema.ts'
import { recipeCalculations } from '../../src/recipe/calculations.ts'
import { atFat } from '../../src/recipe/lines.ts'
import type { Recipe } from '../../src/recipe/schema.ts'

const [compute, scale, sheet, compare] = recipeCalculations

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
const lean = own('my-lean', {
  species: 'pork',
  composition: { waterPct: 70, proteinPct: 20, fatPct: 9, ashPct: 1, saltPct: 0.2, collagenPct: 1 },
  fatSdPct: 2,
})
const fat = own('my-fat', {
  species: 'pork',
  composition: { waterPct: 30, proteinPct: 8, fatPct: 61, ashPct: 0.5, saltPct: 0.1, collagenPct: 2 },
  fatSdPct: 5,
})
const salt = own('my-salt', {
  category: 'salt',
  meatBlock: false,
  composition: { waterPct: 0, proteinPct: 0, fatPct: 0, ashPct: 100, saltPct: 100, collagenPct: 0 },
})
const cure = own('my-cure', {
  category: 'cure',
  meatBlock: false,
  composition: { waterPct: 0, proteinPct: 0, fatPct: 0, ashPct: 100, saltPct: 93.75, collagenPct: 0 },
  agent: { sodiumNitritePct: 6.25, saltPct: 93.75 },
})
const water = own('my-water', {
  category: 'water',
  meatBlock: false,
  composition: { waterPct: 100, proteinPct: 0, fatPct: 0, ashPct: 0, saltPct: 0, collagenPct: 0 },
})
const spice = own('my-spice', { category: 'spice', meatBlock: false, composition: {} })
const materials = [lean, fat, salt, cure, water, spice]

const recipe: Recipe = {
  name: 'Test',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [
    { material: 'my-lean', pct: 70 },
    { material: 'my-fat', pct: 30 },
  ],
  additions: [
    { material: 'my-water', pct: 10 },
    { material: 'my-salt', pct: 1.5 },
    { material: 'my-cure', pct: 0.24 },
  ],
  nitriteTarget: { lowPpm: 120, highPpm: 156 },
}

describe('recipe.compute', () => {
  it('gives 150 mg/kg of nitrite for 0.24 % of a 6.25 % cure on the meat block, and its ion by molar mass', () => {
    const r = compute.run({ recipe, meatKg: 20, materials })
    expect(r.cure.nitritePpm).toBeCloseTo(150, 9)
    // 46.005 / 68.995: molar masses of nitrite and sodium nitrite from IUPAC atomic weights.
    expect(r.cure.nitriteIonPpm).toBeCloseTo((150 * 46.005) / 68.995, 2)
    expect(r.measures['nitritePpm']).toEqual({ value: expect.closeTo(150, 9) })
    expect(r.facts).toMatchObject({
      kind: 'cooked',
      cured: true,
      nitrateAdded: false,
      smoked: true,
      'species:pork': true,
      species: 'pork',
    })
  })

  it('keeps the balance of mass: lines add up, and fat of the mix is what the parts bring', () => {
    const r = compute.run({ recipe, meatKg: 20, materials })
    expect(r.lines.reduce((s, l) => s + l.kg, 0)).toBeCloseTo(r.totals.totalKg, 12)
    expect(r.lines.reduce((s, l) => s + l.pctOfTotal, 0)).toBeCloseTo(100, 10)
    expect(r.composition.fatPct! * r.totals.totalKg).toBeCloseTo(9 * 14 + 61 * 6, 9)
    expect(r.totals.totalKg).toBeCloseTo(20 * 1.1174, 12)
    expect(r.fatSdPct).toBeCloseTo(Math.hypot(0.7 * 2, 0.3 * 5) / 1.1174, 12)
  })

  it('counts the salt a cure carries', () => {
    const { cure: c } = compute.run({ recipe, meatKg: 20, materials })
    expect(c.saltFromCureKg).toBeCloseTo(20 * 0.0024 * 0.9375, 12)
    expect(c.addedSaltPctOfMeat).toBeCloseTo(1.5 + 0.24 * 0.9375, 12)
  })

  it('reckons added water as 9 CFR 318.22: moisture less four times protein', () => {
    const r = compute.run({ recipe, meatKg: 20, materials })
    expect(r.addedWaterPct).toBeCloseTo(r.composition.waterPct! - 4 * r.composition.proteinPct!, 10)
    expect(r.measures['formulaWaterPct']).toEqual({ value: expect.closeTo(1000 / 111.74, 9) })
  })

  it('concentrates fat and protein by the loss it states, water alone being lost', () => {
    const r = compute.run({ recipe: { ...recipe, cook: { targetCoreC: 70, lossPct: 10 } }, meatKg: 20, materials })
    const fatOf = r.measures['fatPct'] as { value: number }
    expect(fatOf.value).toBeCloseTo(r.composition.fatPct! / 0.9, 10)
    expect((r.measures['waterPct'] as { value: number }).value).toBeCloseTo((r.composition.waterPct! - 10) / 0.9, 10)
    expect(r.totals.finishedKg).toBeCloseTo(r.totals.totalKg * 0.9, 12)
  })

  it('leaves a component blank that a part does not state, names the part, and bounds what little it can be', () => {
    const more = { ...recipe, additions: [...recipe.additions, { material: 'my-spice', pct: 0.4 }] }
    const r = compute.run({ recipe: more, meatKg: 20, materials })
    expect(r.composition).not.toHaveProperty('fatPct')
    expect(r.unknown).toContainEqual({ component: 'fatPct', materials: ['my-spice'] })
    const m = r.measures['rawFatPct'] as { value: number; low: number; high: number }
    expect(m.high - m.low).toBeCloseTo(40 / 112.14, 9)
    expect(m.low).toBeCloseTo((9 * 70 + 61 * 30) / 112.14, 9)
    const much = compute.run({
      recipe: { ...recipe, additions: [...recipe.additions, { material: 'my-spice', pct: 4 }] },
      meatKg: 20,
      materials,
    })
    expect(much.measures['fatPct']).toMatchObject({ missing: expect.stringContaining('my-spice') })
  })

  it('does not know the nitrite where a cure has no analysis, and still holds the product as cured', () => {
    const r = compute.run({
      recipe: { ...recipe, additions: [{ material: 'celery-powder-cultured', pct: 0.5 }] },
      meatKg: 10,
      materials: [...materials, own('celery-powder-cultured', { category: 'cure', meatBlock: false })],
    })
    expect(r.cure.known).toBe(false)
    expect(r.measures['nitritePpm']).toMatchObject({ missing: expect.stringContaining('celery-powder-cultured') })
    expect(r.facts['cured']).toBe(true)
    expect(r.facts).not.toHaveProperty('nitrateAdded')
  })

  it('takes a lot as analysed, scaling what is not fat, and says so where it was sold as another', () => {
    const r = compute.run({
      recipe,
      meatKg: 10,
      materials,
      lots: [{ lot: 'L1', material: 'my-lean', fatPct: 14, soldFatPct: 10, costPerKg: 5 }],
    })
    expect(r.lines[0]).toMatchObject({ lot: 'L1', fatPct: 14, costPerKg: 5, cost: 35 })
    expect(r.notes.join()).toMatch(/sold as 10 % fat, analysed at 14 %/)
    expect(r.cost.total).toBeUndefined()
    expect(r.cost.unpriced).toContain('my-salt')
    const scaled = atFat(lean.composition, 14)
    expect(scaled.waterPct! + scaled.proteinPct! + scaled.fatPct! + scaled.ashPct!).toBeCloseTo(100, 10)
  })

  it('puts weights in place of shares', () => {
    const r = compute.run({
      recipe,
      meatKg: 10,
      materials,
      lines: [
        { material: 'my-lean', kg: 8 },
        { material: 'my-fat', kg: 2 },
        { material: 'my-cure', kg: 0.024 },
      ],
    })
    expect(r.totals.meatKg).toBe(10)
    expect(r.cure.nitritePpm).toBeCloseTo(150, 9)
    expect(r.composition.fatPct).toBeCloseTo((72 + 122) / 10.024, 9)
  })

  it('is the same at every size but for its weights', () => {
    const [a, b] = [compute.run({ recipe, meatKg: 1, materials }), compute.run({ recipe, meatKg: 1000, materials })]
    expect(b.cure.nitritePpm).toBeCloseTo(a.cure.nitritePpm!, 8)
    expect(b.composition.fatPct).toBeCloseTo(a.composition.fatPct!, 10)
  })

  it.each([
    [
      { recipe: { ...recipe, meat: [{ material: 'unicorn', pct: 100 }] }, meatKg: 10 },
      /recipe\.meat\[0\]\.material: is "unicorn"/,
    ],
    [
      { recipe: { ...recipe, meat: [{ material: 'my-lean', pct: 90 }] }, meatKg: 10, materials },
      /recipe\.meat: adds up to 90 %/,
    ],
    [{ recipe, meatKg: -1, materials }, /meatKg: is -1/],
    [{ recipe, meatKg: 1e12, materials }, /meatKg/],
    [{ recipe, meatKg: 10, materials, lines: [{ material: 'my-salt', kg: 1 }] }, /lines: hold no meat/],
    [{ recipe, meatKg: 10, materials, lines: [{ material: 'my-lean', lot: 'X', kg: 1 }] }, /lines\[0\]\.lot: is "X"/],
    [
      { recipe: { ...recipe, cook: { targetCoreC: 70, lossPct: 100 } }, meatKg: 10, materials },
      /allowed: a loss that leaves something/,
    ],
  ])('refuses by name: case %#', (input, message) => expect(() => compute.run(input)).toThrow(message))
})

describe('figures that say what a product is', () => {
  const withTable = (additions: Recipe['additions']) =>
    compute.run({ recipe: { ...recipe, additions }, meatKg: 100, materials })
  it('reckon phosphate as P2O5 by stoichiometry: tripolyphosphate 57.9 %, by its formula Na5P3O10 (molar mass 367.9)', () => {
    const r = withTable([{ material: 'tripolyphosphate', pct: 0.5 }])
    expect(r.measures['phosphateP2O5Ppm']).toMatchObject({
      value: expect.closeTo((5000 / 1.005) * (212.92 / 367.86), 0),
    })
    expect(r.measures['phosphatePct']).toMatchObject({ value: expect.closeTo(0.5 / 1.005, 9) })
    // Two Na2HPO4 (141.96) carry one P2O5 (141.94).
    expect(r.measures['phosphateAsDisodiumPct']).toMatchObject({
      value: expect.closeTo((0.5 / 1.005) * (212.92 / 367.86) * (283.92 / 141.94), 4),
    })
  })
  it('do not guess the phosphorus of a phosphate of the kitchen', () => {
    const blend = own('my-phosphate', { category: 'phosphate', meatBlock: false })
    const r = compute.run({
      recipe: { ...recipe, additions: [{ material: 'my-phosphate', pct: 0.3 }] },
      meatKg: 100,
      materials: [...materials, blend],
    })
    expect(r.measures['phosphateP2O5Ppm']).toMatchObject({ missing: expect.stringContaining('my-phosphate') })
  })
  it('tell meat, its protein and fat, binders and livers of the formula', () => {
    const r = withTable([
      { material: 'rusk', pct: 5 },
      { material: 'my-water', pct: 5 },
    ])
    expect(r.measures['binderPct']).toEqual({ value: expect.closeTo(500 / 110, 9) })
    expect(r.measures['meatPct']).toEqual({ value: expect.closeTo(10_000 / 110, 9) })
    expect(r.measures['meatProteinPct']).toEqual({ value: expect.closeTo((100 * (14 + 2.4)) / 110, 9) })
    expect(r.measures['fatFreeMeatPct']).toEqual({ value: expect.closeTo((100 * (100 - 6.3 - 18.3)) / 110, 9) })
    expect(r.measures['collagenOfProteinPct']).toEqual({ value: expect.closeTo((100 * 1.3) / 16.4, 9) })
    expect(r.measures['liverPct']).toEqual({ value: 0 })
  })
})

describe('recipe.scale', () => {
  const cooked: Recipe = { ...recipe, cook: { targetCoreC: 70, lossPct: 10 }, casing: { calibreMm: 30, linkG: 100 } }
  it('comes back to the same meat block from mix, finished weight and links', () => {
    const a = scale.run({ recipe: cooked, to: { meatKg: 10 } })
    expect(a.mixKg).toBeCloseTo(11.174, 12)
    expect(scale.run({ recipe: cooked, to: { mixKg: a.mixKg } }).meatKg).toBeCloseTo(10, 10)
    expect(scale.run({ recipe: cooked, to: { finishedKg: a.finishedKg } }).meatKg).toBeCloseTo(10, 10)
    expect(scale.run({ recipe: cooked, to: { links: 50 } })).toMatchObject({ links: 50, mixKg: expect.closeTo(5, 10) })
  })
  it('stops at the material that runs out first', () => {
    const r = scale.run({
      recipe: cooked,
      to: {
        stock: [
          { material: 'my-lean', kg: 35 },
          { material: 'my-fat', kg: 12 },
        ],
      },
    })
    expect(r).toMatchObject({
      meatKg: expect.closeTo(40, 10),
      limitedBy: 'my-fat',
      notListed: ['my-water', 'my-salt', 'my-cure'],
    })
  })
  it('refuses a finished weight where the loss is not known', () => {
    expect(() => scale.run({ recipe, to: { finishedKg: 5 } })).toThrow(/recipe\.cook\.lossPct: is missing/)
  })
})

describe('recipe.sheet', () => {
  const scales = [
    { id: 'floor', readabilityG: 20, capacityG: 60_000 },
    { id: 'bench', readabilityG: 1, capacityG: 6000 },
    { id: 'fine', readabilityG: 0.1, capacityG: 500 },
  ]
  it('gives each line the coarsest scale that is fit for it, a cure the finest', () => {
    const r = sheet.run({ recipe, meatKg: 20, materials, scales })
    expect(r.lines.map((l) => [l.material, l.scale, l.verdict])).toEqual([
      ['my-lean', 'floor', 'fit'],
      ['my-fat', 'floor', 'fit'],
      ['my-water', 'floor', 'fit'],
      ['my-salt', 'bench', 'fit'],
      ['my-cure', 'fine', 'fit'],
    ])
  })
  it('holds the cure to the nitrite band: 2.4 g on a 1 g scale is unfit, and a finer scale is named', () => {
    const r = sheet.run({ recipe, meatKg: 1, materials, scales: [scales[1]] })
    const line = r.lines.find((l) => l.material === 'my-cure')!
    expect(line).toMatchObject({ verdict: 'unfit', toleranceFrom: 'nitrite band' })
    expect(line.advice.join(' ')).toMatch(/scale that shows 0\.\d+ g/)
    expect(r.cautions.length).toBeGreaterThan(0)
  })
  it('cannot tell without a band', () => {
    const { nitriteTarget: _band, ...bare } = recipe
    expect(sheet.run({ recipe: bare, meatKg: 20, materials, scales }).lines.at(-1)).toMatchObject({
      verdict: 'cannot-tell',
    })
  })
})

describe('recipe.compare', () => {
  it('finds nothing between a recipe and itself in another order', () => {
    const r = compare.run({
      before: recipe,
      after: { ...recipe, additions: recipe.additions.toReversed() },
      meatKg: 10,
      materials,
    })
    expect(r).toEqual({ fields: [], composition: [], measures: [], cost: [] })
  })
  it('names the field that changed and what it did', () => {
    const after = {
      ...recipe,
      additions: recipe.additions.map((a) => (a.material === 'my-cure' ? { ...a, pct: 0.2 } : a)),
    }
    const r = compare.run({ before: recipe, after, meatKg: 10, materials })
    expect(r.fields).toEqual([{ path: 'additions[my-cure].pct', before: 0.24, after: 0.2 }])
    expect(r.measures.find((m) => m.name === 'nitritePpm')).toMatchObject({
      before: expect.closeTo(150, 9),
      after: expect.closeTo(125, 9),
      change: expect.closeTo(-25, 9),
    })
  })
})

describe('the examples of the reference page', () => {
  it.each(recipeCalculations.map((c) => [c.name, c] as const))('%s runs as printed', (_, c) => {
    expect(() => c.output.parse(c.run(c.example))).not.toThrow()
  })
})
