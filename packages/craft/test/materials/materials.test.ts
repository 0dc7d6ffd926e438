import { describe, expect, it } from 'vitest'
import { compositionSchema } from '../../src/composition.ts'
import { compositionOf, findMaterial, findSource, materials, sourceOf } from '../../src/materials/materials.ts'
import { allergens, materialCategories, materialSchema } from '../../src/materials/schema.ts'

const parts = ['waterPct', 'proteinPct', 'fatPct', 'carbohydratePct', 'ashPct', 'alcoholPct'] as const

/** Outside 98 to 102 %, each for the reason the row's note gives. */
const sumExceptions = new Set([
  'pork-trim-80-20-by-eye', // independent means
  'pork-lung',
  'pork-tail',
  'mutton-shoulder',
  'salt-sea-grey', // water of hydration and insolubles
  'baking-soda', // carbonate lost on ashing
  'black-pepper', // piperine
  'white-pepper',
  'vinegar-cider', // acetic acid
  'vinegar-white',
  'vinegar-wine',
])

describe('materials table', () => {
  it('holds at least 150 materials, each valid and with an id of its own', () => {
    expect(materials.length).toBeGreaterThanOrEqual(150)
    expect(new Set(materials.map((m) => m.id)).size).toBe(materials.length)
    for (const m of materials) {
      const parsed = materialSchema.safeParse(m)
      expect(parsed.success ? '' : `${m.id}: ${parsed.error.message}`).toBe('')
      expect(m.id).toMatch(/^[a-z0-9]+([-.][a-z0-9]+)*$/)
    }
  })

  it('names a source for every row, and every source id resolves', () => {
    for (const m of materials) {
      expect(m.sources.length, m.id).toBeGreaterThan(0)
      for (const s of m.sources) expect(findSource(s), `${m.id}: ${s}`).toBeDefined()
      expect(sourceOf(m.id)).toHaveLength(m.sources.length)
      expect(m.sure, m.id).toBeDefined()
    }
  })

  it('gives blank, never zero, where no source was found', () => {
    const unknown = materials.filter((m) => m.sure === 'none')
    expect(unknown.map((m) => m.id)).toContain('liquid-smoke')
    for (const m of unknown) {
      expect(m.composition, m.id).toEqual({})
      expect(m.sources).toEqual(['no-source'])
      expect(compositionOf(m)).toBeUndefined()
    }
    expect(compositionOf(findMaterial('pork-blood')!)).toBeUndefined()
    expect(findMaterial('pork-back-fat-rindless')!.composition.ashPct).toBeUndefined()
  })

  it('adds up to 98–102 % where every part was analysed, with the exceptions named and noted', () => {
    const outside = materials.filter((m) => {
      if (m.sure === 'declared' || parts.slice(0, 3).some((p) => m.composition[p] === undefined)) return false
      const fibre = m.sources[0]!.startsWith('Ciqual') ? (m.composition.fibrePct ?? 0) : 0
      const sum = parts.reduce((s, p) => s + (m.composition[p] ?? 0), fibre)
      return sum < 98 || sum > 102
    })
    expect(new Set(outside.map((m) => m.id))).toEqual(sumExceptions)
    for (const m of outside) expect(m.note, m.id).toBeDefined()
  })

  it('gives every composition the calculations take a mass balance', () => {
    for (const m of materials) {
      const c = compositionOf(m)
      if (!c) continue
      const parsed = compositionSchema.safeParse(c)
      expect(parsed.success ? '' : `${m.id}: ${parsed.error.issues.map((i) => i.message).join()}`).toBe('')
    }
  })

  it('has cures that add up to 100 % and carry their warning', () => {
    const cures = materials.filter((m) => Object.keys(m.agent ?? {}).some((k) => /Nitr[ia]te/.test(k)))
    expect(cures.length).toBeGreaterThanOrEqual(10)
    for (const m of cures) {
      const sum = Object.values(m.agent!).reduce<number>((s, v) => s + (v ?? 0), 0)
      expect(sum, m.id).toBeCloseTo(100, 9)
      expect(m.meatBlock).toBe(false)
      expect(m.note, m.id).toMatch(/Weigh it .* never spoon it/)
    }
  })

  it('says of the 6.25 % cure 6.25 parts sodium nitrite to 93.75 parts salt', () => {
    expect(findMaterial('curing-salt-6.25-nitrite')!.agent).toEqual({ sodiumNitritePct: 6.25, saltPct: 93.75 })
    expect(findMaterial('curing-salt-6.25-nitrite-4-nitrate')!.agent).toEqual({
      sodiumNitritePct: 6.25,
      sodiumNitratePct: 4,
      saltPct: 89.75,
    })
  })

  it.each([
    ['pork-shoulder-trim', 'USDA SR28 NDB 10070', { waterPct: 64.02, proteinPct: 17.18, fatPct: 17.99, ashPct: 0.88 }],
    ['pork-back-fat', 'USDA SR28 NDB 10004', { waterPct: 7.69, proteinPct: 2.92, fatPct: 88.69 }],
    ['beef-trim-80-20', 'USDA SR28 NDB 23572', { waterPct: 61.87, proteinPct: 17.17, fatPct: 20 }],
    ['pork-belly-lean', 'Ciqual 2020 28002', { waterPct: 59.8, proteinPct: 17, fatPct: 20.5 }],
    ['nutmeg', 'USDA SR28 NDB 02025', { waterPct: 6.23, proteinPct: 5.84, fatPct: 36.31 }],
  ])('prints %s as %s has it', (id, source, figures) => {
    const m = findMaterial(id)!
    expect(m.sources[0]).toBe(source)
    expect(m.composition).toMatchObject(figures)
  })

  it('puts salt at sodium × 2.542, as sodium chloride (22.99 of 58.44 g/mol)', () => {
    for (const m of materials) {
      const { saltPct, sodiumPct } = m.composition
      if (saltPct === undefined || sodiumPct === undefined || m.sure === 'declared') continue
      expect(saltPct, m.id).toBeCloseTo((sodiumPct * 58.44) / 22.99, 2)
    }
  })

  it('interpolates trims so that fat is as named and water falls as fat rises', () => {
    const trims = [95, 90, 85, 80, 75, 70, 60, 50, 30, 20].map((lean) =>
      findMaterial(`pork-trim-${lean}-${100 - lean}`)!,
    )
    for (const [i, t] of trims.entries()) {
      expect(t.composition.fatPct).toBe(100 - Number(t.id.split('-')[2]))
      if (i > 0) expect(t.composition.waterPct!).toBeLessThan(trims[i - 1]!.composition.waterPct!)
    }
    // Between 84/16 and 96/4 of SR28, at 90/10 by hand: 73.62 − 6/12 × 8.95 = 69.145 water, 21.10 − 6/12 × 3.11 = 19.545 protein.
    expect(trims[1]!.composition.waterPct).toBeCloseTo(69.145, 1)
    expect(trims[1]!.composition.proteinPct).toBeCloseTo(19.545, 1)
  })

  it('marks the allergens of the usual carriers', () => {
    const of = (id: string) => findMaterial(id)!.allergens
    expect(of('mustard-seed')).toContain('mustard')
    expect(of('celery-seed')).toContain('celery')
    expect(of('breadcrumb')).toEqual(expect.arrayContaining(['wheat', 'gluten-cereal']))
    expect(of('milk-powder-skimmed')).toContain('milk')
    expect(of('lactose')).toContain('milk')
    expect(of('caseinate')).toContain('milk')
    expect(of('soy-isolate')).toContain('soy')
    expect(of('wine-white')).toContain('sulphite')
    expect(of('egg-white-powder')).toContain('egg')
    expect(of('pistachio')).toContain('tree-nut')
    expect(of('pork-shoulder-trim')).toEqual([])
    for (const m of materials) {
      if (m.category === 'dairy') expect(m.allergens, m.id).toContain('milk')
      if (m.category === 'egg') expect(m.allergens, m.id).toContain('egg')
      for (const a of m.allergens) expect(allergens).toContain(a)
    }
  })

  it('has at least one material of nearly every category', () => {
    const used = new Set(materials.map((m) => m.category))
    expect(materialCategories.filter((c) => !used.has(c))).toEqual([])
  })

  it('finds nothing for an id or a source that is not there', () => {
    expect(findMaterial('unicorn')).toBeUndefined()
    expect(findMaterial('constructor')).toBeUndefined()
    expect(findSource('USDA SR28 NDB x')).toBeUndefined()
    expect(findSource('toString')).toBeUndefined()
    expect(sourceOf('unicorn')).toEqual([])
  })
})
