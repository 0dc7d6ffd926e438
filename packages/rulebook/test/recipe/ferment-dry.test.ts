import { fermentDryOf } from '@forcemeat/craft/recipe/ferment-dry/ferment-dry'
import { recipeSchema, type Recipe } from '@forcemeat/craft/recipe/schema'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findRule } from '../../src/catalogue.ts'
import { hoursAllowed } from '../../src/ferment/hours-allowed.ts'
import { judgeFermentAndDry } from '../../src/recipe/ferment-dry.ts'

const make = (
  over: Partial<Recipe> = {},
  sugar: Recipe['additions'] = [{ material: 'dextrose-monohydrate', pct: 0.7 }],
) =>
  recipeSchema.parse({
    name: 'Dry sausage, coarse',
    kind: 'dried',
    smoked: false,
    readyToEat: true,
    meat: [
      { material: 'pork-shoulder-trim', pct: 75 },
      { material: 'pork-back-fat', pct: 25 },
    ],
    additions: [
      { material: 'salt', pct: 2.4 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
      { material: 'starter-culture', pct: 0.02 },
      ...sugar,
    ],
    casing: { calibreMm: 60 },
    ferment: { targetPh: 5.2, startPh: 5.8, stages: [{ hours: 60, tempC: 24, rhPct: 92 }] },
    dry: { lossPct: 24, stages: [{ days: 40, tempC: 14, rhPct: 80 }] },
    ...over,
  })
const judged = (recipe: Recipe, places: readonly string[] = ['US', 'CA']) =>
  judgeFermentAndDry(recipe, fermentDryOf({ recipe, meatKg: 10 }), places)
const one = (recipe: Recipe, rule: string, places?: readonly string[]) =>
  judged(recipe, places).find((f) => f.rule === rule)

describe('sugar and acidulant of a planned fermentation', () => {
  it('too little dextrose for the target is said as advice: 0.05 % cannot bring 0.6 pH', () => {
    const f = one(make({}, [{ material: 'dextrose-monohydrate', pct: 0.05 }]), 'ferment.plan.reaches-target')!
    // 0.45 g/kg of dextrose and 1 g/kg of the lean's own over 55 mmol/(kg pH) of lean: a fall of at most 0.35.
    expect(f).toMatchObject({ verdict: 'fail', weight: 'advice' })
    expect(f.because).toMatch(/too little acid for pH 5\.2/)
    expect(f.settle).toMatch(/Puolanne & Kivikari 2000.*from-memory/)
  })

  it('a band that lies under the target is still no pass: a measured pH decides', () => {
    const f = one(make({ ferment: { targetPh: 5.3, startPh: 5.8 } }), 'ferment.plan.reaches-target')!
    expect(f).toMatchObject({ verdict: 'cannot-tell', weight: 'advice' })
    expect(f.because).toMatch(/all of it at or under pH 5\.3, and still only a band/)
  })

  it('glucono-delta-lactone counts: 0.5 % of it with 0.5 % dextrose sours past 5.2', () => {
    const plain = one(make(), 'ferment.plan.overshoots')
    const both = one(
      make({}, [
        { material: 'dextrose-monohydrate', pct: 0.7 },
        { material: 'glucono-delta-lactone', pct: 0.5 },
      ]),
      'ferment.plan.overshoots',
    )!
    expect(both.measured!).toBeLessThan(plain?.measured ?? 5.2)
    expect(both.because).toMatch(/glucono-delta-lactone/)
    expect(both.weight).toBe('advice')
  })

  it('more sugar than is wanted overshoots: 1.5 % dextrose for pH 5.2', () => {
    const f = one(make({}, [{ material: 'dextrose-anhydrous', pct: 1.5 }]), 'ferment.plan.overshoots')!
    expect(f.because).toMatch(/under the pH 5\.2 it is to be ended at/)
    expect(f.settle).toMatch(/less sugar/)
  })

  it.each([
    ['the pH of the mix', make({ ferment: { targetPh: 5.2 } }), /pH of the mix is not known/, /calibrated that day/],
    ['sugar and acidulant', make({}, []), /neither sugar nor acidulant/, /that goes in/],
    ['the pH to reach', make({ kind: 'fermented', ferment: undefined }), /at which pH/, /pH to reach/],
  ])('without %s it cannot be told, and what would settle it is said', (_, recipe, because, settle) => {
    const f = one(recipe, 'ferment.plan.reaches-target')!
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(because)
    expect(f.settle).toMatch(settle)
  })

  it('milk sugar counts in full only for the lowest end', () => {
    const end = (material: string) => {
      const { acid } = fermentDryOf({ recipe: make({}, [{ material, pct: 0.5 }]), meatKg: 10 })
      if (!acid?.known) throw new Error('not known')
      return acid.endPh
    }
    expect(end('lactose').high).toBeGreaterThan(end('dextrose-anhydrous').high)
    expect(end('lactose').high).toBeCloseTo(5.8, 9)
  })
})

describe('hours a planned fermentation has', () => {
  it.each([
    // AMIF 1997: 1200 °F·h under 90 °F, 1000 to 100 °F, 900 above, over T − 60; printed hours from memory, arithmetic checks.
    ['US', (75 - 32) / 1.8, 80],
    ['US', (80 - 32) / 1.8, 60],
    ['US', (85 - 32) / 1.8, 48],
    ['US', (90 - 32) / 1.8, 100 / 3],
    ['US', (100 - 32) / 1.8, 25],
    ['US', (110 - 32) / 1.8, 18],
    // CFIA manual ch. 4, 4.16: 665 °C·h under 33 °C, 555 to 37 °C, 500 above, over T − 15.6.
    ['CA', 24, 665 / 8.4],
    ['CA', 32, 665 / 16.4],
    ['CA', 33, 555 / 17.4],
    ['CA', 37, 555 / 21.4],
    ['CA', 38, 500 / 22.4],
  ])('%s at %f °C: %f h', (place, tempC, hours) => {
    const allowed = hoursAllowed([{ hours: 1, tempC }]).find((a) => a.jurisdiction === place)!
    expect(allowed.hoursAtHighest).toBeCloseTo(hours, 6)
  })

  it('a plan that runs over says at which hour: 24 °C 10 h, 30 °C 10 h, 37 °C 18 h uses 555 °C·h up in hour 35.3 (CFIA companion example)', () => {
    const ca = hoursAllowed([
      { hours: 10, tempC: 24 },
      { hours: 10, tempC: 30 },
      { hours: 18, tempC: 37 },
    ]).find((a) => a.jurisdiction === 'CA')!
    expect(ca.planned).toBeCloseTo(613.2, 9)
    expect(ca.usedUpAtHour).toBeCloseTo(20 + (555 - 84 - 144) / 21.4, 9)
  })

  it('says the hours beside the plan, as advice, and never a pass', () => {
    const f = one(make(), 'ca.ferment.planned-hours')!
    expect(f).toMatchObject({ verdict: 'cannot-tell', weight: 'advice', jurisdiction: 'CA' })
    expect(f.because).toBe('at 24 °C: at most 79.2 h to pH 5.3 (665 °C·h)')
  })

  it('below the base nothing is counted; a limit from memory is said to be; a target above 5.3 never stops the count', () => {
    const cold = make({ ferment: { targetPh: 5.2, startPh: 5.8, stages: [{ hours: 99, tempC: 14 }] } })
    expect(one(cold, 'ca.ferment.planned-hours')!.because).toMatch(/no degree-hours are counted/)
    const hot = make({ ferment: { targetPh: 5.4, startPh: 5.8, stages: [{ hours: 40, tempC: 36 }] } })
    const us = one(hot, 'us.ferment.planned-hours')!
    expect(us.because).toMatch(/the limit is from memory|this limit is from memory/)
    expect(us.because).toMatch(/ended at pH 5\.4 the count never stops/)
    expect(us.because).toMatch(/uses them up at hour/)
  })

  it('shows all published systems where the place has none; asks for stages where the recipe has none', () => {
    expect(judged(make(), ['EU']).filter((f) => f.rule.endsWith('planned-hours'))).toHaveLength(2)
    const f = one(make({ ferment: { targetPh: 5.2, startPh: 5.8 } }), 'us.ferment.planned-hours')!
    expect(f).toMatchObject({ verdict: 'cannot-tell', settle: expect.stringContaining('stages') as string })
  })

  it('degree-hours of a plan do not depend on how a stage is cut in two (property)', () => {
    const stage = fc.record({
      hours: fc.double({ min: 0.5, max: 200, noNaN: true }),
      tempC: fc.double({ min: 0, max: 45, noNaN: true }),
    })
    fc.assert(
      fc.property(fc.array(stage, { minLength: 1, maxLength: 5 }), (stages) => {
        const cut = stages.flatMap((s) => [
          { ...s, hours: s.hours / 3 },
          { ...s, hours: (2 * s.hours) / 3 },
        ])
        hoursAllowed(stages).forEach((a, i) => {
          const b = hoursAllowed(cut)[i]!
          expect(b.planned).toBeCloseTo(a.planned, 6)
          if (a.usedUpAtHour !== undefined && a.planned > a.limit + 1e-6)
            expect(b.usedUpAtHour).toBeCloseTo(a.usedUpAtHour, 6)
        })
      }),
    )
  })
})

describe('targets and storage of a planned drying', () => {
  const storage = (ph: number | undefined, aw: number | undefined) =>
    one(
      make({
        ferment: ph === undefined ? undefined : { targetPh: ph, startPh: 5.8 },
        dry: {
          lossPct: 24,
          ...(aw === undefined ? {} : { targetAw: aw }),
          stages: [{ days: 40, tempC: 14, rhPct: 80 }],
        },
      }),
      'dry.plan.storage',
    )!

  it('pH 5.2 with aw 0.95 is a published shelf-stable combination (Leistner & Rödel, quoted in FSIS training); 5.3 with 0.95 is not', () => {
    expect(storage(5.2, 0.95).because).toMatch(
      /if pH 5\.2 and water activity 0\.95 are measured.*without refrigeration/,
    )
    expect(storage(5.3, 0.95).because).toMatch(/meet no published combination.*at or below 10 °C/)
    expect(storage(5.3, 0.96).because).toMatch(/very perishable.*at or below 5 °C/)
  })

  it('aw under 0.91 alone is one (historic USDA criteria); a target alone that decides nothing says so; never a pass', () => {
    expect(storage(undefined, 0.9).because).toMatch(/without refrigeration/)
    expect(storage(5.1, undefined).because).toMatch(/alone does not tell the class/)
    expect(storage(undefined, undefined).because).toMatch(/names no pH and no water activity/)
    for (const f of [storage(5.2, 0.95), storage(undefined, 0.9)])
      expect(f).toMatchObject({ verdict: 'cannot-tell', weight: 'advice' })
  })

  it('a loss and a moisture to protein that do not agree are named, by the balance of water', () => {
    const recipe = make({
      dry: { lossPct: 24, targetMoistureToProtein: 1, stages: [{ days: 40, tempC: 14, rhPct: 80 }] },
    })
    const f = one(recipe, 'dry.plan.targets-agree')!
    const { drying } = fermentDryOf({ recipe, meatKg: 10 })
    if (!drying?.known) throw new Error('not known')
    const { waterPct, proteinPct } = drying.course.composition
    expect(f.limit).toBeCloseTo(waterPct - proteinPct, 9)
    expect(drying.atLoss.moistureToProtein).toBeCloseTo((waterPct - 24) / proteinPct, 9)
    const agreed = make({
      dry: {
        lossPct: 24,
        targetMoistureToProtein: drying.atLoss.moistureToProtein,
        stages: [{ days: 40, tempC: 14, rhPct: 80 }],
      },
    })
    expect(one(agreed, 'dry.plan.targets-agree')).toBeUndefined()
  })

  it.each([
    ['casing', make({ casing: undefined }), /names no casing/],
    ['stages', make({ dry: { lossPct: 24 } }), /no drying stages/],
    ['drying at all', make({ dry: undefined }), /how far it is dried/],
  ])('without %s what is missing is named', (_, recipe, because) => {
    expect(one(recipe, 'dry.plan.targets-agree')!.because).toMatch(because)
  })
})

it('has nothing to say of what is neither fermented nor dried', () => {
  expect(judged(make({ kind: 'cooked', ferment: undefined, dry: undefined }))).toEqual([])
})

it('no finding on a plan is a pass, all are advice, and each stands in the catalogue (property)', () => {
  const pct = (max: number) => fc.double({ min: 0, max, noNaN: true })
  fc.assert(
    fc.property(
      pct(3),
      pct(2),
      fc.double({ min: 5, max: 7, noNaN: true }),
      fc.double({ min: 3.9, max: 6.4, noNaN: true }),
      pct(40),
      (sugar, gdl, startPh, targetPh, tempC) => {
        const recipe = make({ ferment: { targetPh, startPh, stages: [{ hours: 60, tempC }] } }, [
          { material: 'sugar', pct: sugar },
          { material: 'glucono-delta-lactone', pct: gdl },
        ])
        for (const f of judged(recipe)) {
          expect(f.verdict).not.toBe('pass')
          expect(f.weight).toBe('advice')
          expect(findRule(f.rule)).toBeDefined()
          if (f.verdict === 'cannot-tell') expect(f.settle).toBeTruthy()
        }
      },
    ),
    { numRuns: 60 },
  )
})
