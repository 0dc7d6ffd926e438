import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findCalculation } from '@forcemeat/craft/calculations'
import { materialOf } from '@forcemeat/craft/heat/material'
import { massFractions, mixtureProperties, properties } from '@forcemeat/craft/heat/properties'

const only = (part: 'waterPct' | 'proteinPct' | 'fatPct') => ({ waterPct: 0, proteinPct: 0, fatPct: 0, [part]: 100 })

describe('heat.properties', () => {
  // Hand-worked from the polynomials of Choi & Okos as tabulated by ASHRAE, Refrigeration, Thermal properties of foods; to rounding.
  it.each([
    {
      part: 'waterPct' as const,
      tempC: 20,
      k: 0.57109 + 0.03525 - 0.00268144,
      rho: 997.18 + 0.062878 - 1.50296,
      cp: 4128.9 - 1.81728 + 2.18924,
    },
    {
      part: 'proteinPct' as const,
      tempC: 50,
      k: 0.17881 + 0.05979 - 0.0067945,
      rho: 1329.9 - 25.92,
      cp: 2008.2 + 60.445 - 3.28225,
    },
    {
      part: 'fatPct' as const,
      tempC: 70,
      k: 0.18071 - 0.0193228 - 0.0008697,
      rho: 925.59 - 29.2299,
      cp: 1984.2 + 103.131 - 23.52392,
    },
  ])(
    'gives the tabulated polynomial for $part alone at $tempC °C (ASHRAE Refrigeration, Tables 1–2)',
    ({ part, tempC, k, rho, cp }) => {
      const p = properties({ composition: only(part), tempC })
      expect(p.conductivityWPerMK).toBeCloseTo(k, 7)
      expect(p.densityKgPerM3).toBeCloseTo(rho, 4)
      expect(p.specificHeatJPerKgK).toBeCloseTo(cp, 3)
    },
  )

  it('gives 1013.6 kg/m³, 3145 J/(kg·K), 0.432 W/(m·K) and 1.356e-7 m²/s for 54 % water, 13 % protein, 30 % fat, 3 % ash at 40 °C (computed from the same tables)', () => {
    const p = properties({ composition: { waterPct: 54, proteinPct: 13, fatPct: 30, ashPct: 3 }, tempC: 40 })
    expect(p.densityKgPerM3).toBeCloseTo(1013.6, 1)
    expect(p.specificHeatJPerKgK).toBeCloseTo(3145, 0)
    expect(p.conductivityWPerMK).toBeCloseTo(0.432, 3)
    expect(p.diffusivityM2PerS * 1e7).toBeCloseTo(1.356, 3)
  })

  // Marcotte, Taherian & Karimi 2008 (J. Food Eng. 88:315–322, abstract): emulsions measured at 0.26–0.48 W/(m·K), 970–1070 kg/m³, 2850–3380 J/(kg·K), 20–80 °C.
  it.each([20, 40, 60, 80])('lies in the range measured on meat emulsions at %i °C (Marcotte et al. 2008)', (tempC) => {
    const p = properties({
      composition: { waterPct: 58, proteinPct: 13, fatPct: 24, carbohydratePct: 2, ashPct: 3 },
      tempC,
    })
    expect(p.conductivityWPerMK).toBeGreaterThan(0.26)
    // The side-by-side rule is the upper bound of conduction: it may stand a little over what was measured.
    expect(p.conductivityWPerMK).toBeLessThan(0.5)
    expect(p.densityKgPerM3).toBeGreaterThan(970)
    expect(p.densityKgPerM3).toBeLessThan(1070)
    expect(p.specificHeatJPerKgK).toBeGreaterThan(2850)
    expect(p.specificHeatJPerKgK).toBeLessThan(3380)
  })

  it('keeps the series bound below the side-by-side one for any composition', () => {
    const part = fc.double({ min: 1, max: 60, noNaN: true })
    fc.assert(
      fc.property(part, part, part, fc.double({ min: 0, max: 100, noNaN: true }), (w, p, f, tempC) => {
        const scale = 100 / (w + p + f)
        const r = properties({ composition: { waterPct: w * scale, proteinPct: p * scale, fatPct: f * scale }, tempC })
        return r.conductivityBoundsWPerMK.low <= r.conductivityBoundsWPerMK.high + 1e-12
      }),
    )
  })

  it('shares out in proportion what a food table leaves unnamed', () => {
    const whole = properties({ composition: { waterPct: 60, proteinPct: 15, fatPct: 25 }, tempC: 30 })
    const part = properties({ composition: { waterPct: 57, proteinPct: 14.25, fatPct: 23.75 }, tempC: 30 })
    expect(part.diffusivityM2PerS).toBeCloseTo(whole.diffusivityM2PerS, 15)
  })

  it('refuses a composition of which less than 80 % is named, naming the sum', () => {
    expect(() =>
      findCalculation('heat.properties')!.run({ composition: { waterPct: 40, proteinPct: 10, fatPct: 10 }, tempC: 20 }),
    ).toThrow(/composition: names only 60 %.*at least 80 %/)
  })
  it('refuses a temperature at which the mix is frozen', () => {
    expect(() => findCalculation('heat.properties')!.run({ composition: only('waterPct'), tempC: -10 })).toThrow(
      /tempC: is -10; allowed: a number in °C, at least -1/,
    )
  })

  it('is followed by the solver’s cubic within 0.05 % from 0 to 100 °C', () => {
    const composition = { waterPct: 54, proteinPct: 13, fatPct: 30, ashPct: 3 }
    const { conductivity: c } = materialOf(composition, 10)
    for (let t = 0; t <= 100; t += 5) {
      const cubic = c[0] + t * (c[1] + t * (c[2] + t * c[3]))
      expect(cubic / mixtureProperties(massFractions(composition), t).conductivity).toBeCloseTo(1, 3)
    }
  })
})
