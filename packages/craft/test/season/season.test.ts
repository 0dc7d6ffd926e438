import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { preblend } from '../../src/cure/preblend.ts'
import { spoonWeights } from '../../src/materials/data/measures.ts'
import { findMaterial, materials } from '../../src/materials/materials.ts'
import type { Recipe } from '../../src/recipe/schema.ts'
import { premix } from '../../src/season/premix.ts'
import { spoonToGrams } from '../../src/season/spoon.ts'
import { usualDoses } from '../../src/season/usual.ts'

const recipe: Recipe = {
  name: 'Coarse',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [{ material: 'pork-butt', pct: 100 }],
  additions: [
    { material: 'ice', pct: 10 },
    { material: 'salt', pct: 1.6 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.22 },
    { material: 'sodium-erythorbate', pct: 0.05 },
    { material: 'black-pepper', pct: 0.3 },
    { material: 'nutmeg', pct: 0.02 },
  ],
  nitriteTarget: { lowPpm: 110, highPpm: 156 },
}
const scales = [
  { id: 'bench', readabilityG: 1, toleranceG: 1, capacityG: 6000 },
  { id: 'fine', readabilityG: 0.1, toleranceG: 0.1, capacityG: 500 },
]

describe('spoons', () => {
  // USDA SR28, WEIGHT: black pepper ground 2.3 g a teaspoon (63 samples), 6.9 g a tablespoon; whole 2.9 g; clove 2.1 and 6.5 g.
  it.each([
    ['black-pepper', 1, 'tsp', 'ground', 2.3],
    ['black-pepper', 1, 'tbsp', 'ground', 6.9],
    ['black-pepper', 1, 'tsp', 'whole', 2.9],
    ['oregano-dried', 2, 'tsp', 'leaves', 2],
    ['oregano-dried', 2, 'tsp', 'ground', 3.6],
  ] as const)('%s, %s %s %s weighs what USDA SR28 weighed', (material, count, spoon, form, grams) => {
    const out = spoonToGrams({ material, count, spoon, form })
    expect(out.grams).toBeCloseTo(grams, 6)
    expect(out.lowG).toBeCloseTo(grams * 0.75, 6)
    expect(out.highG).toBeCloseTo(grams * 1.25, 6)
  })

  it('spreads over every form where none is said', () => {
    const out = spoonToGrams({ material: 'basil-dried', count: 1, spoon: 'tsp' })
    expect(out.lowG).toBeLessThan(0.7)
    expect(out.highG).toBeGreaterThan(1.5)
    expect(out.because).toMatch(/leaves and ground/)
  })

  it('are refused for every cure of the table, whatever it is called, with the reason', () => {
    const cures = materials.filter((m) => m.category === 'cure')
    expect(cures.length).toBeGreaterThan(5)
    for (const m of cures) {
      const out = spoonToGrams({ material: m.id, count: 1, spoon: 'tsp' })
      expect(out, m.id).toMatchObject({ possible: false, working: [] })
      expect(out.because).toMatch(/weighed, never spooned|is weighed/)
      expect(out).not.toHaveProperty('grams')
    }
    const hidden = spoonToGrams({ material: 'paprika', count: 1, spoon: 'tsp', agent: { sodiumNitritePct: 0.5 } })
    expect(hidden.because).toMatch(/never spooned/)
  })

  it.each(['salt', 'pork-butt', 'dextrose-monohydrate', 'ice'])('are refused for %s, which is weighed', (material) =>
    expect(spoonToGrams({ material, count: 1, spoon: 'tsp' })).toMatchObject({ possible: false }),
  )

  it('cannot tell for a spice no one weighed by the spoon', () =>
    expect(spoonToGrams({ material: 'juniper-berry', count: 1, spoon: 'tsp' }).because).toMatch(/five level spoons/))

  it('are on file for herbs and spices only', () => {
    for (const w of spoonWeights) expect(findMaterial(w.material)?.category, w.material).toMatch(/spice|herb/)
  })
})

describe('what the maker is used to', () => {
  const at = (pepper: number, version: number, batches = 0, code = 'a') => ({
    recipe: code,
    version,
    batches,
    body: { ...recipe, additions: [{ material: 'black-pepper', pct: pepper }] },
  })

  it('is the middle dose, a version once and once more for each batch made of it', () => {
    const out = usualDoses({ saved: [at(0.2, 1), at(0.3, 2, 5), at(0.5, 3)] })
    expect(out.lines).toEqual([
      expect.objectContaining({
        material: 'black-pepper',
        versions: 3,
        batches: 5,
        lowGPerKg: 2,
        usualGPerKg: 3,
        highGPerKg: 5,
        lastGPerKg: 5,
        lastIn: 'a version 3',
      }),
    ])
  })

  it.each([
    [0.1, 'less'],
    [0.3, 'usual'],
    [0.6, 'more'],
  ])('tells where %s % stands', (now, stands) => {
    const saved = [at(0.2, 1), at(0.4, 2)]
    const bench = { ...recipe, additions: [{ material: 'black-pepper', pct: now }] }
    expect(usualDoses({ saved, recipe: bench }).lines[0]).toMatchObject({ stands, nowGPerKg: now * 10 })
  })

  it('knows nothing of a new spice and says so, and never speaks of cure', () => {
    const out = usualDoses({ saved: [at(0.2, 1)], recipe })
    expect(out.lines.find((l) => l.material === 'nutmeg')).toMatchObject({ stands: 'new', versions: 0 })
    expect(out.lines.some((l) => l.material.includes('curing') || l.material.includes('erythorbate'))).toBe(false)
  })
})

describe('a pre-mix', () => {
  it('keeps the mass: what the batches take is what the bags hold, cure and salt included', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 1, max: 200, noNaN: true }), (batches, meatKg) => {
        const out = premix({ recipe, meatKg, batches, scales })
        const spices = (meatKg * 0.32) / 100
        expect(out.spice.perBatch.kg).toBeCloseTo(spices, 9)
        expect(out.spice.totalKg).toBeCloseTo(spices * batches, 7)
        if (!out.cure.made) throw new Error(out.cure.because)
        expect(out.cure.sheet.blendKg).toBeCloseTo(((meatKg * 1.82) / 100) * batches, 7)
        expect(out.cure.sheet.agentKg).toBeCloseTo(((meatKg * 0.22) / 100) * batches, 7)
      }),
      { numRuns: 60, seed: 5 },
    )
  })

  it('never puts cure or accelerator with spice (21 CFR 170.60)', () => {
    const out = premix({ recipe, meatKg: 10, batches: 12, scales })
    expect(out.spice.lines.map((l) => l.material)).toEqual(['black-pepper', 'nutmeg'])
    expect(out.apart.map((a) => a.material)).toEqual(['sodium-erythorbate'])
    expect(out.cautions.join(' ')).toMatch(/apart from spices/)
  })

  it('makes a weight fit that a single batch has too little of', () => {
    const out = premix({ recipe, meatKg: 5, batches: 20, scales: [scales[0]!] })
    const nutmeg = out.spice.lines.find((l) => l.material === 'nutmeg')!
    expect(nutmeg.alone.fit).toBe(false)
    expect(out.spice.lines[0]!.alone.fit).toBe(false)
    expect(out.spice.lines[0]!.together.fit).toBe(true)
    expect(out.advice.join(' ')).toMatch(/Black pepper/)
  })

  it('gives the same cure blend as the calculation of its own', () => {
    const out = premix({ recipe, meatKg: 10, batches: 20, scales })
    if (!out.cure.made) throw new Error('not made')
    const alone = preblend({
      basisKg: 10,
      targetNitritePpm: 137.5,
      agent: { composition: findMaterial('curing-salt-6.25-nitrite')!.agent! },
      totalSaltKg: 0.16 + 0.022 * 0.9375,
      batches: 20,
      blendScale: { readabilityG: 1, toleranceG: 1 },
      batchScale: { readabilityG: 0.1, toleranceG: 0.1 },
      target: { lowPpm: 110, highPpm: 156 },
    })
    expect(out.cure.sheet.perBatchKg).toBeCloseTo(alone.perBatchKg, 9)
    expect(out.cure.sheet.lowPpm).toBeCloseTo(alone.lowPpm, 6)
  })

  it('makes no cure blend where there is no band to hold it to, two cures, or none, and says why', () => {
    const { nitriteTarget: _band, ...open } = recipe
    expect(premix({ recipe: open, meatKg: 10, batches: 2, scales }).cure).toMatchObject({ made: false })
    const none = { ...recipe, additions: recipe.additions.filter((a) => !a.material.startsWith('curing')) }
    expect(premix({ recipe: none, meatKg: 10, batches: 2, scales }).cure).toMatchObject({
      made: false,
      because: 'the recipe holds no cure',
    })
  })

  it('refuses half a batch by name', () =>
    expect(() => premix({ recipe, meatKg: 10, batches: 2.5, scales })).toThrow(/batches/))
})
