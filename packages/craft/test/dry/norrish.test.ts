import { describe, expect, it } from 'vitest'
import { NACL_G_PER_MOL, saltWaterActivity } from '../../src/dry/brine.ts'
import { soluteWaterActivity } from '../../src/dry/solutes.ts'
import { waterActivity } from '../../src/dry/water-activity.ts'

const WATER_KG_PER_MOL = 0.018015
/** Percent solute and water of a solution of so many moles in a kilogram of water. */
const solution = (molality: number, gPerMol: number) => {
  const grams = molality * gPerMol
  return { pct: (100 * grams) / (1000 + grams), waterPct: 100_000 / (1000 + grams) }
}

describe('Norrish', () => {
  // Robinson & Stokes 1965, osmotic coefficients of sucrose at 25 °C, from memory; aw = exp(−0.018015 · m · φ).
  it.each([
    [1, 1.088],
    [2, 1.189],
    [3, 1.288],
    [4, 1.375],
    [5, 1.445],
    [6, 1.503],
  ])('sucrose at %d mol/kg keeps within 0.002 of the osmotic coefficient %d (Robinson & Stokes 1965)', (m, phi) => {
    const { pct, waterPct } = solution(m, 342.3)
    const tabulated = Math.exp(-WATER_KG_PER_MOL * m * phi)
    expect(Math.abs(soluteWaterActivity('sucrose', pct, waterPct) - tabulated)).toBeLessThan(0.002)
  })

  // A table of foods by water activity reproduced on many food safety pages: syrups of 55 % sucrose stand at the class end 0.91, of 65 % at 0.87. Class
  // ends are rounded to a hundredth, so 0.01 is allowed.
  it.each([
    [55, 0.91],
    [65, 0.87],
  ])('%d %% sucrose stands at the class end %d within 0.01 (table of foods by water activity, quoted)', (pct, aw) => {
    expect(Math.abs(soluteWaterActivity('sucrose', pct, 100 - pct) - aw)).toBeLessThan(0.01)
  })

  it('has the glycerol constant 1.16, base e (Int. J. Dent. 2010, 981072, table 3, quoting the equation’s constants)', () => {
    const { pct, waterPct } = solution(3, 92.09)
    const share = 3 / (3 + 1 / WATER_KG_PER_MOL)
    expect(soluteWaterActivity('glycerol', pct, waterPct)).toBeCloseTo((1 - share) * Math.exp(-1.16 * share ** 2), 5)
  })

  it('is Raoult’s law in the end: at a thousandth of a mole all solutes stand alike', () => {
    for (const [name, gPerMol] of [
      ['sucrose', 342.3],
      ['dextrose', 180.16],
      ['glycerol', 92.09],
    ] as const) {
      const { pct, waterPct } = solution(0.001, gPerMol)
      expect(soluteWaterActivity(name, pct, waterPct)).toBeCloseTo(1 - 0.001 * WATER_KG_PER_MOL, 8)
    }
  })

  it('multiplies with salt (Ross 1975): brine of 2 mol/kg with 1 mol/kg of sucrose in the same water', () => {
    const water = 1000
    const [salt, sugar] = [2 * NACL_G_PER_MOL, 342.3]
    const whole = water + salt + sugar
    const out = waterActivity({
      waterPct: (100 * water) / whole,
      saltPct: (100 * salt) / whole,
      solutes: [{ name: 'sucrose', pct: (100 * sugar) / whole }],
    })
    // Tables of each alone: 0.9316 and exp(−0.018015 · 1.088).
    expect(Math.abs(out.aw - 0.9316 * Math.exp(-WATER_KG_PER_MOL * 1.088))).toBeLessThan(0.003)
    expect(out.aw).toBeCloseTo(
      saltWaterActivity(2) * soluteWaterActivity('sucrose', (100 * sugar) / whole, (100 * water) / whole),
      9,
    )
  })
})
