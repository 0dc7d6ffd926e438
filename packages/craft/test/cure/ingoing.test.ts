import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput } from '../../src/calculation.ts'
import { ingoing, ingoingInput, type IngoingInput } from '../../src/cure/ingoing.ts'
import { findCalculation } from '../../src/calculations.ts'

const OZ = 0.028349523125
const LB = 0.45359237
const pure = { sodiumNitritePct: 100 }
const mix = { sodiumNitritePct: 6.25, saltPct: 93.75 }

const comminuted = (kg: number, composition: IngoingInput['agents'][number]['composition'], basisKg: number) =>
  ingoing({ route: 'comminuted', basisKg, agents: [{ kg, composition }] })

/** The chart of 9 CFR 424.21(c) states limits in oz/100 lb; 1 oz per 100 lb is 625 mg/kg exactly. Arithmetic, so 1e-9 relative. */
describe('ingoing, against the units of the 9 CFR 424.21(c) chart', () => {
  it.each([
    ['1/4 oz NaNO2 to 100 lb chopped meat is 156.25 ppm', 0.25 * OZ, pure, 156.25],
    ['1 oz of a 6.25 % cure to 25 lb is 156.25 ppm', 1 * OZ * 4, mix, 156.25],
    ['4 oz of a 6.25 % cure to 100 lb is 156.25 ppm', 4 * OZ, mix, 156.25],
    ['1 oz NaNO2 to 100 lb (dry cure) is 625 ppm', OZ, pure, 625],
  ])('%s', (_, kg, composition, ppm) => {
    expect(comminuted(kg, composition, 100 * LB).nitritePpm).toBeCloseTo(ppm, 9)
  })

  it.each([
    ['2 3/4 oz NaNO3 to 100 lb is 1718.75 ppm', 2.75, 1718.75],
    ['3 1/2 oz NaNO3 to 100 lb (dry cure) is 2187.5 ppm', 3.5, 2187.5],
  ])('%s', (_, oz, ppm) => {
    expect(comminuted(oz * OZ, { sodiumNitratePct: 100 }, 100 * LB).nitratePpm).toBeCloseTo(ppm, 8)
  })

  it.each([
    ['2 lb NaNO2 in 1,000 lb of pickle at 10 % pump is 200 ppm', pure, 2, 'nitritePpm', 200],
    ['7 lb NaNO3 in 1,000 lb of pickle at 10 % pump is 700 ppm', { sodiumNitratePct: 100 }, 7, 'nitratePpm', 700],
    [
      '87.5 oz sodium erythorbate in 1,000 lb of pickle at 10 % is 546.875 ppm',
      { sodiumErythorbatePct: 100 },
      87.5 / 16,
      'acceleratorSaltsPpm',
      546.875,
    ],
    [
      '75 oz ascorbic acid in 1,000 lb of pickle at 10 % is 468.75 ppm',
      { ascorbicAcidPct: 100 },
      75 / 16,
      'acceleratorAcidsPpm',
      468.75,
    ],
  ] as const)('%s', (_, composition, lb, field, ppm) => {
    const found = ingoing({
      route: 'pumped',
      basisKg: 10_000 * LB,
      agents: [{ kg: lb * LB, composition }],
      pickle: { totalKg: 1000 * LB, pumpPct: 10 },
    })
    expect(found[field]).toBeCloseTo(ppm, 8)
  })

  it('counts 3/4 oz ascorbic acid and 7/8 oz sodium erythorbate to 100 lb as 468.75 and 546.875 ppm', () => {
    expect(comminuted(0.75 * OZ, { ascorbicAcidPct: 100 }, 100 * LB).acceleratorAcidsPpm).toBeCloseTo(468.75, 9)
    expect(comminuted(0.875 * OZ, { sodiumErythorbatePct: 100 }, 100 * LB).erythorbatePpm).toBeCloseTo(546.875, 9)
  })

  it('takes the weight of the pickle as it is: 2 lb in 100 gal of water weight (833 lb) at 10 % is 240 ppm, not 200', () => {
    const found = ingoing({
      route: 'pumped',
      basisKg: 100,
      agents: [{ kg: 2 * LB, composition: pure }],
      pickle: { totalKg: 833 * LB, pumpPct: 10 },
    })
    expect(found.nitritePpm).toBeCloseTo(240.1, 1)
  })
})

/** Unofficial published examples that apply the formulae of FSIS Directive 7620.3; tolerance as printed, whole ppm. */
describe('ingoing, against published examples of the handbook formulae', () => {
  it.each([
    ['3 oz of 6.25 % cure in 1 gal water (8.33 lb, solute ignored), 10 % pump: 140 ppm', 3, 140.68],
    ['4 oz, otherwise the same: 188 ppm', 4, 187.58],
  ])('one-page handout citing Directive 7620.3 p. 19: %s', (_, oz, ppm) => {
    const found = ingoing({
      route: 'pumped',
      basisKg: 10,
      agents: [{ kg: oz * OZ, composition: mix }],
      pickle: { totalKg: 8.33 * LB, pumpPct: 10 },
    })
    expect(found.nitritePpm).toBeCloseTo(ppm, 1)
  })

  it('the same pickle with its cure weighed in gives 137.58 ppm: the whole pickle counts', () => {
    const totalKg = 8.33 * LB + 3 * OZ
    const found = ingoing({
      route: 'pumped',
      basisKg: 10,
      agents: [{ kg: 3 * OZ, composition: mix }],
      pickle: { totalKg, pumpPct: 10 },
    })
    expect(found.nitritePpm).toBeCloseTo(137.58, 1)
  })

  it('unsigned page on nitrite arithmetic: 1.0 g and 0.75 g NaNO2 in 5000 g are 200 and 150 ppm', () => {
    expect(comminuted(0.001, pure, 5).nitritePpm).toBeCloseTo(200, 9)
    expect(comminuted(0.00075, pure, 5).nitritePpm).toBeCloseTo(150, 9)
  })

  it('forum thread quoting Directive 7620.3 pp. 24-31: 4.536 g and 1.4515 g of 6.25 % cure to the pound are 625 and 200 ppm', () => {
    const rub = (g: number) =>
      ingoing({ route: 'dry-rubbed', basisKg: LB, agents: [{ kg: g / 1000, composition: mix }] }).nitritePpm
    expect(rub(4.536)).toBeCloseTo(625, 0)
    expect(rub(1.4515)).toBeCloseTo(200, 1)
  })
})

describe('salt and ion, by molar masses Na 22.990, K 39.098, N 14.007, O 15.999', () => {
  it.each([
    [120, 148],
    [100, 123],
    [200, 246],
    [40, 49],
    [80, 99],
  ])(
    '9 CFR 424.22(b): NaNO2 %i ppm has the KNO2 equivalent %i ppm (within 1: the text cuts some and rounds others)',
    (na, k) => {
      const asSodium = comminuted(k * 1e-6, { potassiumNitritePct: 100 }, 1).nitritePpm
      expect(Math.abs((asSodium * 85.103) / 68.995 - k)).toBeLessThan(1e-6)
      expect(Math.abs(asSodium - na)).toBeLessThan(1)
    },
  )

  it.each([
    ['sodiumNitritePct', 'nitriteIonPpm', 0.66679],
    ['potassiumNitritePct', 'nitriteIonPpm', 0.54058],
    ['sodiumNitratePct', 'nitrateIonPpm', 0.72951],
    ['potassiumNitratePct', 'nitrateIonPpm', 0.61328],
  ] as const)('1 mg of %s gives ion by its molar mass', (salt, field, factor) => {
    expect(comminuted(1e-6, { [salt]: 100 }, 1)[field]).toBeCloseTo(factor, 5)
  })

  it.each([
    ['sodiumNitritePct', 'nitriteIonPpm', 0.67],
    ['sodiumNitratePct', 'nitrateIonPpm', 0.73],
    ['potassiumNitratePct', 'nitrateIonPpm', 0.61],
  ] as const)(
    'agrees with the factor the trade publishes for Reg. (EU) 2023/2108 (apasa.es, 18 Oct 2023), rounded: %s',
    (salt, field, factor) => {
      expect(comminuted(1e-6, { [salt]: 100 }, 1)[field]).toBeCloseTo(factor, 2)
    },
  )

  it.each([
    [150, 100.02],
    [100, 66.68],
    [180, 120.02],
    [175, 116.69],
    [50, 33.34],
  ])('the NaNO2 limits of Reg. (EC) 1333/2008 in ion: %f is %f', (salt, ion) => {
    expect(comminuted(salt * 1e-6, pure, 1).nitriteIonPpm).toBeCloseTo(ion, 1)
  })

  it('20 g/kg of 0.6 % curing salt is 120 mg/kg NaNO2, 80.01 as ion', () => {
    const found = comminuted(0.02, { sodiumNitritePct: 0.6, saltPct: 99.4 }, 1)
    expect(found.nitritePpm).toBeCloseTo(120, 9)
    expect(found.nitriteIonPpm).toBeCloseTo(80.01, 2)
  })

  it('2.5 g/kg of 6.25 % cure is 156.25 mg/kg NaNO2, 104.2 as ion', () => {
    expect(comminuted(0.0025, mix, 1).nitriteIonPpm).toBeCloseTo(104.2, 1)
  })

  it('0.15 g/kg KNO3 is 126.1 mg/kg as NaNO3, 92.0 as ion', () => {
    const found = comminuted(0.00015, { potassiumNitratePct: 100 }, 1)
    expect(found.nitratePpm).toBeCloseTo(126.1, 1)
    expect(found.nitrateIonPpm).toBeCloseTo(92, 1)
  })

  it('turns 1 mg NaNO3, all reduced, into 0.812 mg NaNO2', () => {
    expect(comminuted(1e-6, { sodiumNitratePct: 100 }, 1).nitriteWithAllNitrateReducedPpm).toBeCloseTo(0.8118, 4)
  })

  it('reckons erythorbic acid as sodium erythorbate mole for mole (176.12 to 198.11)', () => {
    expect(comminuted(1e-6, { erythorbicAcidPct: 100 }, 1).erythorbatePpm).toBeCloseTo(198.106 / 176.124, 6)
  })
})

describe('ingoing as a function', () => {
  const composition = fc.record({
    sodiumNitritePct: fc.double({ min: 0, max: 40, noNaN: true }),
    potassiumNitratePct: fc.double({ min: 0, max: 40, noNaN: true }),
    saltPct: fc.double({ min: 0, max: 20, noNaN: true }),
  })
  const kg = fc.double({ min: 1e-6, max: 10, noNaN: true })

  it('does not change when the batch and its agents are scaled together', () => {
    fc.assert(
      fc.property(composition, kg, fc.double({ min: 0.01, max: 100, noNaN: true }), (c, agentKg, k) => {
        const one = comminuted(agentKg, c, 10)
        const many = comminuted(agentKg * k, c, 10 * k)
        return Math.abs(one.nitritePpm - many.nitritePpm) <= 1e-9 * Math.max(1, one.nitritePpm)
      }),
    )
  })

  it('adds several agents up, in any order', () => {
    fc.assert(
      fc.property(composition, composition, kg, kg, (a, b, x, y) => {
        const agents = [
          { kg: x, composition: a },
          { kg: y, composition: b },
        ]
        const both = ingoing({ route: 'comminuted', basisKg: 7, agents })
        const swapped = ingoing({ route: 'comminuted', basisKg: 7, agents: agents.toReversed() })
        const apart = comminuted(x, a, 7).nitritePpm + comminuted(y, b, 7).nitritePpm
        return (
          Math.abs(both.nitritePpm - apart) <= 1e-9 * Math.max(1, apart) &&
          Math.abs(both.nitratePpm - swapped.nitratePpm) <= 1e-9 * Math.max(1, both.nitratePpm)
        )
      }),
    )
  })

  it('divides an equilibrium pickle by meat and pickle together, and says so', () => {
    const found = ingoing({
      route: 'immersed',
      basisKg: 10,
      agents: [{ kg: 0.048, composition: mix }],
      pickle: { totalKg: 5 },
    })
    expect(found.nitritePpm).toBeCloseTo((0.048 * 0.0625 * 1e6) / 15, 9)
    expect(found.working[0]!.step).toMatch(/method 2/)
  })

  it('takes the known pick-up of an immersion as a pump of that percent, and says so', () => {
    const found = ingoing({
      route: 'immersed',
      basisKg: 10,
      agents: [{ kg: 0.1, composition: mix }],
      pickle: { totalKg: 5, pickUpPct: 8 },
    })
    expect(found.nitritePpm).toBeCloseTo((0.1 * 0.0625 * 0.08 * 1e6) / 5, 9)
    expect(found.working[0]!.step).toMatch(/method 1/)
  })

  it('ends its working on the figures it returns', () => {
    const found = comminuted(0.024, mix, 10)
    const last = found.working.find((w) => w.step === 'ingoing nitrite, as NaNO2')
    expect(last?.value).toBe(found.nitritePpm)
  })

  it('warns of nitrite packed with an accelerator', () => {
    expect(comminuted(0.01, { sodiumNitritePct: 5, sodiumErythorbatePct: 5 }, 1).cautions.join(' ')).toMatch(
      /ascorbate, erythorbate/,
    )
    expect(comminuted(0.01, mix, 1).cautions).toHaveLength(1)
    expect(comminuted(0.01, { saltPct: 100 }, 1).cautions).toHaveLength(0)
  })
})

describe('ingoing refuses', () => {
  const good = { route: 'comminuted', basisKg: 10, agents: [{ kg: 0.02, composition: mix }] }
  const faults = (input: unknown): string => {
    try {
      findCalculation('cure.ingoing')!.run(input)
    } catch (e) {
      if (e instanceof InvalidInput) return e.message
      throw e
    }
    return ''
  }

  it.each([
    [
      'a pickle on the comminuted route',
      { ...good, pickle: { totalKg: 5, pumpPct: 10 } },
      /^pickle: .*allowed: no pickle/,
    ],
    ['a pumped route with no pickle', { ...good, route: 'pumped' }, /^pickle: is missing/],
    [
      'a pumped route with no pump',
      { ...good, route: 'pumped', pickle: { totalKg: 5 } },
      /^pickle\.pumpPct: is missing/,
    ],
    [
      'an immersion with a pump',
      { ...good, route: 'immersed', pickle: { totalKg: 5, pumpPct: 10 } },
      /^pickle\.pumpPct: is given/,
    ],
    [
      'agents heavier than their pickle',
      { ...good, route: 'pumped', agents: [{ kg: 6, composition: mix }], pickle: { totalKg: 5, pumpPct: 10 } },
      /pickle\.totalKg: is 5 kg, less than/,
    ],
    [
      'a composition over 100 %',
      { ...good, agents: [{ kg: 1, composition: { sodiumNitritePct: 60, saltPct: 60 } }] },
      /adds up to 120 %/,
    ],
    ['no basis', { ...good, basisKg: 0 }, /basisKg: is 0; allowed/],
    ['a field it does not know', { ...good, nitrite: 1 }, /nitrite: is not a field here/],
    ['not a number', { ...good, basisKg: Number.NaN }, /basisKg/],
  ])('%s', (_, input, message) => {
    expect(faults(input)).toMatch(message)
  })

  it('the same through the plain function, where no schema stands in front', () => {
    expect(() => ingoing({ ...good, route: 'pumped' })).toThrow(InvalidInput)
    expect(ingoingInput.safeParse(good).success).toBe(true)
  })
})
