import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { NutritionInput, NutritionOutput } from '../../src/declare/nutrition-schema.ts'
import { materials } from '../../src/materials/materials.ts'
import { figures } from '../../src/rules.ts'

const run = (input: NutritionInput) => calculations['declare.nutrition']!.run(input) as NutritionOutput
const rowOf = (o: NutritionOutput, key: string) => o.panel.find((r) => r.key === key)!
const format = (place: string, id?: string) => {
  const all = figures('nutrition')[place]!
  return all.find((f) => f.id === id) ?? all[0]!
}
const all = { fatG: 20, saturatedG: 7, carbohydrateG: 3, sugarsG: 1, proteinG: 15, fibreG: 0.5, sodiumMg: 720 }

describe('energy and salt', () => {
  // Factors of Regulation (EU) 1169/2011, Annex XIV; arithmetic by hand: 740 + 51 + 255 + 4 and 180 + 12 + 60 + 1.
  it('of fat 20, carbohydrate 3, protein 15, fibre 0.5 g is 1050 kJ and 253 kcal, each by its own factors', () => {
    const o = run({ jurisdiction: 'EU', per100g: all })
    expect(rowOf(o, 'energyKj')).toMatchObject({ per100g: 1050, declaredPer100g: '1050' })
    expect(rowOf(o, 'energyKcal')).toMatchObject({ per100g: 253, declaredPer100g: '253' })
  })

  it('counts polyols at 10 kJ and 2.4 kcal, alcohol at 29 and 7, organic acids at 13 and 3 (Annex XIV)', () => {
    const bare = { ...all, fatG: 0, saturatedG: 0, proteinG: 0, fibreG: 0, sugarsG: 0 }
    const kj = (extra: object) => {
      const o = run({ jurisdiction: 'EU', per100g: { ...bare, carbohydrateG: 0, ...extra } })
      return [rowOf(o, 'energyKj').per100g, rowOf(o, 'energyKcal').per100g]
    }
    expect(kj({ carbohydrateG: 10, polyolsG: 10 })).toEqual([100, 24])
    expect(kj({ alcoholG: 1 })).toEqual([29, 7])
    expect(kj({ organicAcidsG: 1 })).toEqual([13, 3])
  })

  it('salt is sodium × 2.5: 0.720 g of sodium is 1.8 g (Regulation (EU) 1169/2011, Annex I)', () => {
    expect(rowOf(run({ jurisdiction: 'EU', per100g: all }), 'salt')).toMatchObject({
      per100g: 1.8,
      declaredPer100g: '1.8',
    })
    const { sodiumMg: _, ...without } = all
    expect(rowOf(run({ jurisdiction: 'GB', per100g: { ...without, saltG: 1.8 } }), 'salt').declaredPer100g).toBe('1.8')
  })

  it('in the US is 4, 4 and 9: 55 g of fat 28, carbohydrate 3, protein 13 → 173.8 kcal, printed 170', () => {
    const o = run({ jurisdiction: 'US', servingG: 55, per100g: { ...all, fatG: 28, proteinG: 13 } })
    expect(rowOf(o, 'calories').perServing).toBeCloseTo(0.55 * (28 * 9 + 3 * 4 + 13 * 4), 10)
    expect(rowOf(o, 'calories').declaredPerServing).toBe('170')
    // 15.4 g of 78 g, and 396 mg of 2300 mg: daily values of the FDA page (rule of 2016).
    expect(rowOf(o, 'fat')).toMatchObject({ declaredPerServing: '15', declaredDv: '20' })
    expect(rowOf(o, 'sodium')).toMatchObject({ declaredPerServing: '400', declaredDv: '17' })
  })

  it('uses the older daily values in the older format: 15.4 g of 65 g fat is 24 %, 396 of 2400 mg sodium 17 %', () => {
    const o = run({ jurisdiction: 'US', format: 'us-1993', servingG: 55, per100g: { ...all, fatG: 28 } })
    expect(rowOf(o, 'fat').declaredDv).toBe('24')
    expect(rowOf(o, 'sodium').declaredDv).toBe('17')
    expect(rowOf(o, 'caloriesFromFat').declaredPerServing).toBe('140')
    expect(o.findings[0]?.verdict).toBe('cannot-tell')
  })

  it('holds the daily values of the rule of 2016 as the FDA page gives them', () => {
    const dv = Object.fromEntries(format('US').rows.map((r) => [r.key, r.dailyValue]))
    expect(dv).toMatchObject({
      fat: 78,
      saturated: 20,
      cholesterol: 300,
      sodium: 2300,
      carbohydrate: 275,
      fibre: 28,
      addedSugars: 50,
      vitaminD: 20,
      calcium: 1300,
      iron: 18,
      potassium: 4700,
    })
  })
})

describe('reference amounts of the US (9 CFR 317.312(b), Table 2)', () => {
  it.each([
    ['bacon', false, 15, 'seen'],
    ['bacon', true, 54, 'seen'],
    ['dried-sausage', false, 30, 'seen'],
    ['sausage', true, 75, 'from-memory'],
    ['luncheon-meat', false, 55, 'from-memory'],
  ] as const)('of %s, uncooked %s, is %d g, %s', (referenceClass, uncooked, g, mark) =>
    expect(run({ jurisdiction: 'US', servingG: 55, per100g: all, referenceClass, uncooked }).reference).toEqual({
      g,
      mark,
    }),
  )

  it('are absent where the class has no uncooked column', () =>
    expect(
      run({ jurisdiction: 'US', servingG: 30, per100g: all, referenceClass: 'snack-stick', uncooked: true }).reference,
    ).toBeUndefined())
})

const fresh = {
  jurisdiction: 'EU' as const,
  parts: [
    { kg: 80, material: 'pork-shoulder-trim' },
    { kg: 20, material: 'pork-back-fat' },
    { kg: 1.8, material: 'salt' },
  ],
}

describe('from the parts', () => {
  it('is the mass balance of the table: fat (80 × 17.99 + 20 × 88.69) / 101.8', () => {
    const o = run(fresh)
    expect(rowOf(o, 'fat').per100g).toBeCloseTo((80 * 17.99 + 20 * 88.69) / 101.8, 8)
    expect(rowOf(o, 'salt').per100g).toBeCloseTo(((80 * 0.065 + 20 * 0.011 + 1.8 * 39.1) / 101.8) * 2.5, 8)
    expect(o.complete).toBe(true)
    expect(rowOf(o, 'fat').from).toContain('Pork back fat: USDA SR28 NDB 10004')
  })

  it('loses water and fat apart: saturates go with the fat, salt and protein stay', () => {
    const o = run({ ...fresh, finishedKg: 80, fatLossKg: 5 })
    const fatKg = (80 * 17.99 + 20 * 88.69) / 100
    expect(o.waterLossKg).toBeCloseTo(101.8 - 80 - 5, 9)
    expect(rowOf(o, 'fat').per100g).toBeCloseTo(((fatKg - 5) / 80) * 100, 8)
    expect(rowOf(o, 'saturated').per100g! / rowOf(o, 'fat').per100g!).toBeCloseTo(
      (80 * 6.24 + 20 * 32.21) / (80 * 17.99 + 20 * 88.69),
      8,
    )
    expect(rowOf(o, 'protein').per100g).toBeCloseTo((80 * 17.18 + 20 * 2.92) / 80, 8)
  })

  it('is not complete where weight is lost and nobody says how much of it is fat', () => {
    const o = run({ ...fresh, lossPct: 10 })
    expect(o.complete).toBe(false)
    expect(o.findings.map((f) => f.verdict)).toContain('cannot-tell')
    expect(run({ ...fresh, lossPct: 10, fatLossKg: 0 }).complete).toBe(true)
  })

  it('takes the fibre out of carbohydrate by difference, and leaves available carbohydrate as it is', () => {
    const of = (carbohydrateIncludesFibre: boolean) =>
      run({
        jurisdiction: 'EU',
        parts: [
          {
            kg: 1,
            name: 'meal',
            composition: {
              waterPct: 10,
              proteinPct: 10,
              fatPct: 5,
              saturatedPct: 1,
              carbohydratePct: 70,
              carbohydrateIncludesFibre,
              fibrePct: 8,
              sugarsPct: 2,
              ashPct: 2,
              sodiumPct: 0.1,
            },
          },
        ],
      })
    expect(rowOf(of(true), 'carbohydrate').per100g).toBeCloseTo(62, 10)
    expect(rowOf(of(false), 'carbohydrate').per100g).toBeCloseTo(70, 10)
  })

  it('names what is not known and does not print it as nothing', () => {
    const o = run({ ...fresh, parts: [...fresh.parts, { kg: 5, material: 'pea-protein' }] })
    expect(o.complete).toBe(false)
    for (const key of ['fat', 'protein', 'salt', 'energyKj']) {
      expect(rowOf(o, key).declaredPer100g).toBeUndefined()
      expect(rowOf(o, key).missing).toContain('Pea protein')
    }
    expect(o.findings[0]).toMatchObject({ verdict: 'cannot-tell' })
    expect(o.findings[0]!.because).toMatch(/Pea protein/)
  })

  it('prints a value the unknown cannot change: a pinch of starter culture in 100 kg', () => {
    const o = run({ ...fresh, parts: [...fresh.parts, { kg: 0.02, material: 'starter-culture' }] })
    expect(rowOf(o, 'fat').missing).toEqual(['Starter culture, freeze-dried'])
    expect(rowOf(o, 'fat').declaredPer100g).toBe('32')
    expect(o.complete).toBe(true)
  })

  it('cannot complete a US panel from tables that hold no cholesterol, vitamin D, calcium, iron or potassium', () => {
    const o = run({ ...fresh, jurisdiction: 'US', servingG: 55 })
    expect(o.complete).toBe(false)
    for (const word of ['Cholesterol', 'Vitamin D', 'Calcium', 'Potassium'])
      expect(o.findings[0]!.because).toContain(word)
    const micro = { cholesterolMg: 70, transG: 0, vitaminDUg: 0.5, calciumMg: 12, ironMg: 1, potassiumMg: 250 }
    const whole = run({ ...fresh, jurisdiction: 'US', servingG: 55, per100g: micro, per100gSource: 'analysis 0117' })
    expect(whole.complete).toBe(true)
    expect(rowOf(whole, 'cholesterol')).toMatchObject({ declaredPerServing: '40', from: ['analysis 0117'] })
  })

  it('refuses a loss the parts cannot give, and says what they hold', () => {
    expect(() => run({ ...fresh, finishedKg: 30, fatLossKg: 0 })).toThrow(
      /finishedKg.*kg of water out of parts that hold/,
    )
    expect(() => run({ ...fresh, lossPct: 60, fatLossKg: 40 })).toThrow(/fatLossKg.*hold 32\.13 kg of fat/)
    expect(() => run({ ...fresh, finishedKg: 90, fatLossKg: 40 })).toThrow(/more than the whole loss/)
    expect(() => run({ ...fresh, finishedKg: 120 })).toThrow(/more than the parts together/)
    expect(() => run({ ...fresh, jurisdiction: 'US' })).toThrow(/servingG/)
    expect(() => run({ jurisdiction: 'EU' })).toThrow(/neither parts nor per100g/)
    expect(() => run({ jurisdiction: 'EU', parts: [{ kg: 1, material: 'no-such' }] })).toThrow(
      /which the table does not hold/,
    )
    expect(() => run({ jurisdiction: 'EU', per100g: { ...all, saturatedG: 21 } })).toThrow(/saturatedG/)
    expect(() => run({ jurisdiction: 'EU', per100g: { ...all, saltG: 1 } })).toThrow(/one of the two/)
  })

  it('is the same for any batch size, and every value lies between its ends', () => {
    const ids = materials.map((m) => m.id)
    fc.assert(
      fc.property(
        fc.array(fc.record({ material: fc.constantFrom(...ids), kg: fc.double({ min: 0.01, max: 50, noNaN: true }) }), {
          minLength: 1,
          maxLength: 12,
        }),
        fc.constantFrom('EU', 'US'),
        (parts, jurisdiction) => {
          const base = { jurisdiction, servingG: 55 } as const
          const one = run({ ...base, parts })
          const ten = run({ ...base, parts: parts.map((p) => ({ ...p, kg: p.kg * 10 })) })
          one.panel.forEach((r, i) => {
            expect(r.per100gLow).toBeGreaterThanOrEqual(-1e-9)
            expect(r.per100gHigh).toBeGreaterThanOrEqual(r.per100gLow - 1e-9)
            expect(ten.panel[i]!.per100gHigh).toBeCloseTo(r.per100gHigh, 4)
            if (r.missing.length === 0) expect(r.per100g).toBeDefined()
          })
        },
      ),
      { numRuns: 1000 },
    )
  })
})
