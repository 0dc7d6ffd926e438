import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput, type Calculation } from '../../src/calculation.ts'
import { mixCalculations } from '../../src/mix/calculations.ts'
import { enthalpy, food, freezingPoint, fusionAt } from '../../src/mix/enthalpy.ts'
import { ice, type IceInput } from '../../src/mix/ice.ts'

const entry = mixCalculations[0] as unknown as Calculation
const faults = (input: unknown): string => {
  try {
    entry.run(input)
    return 'accepted'
  } catch (error) {
    return error instanceof InvalidInput ? error.message : String(error)
  }
}
const lean = { waterPct: 74.5, proteinPct: 21, fatPct: 3.4, ashPct: 1.1 }
const fatty = { waterPct: 40, proteinPct: 11, fatPct: 48.5, ashPct: 0.5 }
const water = { waterPct: 100, proteinPct: 0, fatPct: 0 }
const base: IceInput = {
  parts: [{ kg: 80, tempC: 4, composition: lean }],
  waterKg: 20,
  waterTempC: 12,
  targetC: 8,
  workKj: 3000,
}

describe('food enthalpy', () => {
  // ASHRAE, Unfrozen composition data, initial freezing point and specific heats of foods, in Btu/(lb·°F) × 4.1868; printed to two figures.
  // Carcass composition: USDA SR28 NDB 13001; round as the same table gives it (from memory).
  it.each([
    ['beef carcass, choice', { waterPct: 57.26, proteinPct: 17.32, fatPct: 24.05, ashPct: 0.81 }, 0.77],
    ['beef round, lean', { waterPct: 70.83, proteinPct: 22.03, fatPct: 4.89, ashPct: 1.07 }, 0.84],
  ])('gives %s the specific heat of the ASHRAE table within 2 %', (_, composition, btu) => {
    const f = food(composition)
    expect(Math.abs((f.liquid(15) - f.liquid(5)) / 10 / (btu * 4.1868) - 1)).toBeLessThan(0.02)
  })

  it('starts freezing at −1.7 to −2.2 °C, ASHRAE table: beef carcass 28.0 °F, sirloin 28.9 °F (±0.5 K for an empirical formula)', () => {
    const t = food({ waterPct: 57.26, proteinPct: 17.32, fatPct: 24.05, ashPct: 0.81 }).freezingC
    expect(t).toBeGreaterThan(-2.7)
    expect(t).toBeLessThan(-1.2)
  })

  it('takes lean beef (74.5 % water) from −20 to 0 °C with 262 kJ/kg, Riedel in the ASHRAE handbook (from memory)', () => {
    const f = food({ waterPct: 74.5, proteinPct: 21.5, fatPct: 2.9, ashPct: 1.1 })
    // Pham 1996 puts such models within 10 %.
    expect(enthalpy(f, 0) - enthalpy(f, -20)).toBeGreaterThan(262 * 0.9)
    expect(enthalpy(f, 0) - enthalpy(f, -20)).toBeLessThan(262 * 1.1)
  })

  it('freezes lean meat near −1 to −2 °C: beef −2 °C in Earle, Appendix 7 (rounded)', () => {
    expect(food(lean).freezingC).toBeLessThan(-0.9)
    expect(food(lean).freezingC).toBeGreaterThan(-2.3)
    // −4.66 × 0.24/0.75 − 46.4 × 0.01/0.75 by hand.
    expect(freezingPoint(0.75, 0.01)).toBeCloseTo(-2.10987, 4)
  })

  it('freezes water at 0 °C with 333.6 kJ/kg, and less when colder', () => {
    expect(fusionAt(0)).toBe(333.6)
    expect(fusionAt(-20)).toBeLessThan(333.6)
  })

  it('rises with temperature through freezing', () => {
    for (const f of [food(lean), food(fatty)])
      for (let t = -40; t < 40; t += 0.25) expect(enthalpy(f, t + 0.25)).toBeGreaterThan(enthalpy(f, t))
  })
})

describe('mix.ice', () => {
  it('cools 80 kg of water-like mix from 20 to 10 °C by hand: ice = Q / (fusion + 4.19 × 20)', () => {
    const out = ice({
      parts: [{ kg: 0.001, tempC: 10, composition: water }],
      waterKg: 100,
      waterTempC: 20,
      targetC: 10,
    })
    // 100 × 4.19 × 10 kJ to remove; each kg that goes in as ice instead of 20 °C water takes 333.6 + 4.19 × 20 kJ.
    expect(out.iceKg).toBeCloseTo((100 * 4.19 * 10) / (333.6 + 4.19 * 20), 6)
    expect(out.possible).toBe(true)
    expect(out.finalC).toBe(10)
  })

  it('reaches a target of 8 °C and splits the water into ice and water', () => {
    const out = ice(base)
    expect(out.possible).toBe(true)
    expect(out.iceKg + out.waterKg).toBeCloseTo(20, 12)
    expect(out.iceKg).toBeGreaterThan(0)
    expect(out.ifMeatWarmer.iceKg).toBeGreaterThan(out.iceKg)
  })

  it('needs less ice with colder meat, less with frozen meat, and more with more work', () => {
    const at = (more: Partial<IceInput>) => ice({ ...base, ...more }).iceKg
    const meat = (tempC: number) => ({ parts: [{ kg: 80, tempC, composition: lean }] })
    expect(at(meat(2))).toBeLessThan(at(meat(4)))
    expect(at(meat(-1.9))).toBeLessThan(at(meat(2)))
    expect(at({ workKj: 5000 })).toBeGreaterThan(at({}))
    expect(at({ iceTempC: -18 })).toBeLessThan(at({}))
    expect(at({ saltKg: 2 })).not.toBe(at({}))
  })

  it('says why, the closest, and how much colder the meat must be where ice is not enough', () => {
    const input = { ...base, waterKg: 2, targetC: 2, workKj: 9000 }
    const out = ice(input)
    expect(out).toMatchObject({ possible: false, iceKg: 2, waterKg: 0 })
    expect(out.finalC).toBeGreaterThan(2)
    expect(out.because).toMatch(/all 2 kg of water as ice still ends at .* above 2 °C; chill the meat by/)
    const by = Number(/chill the meat by ([\d.]+)/.exec(out.because)![1])
    const colder = ice({ ...input, parts: [{ ...input.parts[0]!, tempC: 4 - by - 0.1 }] })
    expect(colder.finalC).toBeCloseTo(2, 1)
  })

  it('says that it is too cold already where no ice is needed', () => {
    const out = ice({ ...base, targetC: 30 })
    expect(out).toMatchObject({ possible: false, iceKg: 0, waterKg: 20 })
    expect(out.finalC).toBeLessThan(30)
    expect(out.because).toMatch(/with no ice at all, below 30 °C/)
  })

  it('refuses a target at which ice would be left, and salt lowers that point', () => {
    const out = ice({ ...base, targetC: -5 })
    expect(out.possible).toBe(false)
    expect(out.because).toMatch(/begins to freeze at .* ice would be left/)
    expect(ice({ ...base, saltKg: 3 }).freezingC).toBeLessThan(ice(base).freezingC)
    // 1 % of salt in water freezes at −0.59 °C, CRC Handbook (from memory).
    const brine = ice({
      parts: [{ kg: 0.001, tempC: 5, composition: water }],
      waterKg: 99,
      waterTempC: 5,
      targetC: 5,
      saltKg: 1,
    })
    expect(brine.freezingC).toBeCloseTo(-0.59, 1)
  })

  it('stays part frozen at the freezing point of the mix where the meat comes in hard frozen', () => {
    const out = ice({ ...base, parts: [{ kg: 80, tempC: -20, composition: lean }], workKj: 0 })
    expect(out.possible).toBe(false)
    expect(out.frozenKg).toBeGreaterThan(0)
    expect(out.finalC).toBeLessThan(out.freezingC)
  })

  it('says so where the work would boil the mix', () => {
    expect(ice({ ...base, workKj: 1e6 })).toMatchObject({
      possible: false,
      because: expect.stringMatching(/would boil the mix; check workKj/),
    })
  })

  it('closes the energy balance to 1e-9 of the heat turned over', () => {
    const part = fc.record({
      kg: fc.double({ min: 0.5, max: 200, noNaN: true }),
      tempC: fc.double({ min: -25, max: 20, noNaN: true }),
      composition: fc.constantFrom(lean, fatty, { waterPct: 7.7, proteinPct: 2.9, fatPct: 88.7, ashPct: 0.7 }),
    })
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: -2, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 20_000, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (parts, waterKg, waterTempC, targetC, workKj, saltKg) => {
          const out = ice({ parts, waterKg, waterTempC, targetC, workKj, saltKg, iceTempC: -5 })
          const turned = out.working.reduce((s, w) => s + Math.abs(w.value), 1)
          expect(Math.abs(out.residualKj)).toBeLessThan(1e-9 * turned)
          const lines = out.working.slice(0, -1).reduce((s, w) => s + w.value, 0)
          expect(Math.abs(lines - workKj)).toBeLessThan(1e-9 * turned)
          expect(out.iceKg + out.waterKg).toBeCloseTo(waterKg, 9)
          expect(out.iceKg).toBeGreaterThanOrEqual(0)
          expect(out.iceKg).toBeLessThanOrEqual(waterKg)
        },
      ),
    )
  })

  it('does not depend on the size of the batch or the order of its parts', () => {
    const parts = [
      { kg: 60, tempC: 2, composition: lean },
      { kg: 20, tempC: -3, composition: fatty },
    ]
    const one = ice({ ...base, parts })
    const ten = ice({
      ...base,
      parts: parts.toReversed().map((p) => ({ ...p, kg: p.kg * 10 })),
      waterKg: 200,
      workKj: 30_000,
    })
    expect(ten.iceKg / 10).toBeCloseTo(one.iceKg, 9)
    expect(ten.finalC).toBeCloseTo(one.finalC, 9)
  })

  it.each([
    [{ ...base, parts: [] }, /parts: has 0 items/],
    [{ ...base, waterTempC: -1 }, /waterTempC: is -1; allowed/],
    [{ ...base, iceTempC: 1 }, /iceTempC: is 1; allowed/],
    [{ ...base, targetC: 'cold' }, /targetC: is the text "cold"/],
    [
      { ...base, parts: [{ kg: 1, tempC: 0, composition: { waterPct: 10, proteinPct: 0, fatPct: 0 } }] },
      /names only 10 %/,
    ],
    [{ ...base, colour: 1 }, /colour: is not a field/],
  ])('refuses %#', (input, message) => {
    expect(faults(input)).toMatch(message)
  })
})
