import { allergens } from '@forcemeat/craft/materials/schema'
import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import { describe, expect, it } from 'vitest'
import { additiveOf, additives, compound, names } from '../../data/declare/additives.ts'
import { allergenLists, allergenWords } from '../../data/declare/allergens.ts'
import { labellingFigures } from '../../data/declare/labelling.ts'
import { netWeightFigures, referencePlan } from '../../data/declare/net-weight.ts'
import { nutritionFigures, nutritionRules } from '../../data/declare/nutrition.ts'
import { reservedNames } from '../../data/declare/reserved-names.ts'
import { judgeLabel } from '../../src/declare/label.ts'
import { judgeNutrition } from '../../src/declare/nutrition.ts'
import { recipeRules, standards } from '../../src/recipe/rules.ts'

describe('figures of the label', () => {
  it('round every value: bands ascend and the last one holds for all', () => {
    for (const f of Object.values(nutritionFigures).flat())
      for (const r of f.rows)
        for (const bands of [r.rounding, ...(r.dvRounding ? [r.dvRounding] : [])]) {
          const borders = bands.map((b) => b.below ?? b.upTo ?? Number.POSITIVE_INFINITY)
          expect(borders, `${f.id} ${r.key}`).toEqual(borders.toSorted((a, b) => a - b))
          expect(borders.at(-1)).toBe(Number.POSITIVE_INFINITY)
          for (const b of bands) expect((b.step === undefined) !== (b.text === undefined)).toBe(true)
        }
  })

  it('give every table a rule that says when it is complete', () => {
    for (const [place, formats] of Object.entries(nutritionFigures))
      for (const f of formats) expect(nutritionRules[`${place}:${f.id}`], `${place}:${f.id}`).toBeDefined()
  })

  it('hold words for every allergen a material can carry, and the fourteen groups hold them all', () => {
    expect(Object.keys(allergenWords).toSorted()).toEqual([...allergens].toSorted())
    expect(new Set(allergenLists.EU.flatMap((g) => g.members))).toEqual(new Set(allergens))
    for (const list of Object.values(allergenLists)) {
      const members = list.flatMap((g) => g.members)
      expect(new Set(members).size).toBe(members.length)
    }
  })

  it('name only materials the table holds', () => {
    const own = Object.keys(additives)
    for (const id of [...Object.keys(additiveOf).filter((k) => !own.includes(k)), ...compound.materials])
      expect(findMaterial(id), id).toBeDefined()
    for (const place of Object.values(labellingFigures.places))
      for (const id of [...place.spices.notBy, ...place.herbs.notBy]) expect(findMaterial(id), id).toBeDefined()
    expect(Object.keys(names).filter((id) => !findMaterial(id))).toEqual([])
  })

  it('give every phosphate, cure, acid and accelerator of the table a name as an additive', () => {
    for (const m of materials) {
      if (m.category !== 'phosphate' && !(m.category === 'cure' && m.agent)) continue
      const known = additiveOf[m.id] !== undefined || Object.keys(m.agent ?? {}).length > 0
      expect(known, m.id).toBe(true)
    }
  })

  it('tables of tolerable errors ascend and meet at their borders', () => {
    const at = (g: number, i: number) => {
      const b = netWeightFigures.tolerable[i]!
      return b.g ?? (g * b.pct!) / 100
    }
    netWeightFigures.tolerable.forEach((b, i, all) => {
      if (i + 1 < all.length) expect(at(b.upToG, i)).toBeCloseTo(at(b.upToG, i + 1), 10)
    })
    // SI 2006/659, Schedule 2, 3.5, 4.5 and 4.6.
    expect(referencePlan.count.map((p) => [p.n, p.accept])).toEqual([
      [50, 3],
      [80, 5],
      [125, 7],
    ])
    expect(referencePlan.mean.map((p) => [p.n, p.k])).toEqual([
      [30, 0.503],
      [50, 0.379],
    ])
    expect(referencePlan.destructiveMean).toEqual({ n: 20, k: 0.64 })
  })

  it('bring only names into question that have composition rules', () => {
    const asked = new Set(recipeRules.flatMap((r) => Object.keys(r.when ?? {})))
    for (const n of reservedNames) {
      expect(Object.keys(standards)).toContain(n.id)
      expect(asked).toContain(`standard:${n.id}`)
    }
  })
})

describe('what rests on memory', () => {
  it('never passes a list or a table', () => {
    const label = judgeLabel({
      jurisdictions: ['US', 'CA', 'AU-NZ'],
      items: 3,
      noAllergenSource: [],
      kindNotNamed: [],
      list: { compoundWithoutList: [], additivesWithoutClass: [], waterLeftOutAgainstRule: false },
    })
    const memory = label.filter((f) => f.source.mark === 'from-memory')
    expect(memory.length).toBeGreaterThan(0)
    for (const f of memory) expect(f.verdict).toBe('cannot-tell')
    const table = judgeNutrition({
      jurisdiction: 'US',
      format: 'us-1993',
      unknown: [],
      rows: 14,
      fatLossUnknown: false,
    })
    expect(table.map((f) => f.verdict)).toEqual(['cannot-tell'])
  })
})
