import { allergens } from '@forcemeat/craft/materials/schema'
import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import { describe, expect, it } from 'vitest'
import { additiveOf, additives, compound, names } from '../../data/declare/additives.ts'
import { allergenLists, allergenWords } from '../../data/declare/allergens.ts'
import { labellingFigures } from '../../data/declare/labelling.ts'
import { netWeightFigures, referencePlan } from '../../data/declare/net-weight.ts'
import { nutritionFigures, nutritionRules } from '../../data/declare/nutrition.ts'
import { reservedNames } from '../../data/declare/reserved-names.ts'
import { qualifyingRules, qualifyingWords } from '../../data/declare/qualifying-words.ts'
import { judgeDates } from '../../src/declare/dates.ts'
import { judgeLabel } from '../../src/declare/label.ts'
import { judgeLabelType } from '../../src/declare/label-type.ts'
import { judgeNetWeight } from '../../src/declare/net-weight.ts'
import { judgeNutrition } from '../../src/declare/nutrition.ts'
import { judgeQualifying } from '../../src/declare/qualifying.ts'
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

  it('never passes a word that goes with a name, wherever it stands, and every word has its rule', () => {
    for (const { id, place } of qualifyingWords) {
      const rule = qualifyingRules[id]!
      expect(rule.jurisdiction).toBe(place)
      const [found] = judgeQualifying({ words: [{ id, due: true, said: 'in the name', claimed: false }] })
      expect(found!.verdict === 'pass', id).toBe(rule.values[0]!.source.mark !== 'from-memory')
    }
  })

  it('never passes heights of letters or net quantities of Canada and the Code, nor any net quantity by Handbook 133', () => {
    for (const place of ['CA', 'AU-NZ'] as const)
      for (const f of judgeLabelType({
        place,
        least: { xHeightMm: 1.6, netMm: 4.8 },
        texts: [{ what: 'list', mm: 5 }],
        netMm: 20,
        unplaced: [],
        missingMm: 0,
      }).filter((x) => x.rule !== 'all.label.fits'))
        expect(f.verdict).toBe('cannot-tell')
    const net = judgeNetWeight({
      jurisdictions: ['US', 'CA', 'AU-NZ'],
      nominalG: 400,
      n: 48,
      averageG: 450,
      averageLowG: 449,
      averageHighG: 451,
      sdG: 1,
      allWeighed: true,
      lightestG: 440,
      mavG: 28.3,
      belowMav: 0,
      tOverRootN: () => 0.291,
    })
    expect(net.map((f) => [f.rule, f.verdict])).toEqual([
      ['us.net-weight', 'cannot-tell'],
      ['us.net-weight.mav', 'cannot-tell'],
      ['ca.net-weight', 'cannot-tell'],
      ['au-nz.net-weight', 'cannot-tell'],
    ])
  })

  it('asks the places that were read for their own dates: form and storage in Canada, use by and storage in the Code', () => {
    const of = (jurisdiction: 'CA' | 'AU-NZ', more: object = {}) =>
      judgeDates({
        jurisdiction,
        storage: 'chilled',
        readyToEat: true,
        shelfLifeDays: 20,
        validation: 'trial',
        ...more,
      })
        .filter((f) => f.rule.startsWith(jurisdiction.toLowerCase()))
        .map((f) => [f.rule, f.verdict])
    expect(of('CA')).toEqual([
      ['ca.dates.durable-life', 'pass'],
      ['ca.dates.storage', 'pass'],
    ])
    expect(of('AU-NZ')).toEqual([
      ['au-nz.dates.use-by', 'cannot-tell'],
      ['au-nz.dates.storage', 'cannot-tell'],
    ])
    expect(of('AU-NZ', { highlyPerishable: true, storageC: 4 })).toEqual([
      ['au-nz.dates.use-by', 'pass'],
      ['au-nz.dates.storage', 'pass'],
    ])
    expect(of('AU-NZ', { storage: 'frozen', storageC: -18 })).toEqual([['au-nz.dates.storage', 'pass']])
    expect(of('AU-NZ', { storage: 'ambient' })).toEqual([])
  })
})
