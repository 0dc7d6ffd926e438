import { ingoing } from '@forcemeat/craft/cure/ingoing'
import { describe, expect, it } from 'vitest'
import { judgeRecipe } from '../../src/recipe/judge-recipe.ts'
import { recipeFacts } from '../../src/recipe/facts.ts'
import type { Case, Measure } from '../../src/rule.ts'

const cooked = recipeFacts({ kind: 'cooked', smoked: true, readyToEat: true, route: 'comminuted' }, ['pork'])
const known = (figures: Record<string, number>): Record<string, Measure> =>
  Object.fromEntries(Object.entries(figures).map(([k, value]) => [k, { value }]))

const judge = (figures: Record<string, number>, over: Partial<Case> = {}) =>
  judgeRecipe({
    facts: cooked,
    measures: known({ nitratePpm: 0, ...figures }),
    on: '2026-01-01',
    jurisdictions: ['US'],
    ...over,
  })
const of = (found: ReturnType<typeof judge>, rule: string) => found.find((f) => f.rule === rule)

describe('US curing limits, 9 CFR 424.21(c), both sides of each', () => {
  it.each([
    ['comminuted', 'nitritePpm', 'us.424.21.nitrite.comminuted', 156.25],
    ['pumped', 'nitritePpm', 'us.424.21.nitrite.pumped', 200],
    ['immersed', 'nitritePpm', 'us.424.21.nitrite.immersed', 200],
    ['dry-rubbed', 'nitritePpm', 'us.424.21.nitrite.dry-rubbed', 625],
    ['comminuted', 'nitratePpm', 'us.424.21.nitrate.comminuted', 1718.75],
    ['pumped', 'nitratePpm', 'us.424.21.nitrate.pickle', 700],
    ['immersed', 'nitratePpm', 'us.424.21.nitrate.pickle', 700],
    ['dry-rubbed', 'nitratePpm', 'us.424.21.nitrate.dry-rubbed', 2187.5],
    ['comminuted', 'acceleratorSaltsPpm', 'us.424.21.accelerator.salts', 546.875],
    ['comminuted', 'acceleratorAcidsPpm', 'us.424.21.accelerator.acids', 468.75],
  ])('%s, %s: %s at %f', (route, measure, rule, max) => {
    const facts = { ...cooked, route, bacon: false }
    const at = (value: number) => of(judge({ nitritePpm: 100, [measure]: value }, { facts }), rule)?.verdict
    expect(at(max)).toBe('pass')
    expect(at(max + 0.001)).toBe('fail')
  })

  it('passes 1/4 oz to 100 lb and 4 oz of a 6.25 % cure to 100 lb, as reckoned', () => {
    for (const [kg, pct] of [
      [0.25 * 0.028349523125, 100],
      [4 * 0.028349523125, 6.25],
    ] as const) {
      const found = ingoing({
        route: 'comminuted',
        basisKg: 45.359237,
        agents: [{ kg, composition: { sodiumNitritePct: pct } }],
      })
      expect(of(judge({ nitritePpm: found.nitritePpm }), 'us.424.21.nitrite.comminuted')?.verdict).toBe('pass')
    }
  })

  it('counts potassium nitrite by the weight of the salt, as the one weight limit of the chart does', () => {
    const found = ingoing({
      route: 'comminuted',
      basisKg: 1,
      agents: [{ kg: 0.00016, composition: { potassiumNitritePct: 100 } }],
    })
    expect(found.nitritePpm).toBeLessThan(156.25)
    const verdict = of(
      judge({ nitritePpm: found.nitritePpm, nitriteSaltsPpm: found.nitriteSaltsPpm }),
      'us.424.21.nitrite.comminuted',
    )?.verdict
    expect(verdict).toBe('fail')
  })

  it('cannot tell where the scale spreads the dose over the limit', () => {
    const found = judge({}, { measures: { nitratePpm: { value: 0 }, nitritePpm: { value: 150, low: 120, high: 180 } } })
    expect(of(found, 'us.424.21.nitrite.comminuted')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/both sides/),
    })
  })

  it('gives the salt as weighed the interval of the scale, in proportion', () => {
    const measures = {
      nitratePpm: { value: 0 },
      nitritePpm: { value: 150, low: 140, high: 160 },
      nitriteSaltsPpm: { value: 150 },
    }
    expect(of(judge({}, { measures }), 'us.424.21.nitrite.comminuted')?.verdict).toBe('cannot-tell')
    const unknown = { ...measures, nitritePpm: { missing: 'the scale is past its check' } }
    const facts = { ...cooked, cured: true }
    expect(of(judge({}, { measures: unknown, facts }), 'us.424.21.nitrite.comminuted')?.because).toBe(
      'the scale is past its check',
    )
  })

  it('advises 120 ppm in cured products sold refrigerated (FSIS Directive 7620.3 p. 12), both sides', () => {
    expect(of(judge({ nitritePpm: 120 }), 'us.7620.nitrite.refrigerated')).toMatchObject({
      verdict: 'pass',
      weight: 'advice',
    })
    expect(of(judge({ nitritePpm: 119.9 }), 'us.7620.nitrite.refrigerated')?.verdict).toBe('fail')
  })

  it('holds what could be left against 200 ppm in the finished product: known by analysis or by the finished weight, else not', () => {
    const rule = 'us.424.21.nitrite.finished'
    expect(of(judge({ nitritePpm: 156 }), rule)?.verdict).toBe('cannot-tell')
    expect(of(judge({ nitritePpm: 156, finishedPctOfMeatBlock: 100 }), rule)).toMatchObject({ verdict: 'pass' })
    expect(of(judge({ nitritePpm: 156, finishedPctOfMeatBlock: 70 }), rule)?.verdict).toBe('cannot-tell')
    expect(of(judge({ nitritePpm: 156, residualNitritePpm: 30 }), rule)?.verdict).toBe('pass')
    expect(of(judge({ nitritePpm: 156, residualNitritePpm: 201 }), rule)?.verdict).toBe('fail')
  })

  it('takes the smallest finished weight there may be, where it is given as an interval', () => {
    const measures = {
      nitritePpm: { value: 150 },
      nitratePpm: { value: 0 },
      finishedPctOfMeatBlock: { value: 80, low: 70, high: 90 },
    }
    expect(of(judge({}, { measures }), 'us.424.21.nitrite.finished')?.verdict).toBe('cannot-tell')
  })

  it('finds an accelerator without a cure, and a cure in food for infants', () => {
    expect(of(judge({ nitritePpm: 0, acceleratorSaltsPpm: 500 }), 'us.424.21.accelerator.needs-cure')?.verdict).toBe(
      'fail',
    )
    expect(
      of(judge({ nitritePpm: 100 }, { facts: { ...cooked, infantFood: true } }), 'us.424.21.infant')?.verdict,
    ).toBe('fail')
  })
})

describe('bacon, 9 CFR 424.22(b)', () => {
  const bacon = { kind: 'cooked', smoked: true, readyToEat: false, bacon: true, pork: true, toBeFried: true }
  const nitrite = (route: string, value: number, more: Case['facts'] = {}) =>
    judge(
      { nitritePpm: value },
      { facts: { ...bacon, route, reducedNitriteScheme: false, lacticCulture: false, ...more } },
    )

  it.each([
    [119.4, 'fail'],
    [120, 'pass'],
    [(148 * 68.995) / 85.103, 'pass'],
    [120.6, 'fail'],
  ])('pumped: shall be used at 120 ppm (148 as KNO2): %f gives %s', (value, verdict) => {
    expect(of(nitrite('pumped', value), 'us.424.22.bacon.pumped')?.verdict).toBe(verdict)
  })

  it.each([
    [39.4, 'fail'],
    [(49 * 68.995) / 85.103, 'pass'],
    [(99 * 68.995) / 85.103, 'pass'],
    [80.6, 'fail'],
  ])('pumped with culture and sugar: 40 to 80 ppm (49 to 99 as KNO2): %f gives %s', (value, verdict) => {
    expect(of(nitrite('pumped', value, { lacticCulture: true }), 'us.424.22.bacon.pumped.culture')?.verdict).toBe(
      verdict,
    )
  })

  it('the three pumped schemes are alternatives of one another', () => {
    const found = nitrite('pumped', 100, { reducedNitriteScheme: true }).filter(
      (f) => f.anyOf === 'us.424.22.bacon.pumped',
    )
    expect(found.map((f) => f.verdict).toSorted()).toEqual(['fail', 'pass'])
  })

  it.each([
    ['immersed', 120, 120.6],
    ['dry-rubbed', (246 * 68.995) / 85.103, 200.6],
  ])('%s: at most its figure, in whole ppm', (route, within, over) => {
    expect(of(nitrite(route, within), `us.424.22.bacon.${route}`)?.verdict).toBe('pass')
    expect(of(nitrite(route, over), `us.424.22.bacon.${route}`)?.verdict).toBe('fail')
  })

  it('asks 550 ppm of accelerator in pumped bacon, and no nitrate in any', () => {
    const facts = { ...bacon, route: 'pumped' }
    expect(
      of(judge({ nitritePpm: 120, acceleratorSaltsPpm: 550 }, { facts }), 'us.424.22.bacon.pumped.accelerator')
        ?.verdict,
    ).toBe('pass')
    expect(
      of(judge({ nitritePpm: 120, acceleratorSaltsPpm: 500 }, { facts }), 'us.424.22.bacon.pumped.accelerator')
        ?.verdict,
    ).toBe('fail')
    expect(of(judge({ nitritePpm: 120 }, { facts }), 'us.424.22.bacon.pumped.accelerator')?.verdict).toBe('cannot-tell')
    expect(of(judge({ nitritePpm: 120, nitratePpm: 1 }, { facts }), 'us.424.21.nitrate.bacon')?.verdict).toBe('fail')
    expect(of(judge({ nitritePpm: 120 }, { facts }), 'us.424.21.nitrate.bacon')?.verdict).toBe('pass')
  })

  it('keeps the limits of bacon and of all else apart, and asks where it is not said which', () => {
    expect(nitrite('pumped', 120).some((f) => f.rule === 'us.424.21.nitrite.pumped')).toBe(false)
    expect(
      of(
        judge({ nitritePpm: 120 }, { facts: { ...bacon, route: 'pumped', bacon: undefined } }),
        'us.424.21.nitrite.pumped',
      )?.because,
    ).toMatch(/whether it is bacon/)
  })
})

describe('home curing, 21 CFR 172.170 and 172.175: limits on the finished product', () => {
  const home = (figures: Record<string, number>) =>
    judge({ nitritePpm: 150, finishedPctOfMeatBlock: 100, ...figures }, { jurisdictions: ['US-home'] })
  it('cannot tell from what went in, only from an analysis', () => {
    expect(of(home({}), 'us-home.172.nitrite')).toMatchObject({
      verdict: 'cannot-tell',
      settle: expect.stringMatching(/analysis/),
    })
  })
  it('200 ppm nitrite and 500 ppm nitrate, both sides', () => {
    expect(of(home({ residualNitritePpm: 200 }), 'us-home.172.nitrite')?.verdict).toBe('pass')
    expect(of(home({ residualNitritePpm: 200.1 }), 'us-home.172.nitrite')?.verdict).toBe('fail')
    expect(of(home({ residualNitratePpm: 500 }), 'us-home.172.nitrate')?.verdict).toBe('pass')
    expect(of(home({ residualNitratePpm: 500.1 }), 'us-home.172.nitrate')?.verdict).toBe('fail')
  })
})

describe('EU and GB: Regulation (EC) 1333/2008 as salt, Regulation (EU) 2023/2108 as ion from 9 October 2025', () => {
  const place = (jurisdiction: string, nitritePpm: number, on: string, facts: Case['facts'] = cooked) =>
    judge({ nitritePpm }, { jurisdictions: [jurisdiction], on, facts })

  it('on 8 October 2025 holds 150 mg/kg NaNO2, both sides', () => {
    const rule = 'eu.1333.nitrite.08.3.2'
    expect(of(place('EU', 150, '2025-10-08'), rule)).toMatchObject({ verdict: 'pass', unit: 'mg/kg', limit: 150 })
    expect(of(place('EU', 150.1, '2025-10-08'), rule)?.verdict).toBe('fail')
    expect(place('EU', 150, '2025-10-08').some((f) => f.rule.startsWith('eu.2108'))).toBe(false)
  })

  it('on 9 October 2025 holds 80 mg/kg as ion: 150 NaNO2 (100.0 as ion) fails, and the old row is gone', () => {
    const found = place('EU', 150, '2025-10-09')
    expect(of(found, 'eu.2108.nitrite.08.3.2')).toMatchObject({
      verdict: 'fail',
      limit: 80,
      inForce: { from: '2025-10-09' },
    })
    expect(of(found, 'eu.2108.nitrite.08.3.2')!.measured).toBeCloseTo(100.02, 2)
    expect(of(found, 'eu.1333.nitrite.08.3.2')).toBeUndefined()
  })

  it('20 g/kg of 0.6 % curing salt (120 NaNO2, 80.01 as ion) is not over 80; 120.2 is', () => {
    expect(of(place('EU', 120, '2026-01-01'), 'eu.2108.nitrite.08.3.2')?.verdict).toBe('pass')
    expect(of(place('EU', 120.2, '2026-01-01'), 'eu.2108.nitrite.08.3.2')?.verdict).toBe('fail')
  })

  it('products not heat-treated: 80 as ion is known second hand only, so it can fail and never pass', () => {
    const dried = recipeFacts({ kind: 'dried', smoked: false, readyToEat: true, route: 'comminuted' }, ['pork'])
    expect(of(place('EU', 100, '2026-01-01', dried), 'eu.2108.nitrite.08.3.1')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/second hand/),
    })
    expect(of(place('EU', 150, '2026-01-01', dried), 'eu.2108.nitrite.08.3.1')?.verdict).toBe('fail')
  })

  it('2.5 g/kg of 6.25 % cure (156.25 NaNO2, 104.2 as ion): EU fails, GB fails, US and Canada pass', () => {
    const found = judge({ nitritePpm: 156.25 }, { jurisdictions: ['EU', 'GB', 'US', 'CA'] })
    expect(of(found, 'eu.2108.nitrite.08.3.2')?.verdict).toBe('fail')
    expect(of(found, 'gb.1333.nitrite.08.3.2')?.verdict).toBe('fail')
    expect(of(found, 'us.424.21.nitrite.comminuted')?.verdict).toBe('pass')
    expect(of(found, 'ca.cfia.curing')?.verdict).toBe('pass')
    expect(of(found, 'ca.identity.cured')?.verdict).toBe('pass')
  })

  it('keeps 150 as NaNO2 in GB after October 2025, both sides', () => {
    expect(of(place('GB', 150, '2026-01-01'), 'gb.1333.nitrite.08.3.2')?.verdict).toBe('pass')
    expect(of(place('GB', 150.1, '2026-01-01'), 'gb.1333.nitrite.08.3.2')?.verdict).toBe('fail')
  })

  it.each([
    ['2025-10-08', 'eu.1333.nitrite.08.3.2-sterilised', 100, 100.1, 'pass'],
    ['2025-10-09', 'eu.2108.nitrite.08.3.2-sterilised', (55 * 68.995) / 46.005, 82.6, 'cannot-tell'],
  ])('sterilised (Fo above 3) on %s: %s', (on, rule, within, over, verdict) => {
    const facts = { ...cooked, sterilised: true }
    expect(of(place('EU', within, on, facts), rule)?.verdict).toBe(verdict)
    expect(of(place('EU', over, on, facts), rule)?.verdict).toBe('fail')
  })

  it('never passes the residual, whose limit is from memory, and says what to read', () => {
    const found = judge({ nitritePpm: 100, residualNitritePpm: 10 }, { jurisdictions: ['EU'] })
    expect(of(found, 'eu.2108.nitrite-residual.08.3.2')).toMatchObject({
      verdict: 'cannot-tell',
      settle: expect.stringMatching(/2023\/2108/),
    })
  })

  it('0.15 g/kg KNO3 (126.1 as NaNO3, 92.0 as ion): within 150 before; after, the limit is from memory and cannot tell', () => {
    const facts = recipeFacts({ kind: 'dried', smoked: false, readyToEat: true, route: 'comminuted' }, ['pork'])
    const nitrate = ingoing({
      route: 'comminuted',
      basisKg: 1,
      agents: [{ kg: 0.00015, composition: { potassiumNitratePct: 100 } }],
    })
    const figures = { nitritePpm: 100, nitratePpm: nitrate.nitratePpm }
    expect(
      of(judge(figures, { facts, jurisdictions: ['EU'], on: '2025-10-08' }), 'eu.1333.nitrate.08.3.1')?.verdict,
    ).toBe('pass')
    expect(of(judge(figures, { facts, jurisdictions: ['EU'] }), 'eu.2108.nitrate.08.3.1')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/92 mg\/kg.*at most 90/),
    })
  })

  it('has no nitrate in heat-treated products, and sends fresh and traditional products to their own rows', () => {
    expect(
      of(judge({ nitritePpm: 100, nitratePpm: 10 }, { jurisdictions: ['GB'] }), 'gb.1333.nitrate.08.3.2')?.verdict,
    ).toBe('fail')
    const fresh = recipeFacts({ kind: 'fresh', smoked: false, readyToEat: false, route: 'comminuted' }, ['pork'])
    expect(of(place('EU', 100, '2026-01-01', fresh), 'eu.1333.preparations')?.verdict).toBe('cannot-tell')
    expect(of(place('EU', 100, '2026-01-01', { ...cooked, traditional: true }), 'eu.1333.traditional')?.verdict).toBe(
      'cannot-tell',
    )
  })
})

describe('traditional products, category 08.3.4 as read in SI 2007/1778 Sch. 1 and Regulation (EC) 1333/2008', () => {
  const as = (row: string, figures: Record<string, number>, jurisdiction: string, on: string) =>
    judge(
      { nitritePpm: 100, ...figures },
      {
        facts: {
          ...recipeFacts(
            { kind: 'dried', smoked: true, readyToEat: true, route: 'dry-rubbed', standards: [`eu.08.3.4.${row}`] },
            ['pork'],
          ),
        },
        jurisdictions: [jurisdiction],
        on,
      },
    )

  it.each([
    ['wiltshire-bacon', 'residualNitritePpm', 'nitriteLeft', 175],
    ['wiltshire-ham', 'residualNitritePpm', 'nitriteLeft', 100],
    ['cured-tongue', 'residualNitratePpm', 'nitrateLeft', 10],
    ['rohschinken', 'residualNitritePpm', 'nitriteLeft', 50],
    ['dry-cured-ham', 'residualNitratePpm', 'nitrateLeft', 250],
    ['named-salami', 'nitritePpm', 'nitriteAdded', 180],
    ['rohwurst', 'nitratePpm', 'nitrateAdded', 300],
  ])('%s: %s, %s at most %i, both sides, in GB and in the EU until 8 October 2025', (row, measure, key, max) => {
    for (const [place, on] of [
      ['GB', '2026-01-01'],
      ['EU', '2025-10-08'],
    ] as const) {
      const at = (value: number) =>
        of(as(row, { [measure]: value }, place, on), `${place.toLowerCase()}.08.3.4.${row}.${key}`)?.verdict
      expect(at(max)).toBe('pass')
      expect(at(max + 0.1)).toBe('fail')
    }
  })

  it('from 9 October 2025 the EU rows were not read: cannot tell', () => {
    const found = as('wiltshire-ham', { residualNitritePpm: 10 }, 'EU', '2025-10-09')
    expect(of(found, 'eu.2108.traditional')?.verdict).toBe('cannot-tell')
    expect(found.some((f) => f.rule.startsWith('eu.08.3.4'))).toBe(false)
  })
})

describe('Canada, Codex, Australia and New Zealand', () => {
  it('Canada: at least 100 and at most 200 ppm of curing salts (Standards of Identity vol. 7; CFIA 4.13.1), both sides', () => {
    const at = (nitritePpm: number, rule: string) => of(judge({ nitritePpm }, { jurisdictions: ['CA'] }), rule)?.verdict
    expect(at(100, 'ca.identity.cured')).toBe('pass')
    expect(at(99.9, 'ca.identity.cured')).toBe('fail')
    expect(at(200, 'ca.cfia.curing')).toBe('pass')
    expect(at(200.1, 'ca.cfia.curing')).toBe('fail')
  })

  it('Canada: nitrate at most 200 ppm in dry sausage, none in cooked', () => {
    const dried = recipeFacts({ kind: 'dried', smoked: false, readyToEat: true, route: 'comminuted' }, ['pork'])
    const at = (nitratePpm: number) =>
      of(judge({ nitritePpm: 100, nitratePpm }, { jurisdictions: ['CA'], facts: dried }), 'ca.preservatives.nitrate')
        ?.verdict
    expect(at(200)).toBe('pass')
    expect(at(200.1)).toBe('fail')
    expect(
      of(judge({ nitritePpm: 100, nitratePpm: 10 }, { jurisdictions: ['CA'] }), 'ca.preservatives.nitrate.elsewhere')
        ?.verdict,
    ).toBe('fail')
  })

  it('Codex CXS 192 category 08.3: 80 mg/kg residual ion by analysis, both sides; not from what went in', () => {
    const at = (residualNitritePpm: number) =>
      of(judge({ nitritePpm: 150, residualNitritePpm }, { jurisdictions: ['Codex'] }), 'codex.192.nitrite.08.3')
        ?.verdict
    expect(at((80 * 68.995) / 46.005)).toBe('pass')
    expect(at(120.1)).toBe('fail')
    expect(of(judge({ nitritePpm: 150 }, { jurisdictions: ['Codex'] }), 'codex.192.nitrite.08.3')?.verdict).toBe(
      'cannot-tell',
    )
  })

  it('AU-NZ: Schedule 15 was not read, so nothing passes', () => {
    expect(
      of(judge({ nitritePpm: 100, residualNitritePpm: 20 }, { jurisdictions: ['AU-NZ'] }), 'anz.s15.nitrite')?.verdict,
    ).toBe('cannot-tell')
  })
})
