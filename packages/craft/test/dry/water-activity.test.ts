import { calculations } from '@forcemeat/craft'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { NACL_G_PER_MOL, osmoticCoefficient, saltWaterActivity } from '../../src/dry/brine.ts'
import type { WaterActivityInput, WaterActivityOutput } from '../../src/dry/water-activity.ts'

const run = (input: WaterActivityInput) => calculations['dry.water-activity']!.run(input) as WaterActivityOutput

// Robinson & Stokes 1965, NaCl(aq) at 25 °C; figures from memory, except 6 mol/kg, whose osmotic coefficient 1.271 was read quoted.
const table = [
  [0.1, 0.99665],
  [0.2, 0.99336],
  [0.5, 0.98355],
  [1, 0.96686],
  [1.5, 0.9494],
  [2, 0.9316],
  [3, 0.8932],
  [4, 0.8515],
  [5, 0.8068],
  [6, 0.7598],
] as const

describe('water activity of NaCl brine', () => {
  it.each(table)('at %d mol/kg is %d within 0.002 (Robinson & Stokes 1965)', (molality, aw) => {
    expect(Math.abs(saltWaterActivity(molality) - aw)).toBeLessThan(0.002)
    const saltPct = (100 * molality * NACL_G_PER_MOL) / (1000 + molality * NACL_G_PER_MOL)
    expect(Math.abs(run({ waterPct: 100 - saltPct, saltPct }).aw - aw)).toBeLessThan(0.002)
  })

  it('has an osmotic coefficient of 1.271 at 6 mol/kg within 0.003 (Robinson & Stokes 1965, quoted)', () => {
    expect(Math.abs(osmoticCoefficient(6) - 1.271)).toBeLessThan(0.003)
  })

  it('stays at 0.753 once saturated (Robinson & Stokes 1965; from memory)', () => {
    expect(Math.abs(saltWaterActivity(9) - 0.753)).toBeLessThan(0.003)
    expect(run({ waterPct: 20, saltPct: 20 }).warnings.join()).toContain('saturated')
  })
})

describe('dry.water-activity', () => {
  it('is 1 for water alone and 0.982 for 2 % salt in 60 % water (Pitzer; water-phase salt 3.23 %)', () => {
    expect(run({ waterPct: 100, saltPct: 0 }).aw).toBe(1)
    const output = run({ waterPct: 60, saltPct: 2 })
    expect(output.brinePct).toBeCloseTo(3.226, 3)
    expect(Math.abs(output.aw - 0.982)).toBeLessThan(0.002)
  })

  it('lets a measured value win, and says which it gave', () => {
    expect(run({ waterPct: 40, saltPct: 4, measuredAw: 0.87 })).toMatchObject({ aw: 0.87, basis: 'measured' })
  })

  it('never rises with more salt or more sugar', () => {
    const share = fc.double({ min: 0, max: 8, noNaN: true })
    fc.assert(
      fc.property(share, share, fc.double({ min: 0, max: 4, noNaN: true }), (saltPct, sugar, more) => {
        const base = run({ waterPct: 50, saltPct, solutes: [{ name: 'dextrose', pct: sugar }] }).aw
        expect(
          run({ waterPct: 50, saltPct: saltPct + more, solutes: [{ name: 'dextrose', pct: sugar }] }).aw,
        ).toBeLessThanOrEqual(base)
        expect(
          run({ waterPct: 50, saltPct, solutes: [{ name: 'dextrose', pct: sugar + more }] }).aw,
        ).toBeLessThanOrEqual(base)
      }),
    )
  })

  it('depends on the water phase only: scale everything and it stays', () => {
    expect(run({ waterPct: 25, saltPct: 2 }).aw).toBeCloseTo(run({ waterPct: 50, saltPct: 4 }).aw, 12)
  })

  it('refuses an unknown solute and a sum over 100 % by name', () => {
    expect(() => run({ waterPct: 50, saltPct: 3, solutes: [{ name: 'honeydew', pct: 1 }] })).toThrow(
      /solutes\[0\]\.name.*sucrose/,
    )
    expect(() => run({ waterPct: 90, saltPct: 20 })).toThrow(/110/)
  })
})
