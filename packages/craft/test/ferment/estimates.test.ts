import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { calculations } from '@forcemeat/craft/calculations'
import { NACL_G_PER_MOL, saltWaterActivity } from '@forcemeat/craft/dry/brine'
import { cardinal } from '@forcemeat/craft/ferment/growth-range'
import { inactivation, inactivationRate } from '@forcemeat/craft/ferment/inactivation'
import { staph, staphRate, staphRateUpper } from '@forcemeat/craft/ferment/staph'
import { integrate, stretches } from '@forcemeat/craft/ferment/walk'

const steady = (tempC: number, hours: number, more: object = {}) => [
  { hour: 0, tempC },
  { hour: hours, tempC, ...more },
]

describe('Staphylococcus aureus, growth rate', () => {
  // Medveďová et al. 2019 (PMC6912147): Tmin 7.7, Topt 40.6, Tmax 46.7, µopt 1.97 per hour; the rates computed from these, to their printed digits.
  it.each([
    [10, 0.014],
    [12, 0.048],
    [15, 0.138],
    [19, 0.327],
    [24, 0.663],
    [28, 1.0],
    [30, 1.184],
    [37, 1.812],
    [40, 1.964],
  ])('at %d °C and the best water activity is %d per hour', (tempC, rate) => {
    expect(staphRate(tempC, 0.994)).toBeCloseTo(rate, 3)
  })
  it.each([
    [25, 0.93],
    [15, 5.0],
    [12, 14.3],
  ])('doubles at %d °C in %d h, as published', (tempC, doubling) => {
    expect(Math.abs(Math.LN2 / staphRate(tempC, 0.994) / doubling - 1)).toBeLessThan(0.02)
  })
  // Buchanan et al. 1993 (generation times without nitrite, pH 6 to 7.5, transcribed in a public script), as growth rate per hour; salt is percent w/w of the broth.
  it.each([
    [19, 0.5, 0.41],
    [28, 0.5, 1.155],
    [37, 0.5, 2.31],
    [42, 4.5, 1.73],
    [42, 8.5, 1.16],
    [42, 12.5, 0.99],
    [28, 8.5, 0.23],
    [19, 8.5, 0.12],
    [15, 0.5, 0.224],
    [12, 0.5, 0.147],
  ])(
    'with its margin lies at or above the highest rate measured at %d °C and %d percent salt, %d per hour',
    (tempC, salt, rate) => {
      const aw = saltWaterActivity((1000 * salt) / NACL_G_PER_MOL / (100 - salt))
      expect(staphRateUpper(tempC, aw)).toBeGreaterThan(rate * 0.985)
    },
  )
  it('is nothing outside its range, and one at its best', () => {
    expect(staphRate(7.7, 0.99)).toBe(0)
    expect(staphRate(46.7, 0.99)).toBe(0)
    expect(staphRate(30, 0.808)).toBe(0)
    expect(cardinal(40.6, { min: 7.7, best: 40.6, max: 46.7 })).toBeCloseTo(1, 12)
    expect(staphRate(30, 1)).toBe(staphRate(30, 0.994))
  })
})

describe('Staphylococcus aureus, growth over a fermentation', () => {
  it('is rate times hours at a steady temperature', () => {
    const r = staph({ log: steady(30, 10), aw: 0.994 })
    expect(r.logGrowth).toBeCloseTo((staphRate(30, 0.994) * 10) / Math.LN10, 9)
    expect(r.logGrowthUpper).toBeGreaterThan(r.logGrowth)
    expect(r.estimate).toBe(true)
  })
  it('stops at the first measured pH at or below the target', () => {
    const log = [
      { hour: 0, tempC: 30 },
      { hour: 10, tempC: 30, ph: 5.3 },
      { hour: 20, tempC: 30 },
    ]
    expect(staph({ log, aw: 0.97 }).hours).toBe(10)
    expect(staph({ log, aw: 0.97, targetPh: 5 }).hours).toBe(20)
    expect(staph({ log, aw: 0.97, targetPh: 5 }).warnings.join()).toMatch(/may go on/)
  })
  it('counts a hole at its worse end, so that less known is never less growth', () => {
    const whole = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((hour) => ({ hour, tempC: hour < 4 ? 34 : 20 }))
    const holed = whole.map((r) => (r.hour === 4 || r.hour === 5 ? { hour: r.hour, tempC: null } : r))
    const [a, b] = [staph({ log: whole, aw: 0.97 }), staph({ log: holed, aw: 0.97 })]
    expect(b.logGrowth).toBeGreaterThan(a.logGrowth)
    expect(b.warnings.join()).toMatch(/holes/)
  })
  it('falls with salt, rises with time', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 12, max: 38, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        (tempC, hours) => {
          const at = (saltPct: number, h = hours) => staph({ log: steady(tempC, h), saltPct, waterPct: 57 }).logGrowth
          expect(at(4)).toBeLessThan(at(2))
          expect(at(2, hours + 1)).toBeGreaterThan(at(2))
        },
      ),
    )
  })
  it('takes the best for growth where nothing is known of the water, and says so', () => {
    const r = staph({ log: steady(30, 10) })
    expect(r.aw).toBe(0.994)
    expect(r.warnings.join()).toMatch(/best for growth/)
  })
})

describe('E. coli, slow death by temperature', () => {
  // McQuestin, Shadbolt & Ross 2009 (PMC2786527), equation 2, as log10 per day.
  it.each([
    [4, 0.025],
    [10, 0.057],
    [15, 0.108],
    [20, 0.2],
    [25, 0.365],
    [30, 0.652],
    [37, 1.42],
    [45, 3.33],
  ])('at %d °C is %d tenfolds a day', (tempC, perDay) => {
    expect(Math.abs((24 * inactivationRate(tempC)) / perDay - 1)).toBeLessThan(0.02)
  })
  it('has the activation energy of the paper’s line, 87.2 kJ/mol', () => {
    const slope = Math.log(inactivationRate(30) / inactivationRate(20)) / (1 / 293.15 - 1 / 303.15)
    expect((slope * 8.314) / 1000).toBeCloseTo(87.2, 1)
  })
  it('is credited only from the hour both pH and water activity hold growth off', () => {
    const log = [
      { hour: 0, tempC: 25, ph: 5.8, aw: 0.96 },
      { hour: 48, tempC: 25, ph: 4.9, aw: 0.955 },
      { hour: 96, tempC: 25, aw: 0.94 },
      { hour: 196, tempC: 25 },
    ]
    const r = inactivation({ organism: 'e-coli', log })
    expect(r.creditedHours).toBeCloseTo(100, 9)
    expect(r.logReduction).toBeCloseTo(100 * inactivationRate(25), 9)
    expect(r.low).toBeCloseTo(r.logReduction / 3, 12)
  })
  it('is nothing where neither was measured', () => {
    const r = inactivation({ organism: 'e-coli', log: steady(25, 500) })
    expect(r.logReduction).toBe(0)
    expect(r.warnings.join()).toMatch(/nothing is credited/)
  })
  it('is not credited in the cold, where it over-predicts: Norwegian dry sausage at 4 °C for 60 days lost 0.33 to 0.95', () => {
    expect(inactivation({ organism: 'e-coli', log: steady(4, 1440), growthStoppedHour: 0 }).logReduction).toBe(0)
  })
  it('holds within its spread what pepperoni lost: at least 3.2 tenfolds in 14 days at 21 °C (Faith et al. 1998)', () => {
    const r = inactivation({ organism: 'e-coli', log: steady(21, 336), growthStoppedHour: 0 })
    expect(r.low).toBeLessThan(3.2)
    expect(r.high).toBeGreaterThan(4.2)
  })
  it('is not credited across a hole', () => {
    const log = [...Array.from({ length: 10 }, (_, hour) => ({ hour, tempC: 25 })), { hour: 100, tempC: 25 }]
    expect(inactivation({ organism: 'e-coli', log, growthStoppedHour: 0 }).creditedHours).toBeCloseTo(9, 9)
  })
})

describe('Salmonella and Listeria', () => {
  // Costa et al. 2021: salami trials A (plate counts 8.15 at 88 h, 3.40 at 941 h; about 20 °C) and B (7.99 at 89.5 h, 2.65 at 1121.5 h; about 17 °C). The shoulder and the
  // half were set on these two, so this is a fit; what is checked is that the estimate stays on the careful side.
  it.each([
    ['A', 20, 941, 4.75],
    ['B', 17, 1121.5, 5.34],
  ])('Salmonella in salami trial %s: less is credited than was seen', (_, tempC, hours, seen) => {
    const r = inactivation({ organism: 'salmonella', log: steady(tempC, hours), growthStoppedHour: 60 })
    expect(r.logReduction).toBeLessThan(seen)
    expect(r.logReduction).toBeGreaterThan(seen / 3)
  })
  it('Salmonella gets nothing for its first 140 hours nor outside 16 to 21 °C', () => {
    expect(inactivation({ organism: 'salmonella', log: steady(20, 140), growthStoppedHour: 0 }).logReduction).toBe(0)
    expect(inactivation({ organism: 'salmonella', log: steady(25, 900), growthStoppedHour: 0 }).logReduction).toBe(0)
  })
  it('Listeria gets no credit: under one tenfold over 30 °C fermentation and drying (J. Food Prot. 69:794)', () => {
    const r = inactivation({ organism: 'listeria', log: steady(30, 2000), growthStoppedHour: 0 })
    expect([r.logReduction, r.low, r.high]).toEqual([0, 0, 0])
  })
})

describe('walking a log', () => {
  it('integrates a line exactly for a linear rate and cuts the last stretch where it is told', () => {
    const [s] = stretches(
      [
        { hour: 0, tempC: 10 },
        { hour: 10, tempC: 30 },
      ],
      5,
    )
    expect(s).toMatchObject({ from: 0, to: 5, a: 10, b: 20 })
    expect(integrate(s!, (t) => t)).toBeCloseTo(75, 9)
  })
  it('is not upset by readings of one hour', () => {
    const r = staph({
      log: [
        { hour: 0, tempC: 20 },
        { hour: 5, tempC: 20 },
        { hour: 5, tempC: 30 },
        { hour: 10, tempC: 30 },
      ],
      aw: 0.98,
    })
    expect(r.logGrowth).toBeCloseTo((5 * (staphRate(20, 0.98) + staphRate(30, 0.98))) / Math.LN10, 9)
  })
})

describe('what the estimates refuse', () => {
  it.each([
    ['ferment.staph', { log: steady(20, 5), saltPct: 3 }, /only one of saltPct and waterPct/],
    [
      'ferment.staph',
      {
        log: [
          { hour: 0, tempC: null },
          { hour: 1, tempC: 20 },
        ],
      },
      /tempC: is null; allowed/,
    ],
    [
      'ferment.inactivation',
      { organism: 'yeast', log: steady(20, 5) },
      /organism: is the text "yeast"; allowed: one of e-coli, salmonella, listeria/,
    ],
    [
      'ferment.inactivation',
      {
        organism: 'e-coli',
        log: [
          { hour: 2, tempC: 20 },
          { hour: 1, tempC: 20 },
        ],
      },
      /hour: is 1, before 2/,
    ],
  ])('%s names the field, what was given and what is allowed (%#)', (name, input, message) => {
    expect(() => calculations[name]!.run(input)).toThrow(message)
  })
})
