import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { amount } from '../../src/cure/amount.ts'
import type { Route } from '../../src/cure/entering.ts'
import { ingoing } from '../../src/cure/ingoing.ts'

const LB = 0.45359237
const mix = { sodiumNitritePct: 6.25, saltPct: 93.75 }

describe('amount, computed from FSIS Directive 7620.3 (formulae F2 and F3 inverted)', () => {
  it.each([
    ['10 kg of meat at 156 ppm takes 24.96 g of a 6.25 % cure', 10, 24.96],
    ['25 lb of meat at 156 ppm takes 28.30 g', 25 * LB, 28.304],
  ])('%s', (_, basisKg, grams) => {
    expect(
      amount({ route: 'comminuted', basisKg, targetNitritePpm: 156, agent: { composition: mix } }).agentKg * 1000,
    ).toBeCloseTo(grams, 2)
  })

  it('a bacon pickle of 100 lb at 12 % pump and 120 ppm holds 0.1000 lb NaNO2', () => {
    const found = amount({
      route: 'pumped',
      basisKg: 100 * LB,
      targetNitritePpm: 120,
      agent: { composition: { sodiumNitritePct: 100 } },
      pickle: { totalKg: 100 * LB, pumpPct: 12 },
    })
    expect(found.agentKg / LB).toBeCloseTo(0.1, 9)
  })

  it('the same pickle at 550 ppm erythorbate holds 0.4583 lb (the formula is the same for accelerators)', () => {
    const kg = 0.458333333 * LB
    const found = ingoing({
      route: 'pumped',
      basisKg: 50,
      agents: [{ kg, composition: { sodiumErythorbatePct: 100 } }],
      pickle: { totalKg: 100 * LB, pumpPct: 12 },
    })
    expect(found.erythorbatePpm).toBeCloseTo(550, 5)
  })

  /** g of curing salt per kg: limit as ion × 68.995 / 46.005 / 1000 / NaNO2 share. */
  it.each([
    [0.4, 37.5, 50],
    [0.5, 30, 40],
    [0.6, 25, 33.33],
    [0.9, 16.67, 22.22],
    [6.25, 2.4, 3.2],
  ])(
    'largest dose of a %s percent cure: %s g/kg at the 150 mg/kg of Reg. (EC) 1333/2008 as kept in GB, %s at 200 ppm',
    (pct, gb, ca) => {
      const dose = (ppm: number) =>
        amount({
          route: 'comminuted',
          basisKg: 1,
          targetNitritePpm: ppm,
          agent: { composition: { sodiumNitritePct: pct } },
        }).agentKg * 1000
      expect(dose(150)).toBeCloseTo(gb, 2)
      expect(dose(200)).toBeCloseTo(ca, 2)
    },
  )

  it.each([
    [0.4, 29.99, 20.62],
    [0.6, 20, 13.75],
    [6.25, 1.92, 1.32],
  ])('largest dose of a %s percent cure at 80 and 55 mg/kg ion: %s and %s g/kg', (pct, at80, at55) => {
    const dose = (ion: number) =>
      amount({
        route: 'comminuted',
        basisKg: 1,
        targetNitritePpm: (ion * 68.995) / 46.005,
        agent: { composition: { sodiumNitritePct: pct } },
      }).agentKg * 1000
    expect(dose(80)).toBeCloseTo(at80, 1)
    expect(dose(55)).toBeCloseTo(at55, 1)
  })
})

describe('amount and ingoing', () => {
  const cases: { route: Route; pickle?: { totalKg: number; pumpPct?: number; pickUpPct?: number } }[] = [
    { route: 'comminuted' },
    { route: 'dry-rubbed' },
    { route: 'pumped', pickle: { totalKg: 400, pumpPct: 11 } },
    { route: 'immersed', pickle: { totalKg: 400, pickUpPct: 7 } },
    { route: 'immersed', pickle: { totalKg: 400 } },
  ]

  it.each(cases)('are inverse of one another: %o', (c) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 1, max: 250, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (basisKg, ppm, pct, nitrate) => {
          const composition = { potassiumNitritePct: pct, sodiumNitratePct: nitrate, saltPct: 5 }
          const found = amount({ ...c, basisKg, targetNitritePpm: ppm, agent: { composition } })
          const back = ingoing({ ...c, basisKg, agents: [{ kg: found.agentKg, composition }] })
          expect(back.nitritePpm / ppm).toBeCloseTo(1, 10)
          expect(back.nitratePpm).toBeCloseTo(found.nitratePpm, 6)
        },
      ),
    )
  })

  it('gives the salt that comes with the cure, to be taken out of the recipe', () => {
    const found = amount({ route: 'comminuted', basisKg: 10, targetNitritePpm: 150, agent: { composition: mix } })
    expect(found.agentKg).toBeCloseTo(0.024, 12)
    expect(found.saltKg).toBeCloseTo(0.0225, 12)
  })
})

describe('amount refuses', () => {
  it('an agent without nitrite, and says what it is', () => {
    expect(() =>
      amount({
        route: 'comminuted',
        basisKg: 1,
        targetNitritePpm: 100,
        agent: { composition: { potassiumNitratePct: 100 } },
      }),
    ).toThrow(/agent\.composition: holds no nitrite \(100 % potassium nitrate\)/)
  })
  it('a pickle too small to hold what the target asks for', () => {
    expect(() =>
      amount({
        route: 'pumped',
        basisKg: 100,
        targetNitritePpm: 100_000,
        agent: { composition: mix },
        pickle: { totalKg: 1, pumpPct: 10 },
      }),
    ).toThrow(/pickle\.totalKg/)
  })
})
