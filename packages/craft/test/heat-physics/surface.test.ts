import { describe, expect, it } from 'vitest'
import { air } from '@forcemeat/craft/heat/air'
import { cook } from '@forcemeat/craft/heat/cook'
import { surfaceOf, vapourFlow } from '@forcemeat/craft/heat/exchange'
import { crossFlowNusselt, filmCoefficient, naturalNusselt } from '@forcemeat/craft/heat/film'
import { mix, piece } from './kitchen.ts'

const house = (over: object) => ({
  medium: 'air' as const,
  tempC: 70,
  wetBulbC: 55,
  airSpeedMPerS: 3,
  minutes: 180,
  ...over,
})

describe('a wet surface in moving air', () => {
  it.each([
    { tempC: 70, wetBulbC: 55 },
    { tempC: 60, wetBulbC: 40 },
    { tempC: 80, wetBulbC: 70 },
    { tempC: 12, wetBulbC: 9 },
  ])(
    'comes to the wet bulb: $tempC °C dry, $wetBulbC °C wet, within 0.2 °C (radiation and the Lewis factor nearly cancel), and exactly with a given film',
    (state) => {
      const { stages } = cook(piece({ diameterMm: 30, surface: 'wet', stages: [house({ ...state, minutes: 100 })] }))
      expect(Math.abs(stages[0]!.surfaceC - state.wetBulbC)).toBeLessThan(0.2)
      expect(Math.abs(stages[0]!.coreC - state.wetBulbC)).toBeLessThan(0.2)
      const given = cook(
        piece({ diameterMm: 30, surface: 'wet', stages: [house({ ...state, filmWPerM2K: 40, minutes: 100 })] }),
      ).stages[0]!
      expect(given.surfaceC).toBeCloseTo(state.wetBulbC, 2)
    },
  )
  it('stays at the wet bulb until the critical loss, and rises above it only when it dries', () => {
    const r = cook(piece({ diameterMm: 30, stages: [house({ minutes: 400 })] }))
    const wet = r.series.filter((p) => p.minute > 60 && p.weightLossPct < 9.9)
    const dry = r.series.filter((p) => p.weightLossPct > 15)
    expect(wet.length).toBeGreaterThan(3)
    for (const p of wet) expect(Math.abs(p.surfaceC - 55)).toBeLessThan(0.3)
    for (const p of dry) expect(p.surfaceC).toBeGreaterThan(55.3)
  })
  it('gives off h·(T − wet bulb)/latent heat once it is idle: the psychrometer’s balance', () => {
    const r = cook(piece({ diameterMm: 30, surface: 'wet', stages: [house({ filmWPerM2K: 40, minutes: 130 })] }))
    const [a, b] = [r.series.find((p) => p.minute === 60)!, r.series.find((p) => p.minute === 120)!]
    const perHour = (40 * (70 - 55) * 3600) / ((2501 - 2.326 * 55) * 1000)
    const massPerArea = 0.5 * 0.015 * 1020 // kg/m², half the radius times the density
    expect((b.weightLossPct - a.weightLossPct) / 100).toBeCloseTo(perHour / massPerArea, 1)
    expect(((b.weightLossPct - a.weightLossPct) * massPerArea) / 100 / perHour).toBeCloseTo(1, 1)
  })
  it('trades no heat at the wet bulb itself', () => {
    const { humidityRatio } = air({ tempC: 70, wetBulbC: 55 })
    const out = { flow: 0, fall: 0 }
    surfaceOf({ filmWPerM2K: 25, mediumC: 70, humid: { pressurePa: 101_325, ratio: humidityRatio, wetness: 1 } })(
      55,
      out,
    )
    expect(Math.abs(out.flow)).toBeLessThan(1e-6)
  })
  it('says truly how fast its flow falls with its own temperature', () => {
    const x = { filmWPerM2K: 25, mediumC: 70, humid: { pressurePa: 101_325, ratio: 0.08, wetness: 0.7 } }
    const at = (t: number) => {
      const out = { flow: 0, fall: 0 }
      surfaceOf(x)(t, out)
      return out
    }
    for (const t of [5, 30, 60, 90, 98])
      expect((at(t - 0.001).flow - at(t + 0.001).flow) / 0.002 / at(t).fall).toBeCloseTo(1, 4)
  })
})

describe('condensation', () => {
  it('heats a cold piece faster than dry air of the same temperature', () => {
    const humid = cook(piece({ stages: [house({ wetBulbC: 65, minutes: 20 })] })).stages[0]!
    const dry = cook(
      piece({ surface: 'moisture-proof', stages: [{ medium: 'air', tempC: 70, airSpeedMPerS: 3, minutes: 20 }] }),
    ).stages[0]!
    expect(humid.surfaceC).toBeGreaterThan(dry.surfaceC + 5)
  })
  it('costs no weight, and is given back before the sausage loses any', () => {
    const r = cook(
      piece({ stages: [house({ wetBulbC: 65, minutes: 15 }), house({ tempC: 75, wetBulbC: 45, minutes: 1 })] }),
    )
    expect(r.stages[0]!.weightLossPct).toBe(0)
    expect(r.stages[1]!.weightLossPct).toBeLessThan(0.005)
  })
  it('ends where the surface meets the dew point', () => {
    const { humidityRatio, dewPointC } = air({ tempC: 70, wetBulbC: 60 })
    const x = { filmWPerM2K: 25, mediumC: 70, humid: { pressurePa: 101_325, ratio: humidityRatio, wetness: 1 } }
    expect(vapourFlow(x, dewPointC - 0.1)).toBeLessThan(0)
    expect(vapourFlow(x, dewPointC + 0.1)).toBeGreaterThan(0)
  })
  it('in a steam house brings the surface to the steam’s temperature, and no further', () => {
    const { series } = cook(piece({ diameterMm: 40, stages: [{ medium: 'steam', tempC: 78, minutes: 120 }] }))
    for (const p of series) expect(p.surfaceC).toBeLessThan(78.01)
    expect(series.at(-1)!.surfaceC).toBeCloseTo(78, 1)
  })
})

describe('hard inputs', () => {
  it('stay sound: a piece of 92 °C thrown into dry air with a film of 2400 W/(m²·K) cools without overshoot and keeps its books', () => {
    const r = cook(
      piece({
        diameterMm: 34,
        stages: [
          { medium: 'air', tempC: 92, minutes: 47 },
          { medium: 'air', tempC: 43.6, wetBulbC: 29, filmWPerM2K: 2400, minutes: 60 },
        ],
      }),
    )
    for (const p of r.series) {
      expect(p.surfaceC).toBeGreaterThan(9.9)
      expect(p.surfaceC).toBeLessThan(92.1)
    }
    expect(Math.abs(r.energyResidual)).toBeLessThan(1e-6)
    expect(r.weightLossPct).toBeLessThanOrEqual(mix.waterPct + 0.01)
  })
  it('never take more water than the piece holds', () => {
    const r = cook(piece({ diameterMm: 15, surface: 'wet', stages: [house({ wetBulbC: 35, minutes: 2000 })] }))
    expect(r.weightLossPct).toBeLessThanOrEqual(mix.waterPct + 0.01)
    expect(r.warnings.join()).toMatch(/beyond what this model of the surface is for/)
  })
})

describe('weight', () => {
  it('is kept whole by a moisture-proof casing', () => {
    expect(cook(piece({ surface: 'moisture-proof', stages: [house({})] })).weightLossPct).toBe(0)
  })
  it('is lost more the drier the air', () => {
    const loss = (wetBulbC: number) => cook(piece({ diameterMm: 30, stages: [house({ wetBulbC })] })).weightLossPct
    expect(loss(45)).toBeGreaterThan(loss(55))
    expect(loss(55)).toBeGreaterThan(loss(65))
  })
})

describe('film coefficients', () => {
  // The equation of Churchill & Bernstein 1977 worked by hand for air, Pr 0.71: Re 1e4 → 0.3 + 0.62·100·0.8921/[1 + 0.6820]^¼ · [1 + 0.1240]^⅘.
  it('give 53.6 for Re 1e4, Pr 0.71 in cross-flow (Churchill & Bernstein 1977, worked by hand)', () => {
    expect(crossFlowNusselt(1e4, 0.71)).toBeCloseTo(0.3 + ((62 * 0.89211) / 1.68211 ** 0.25) * 1.12395 ** 0.8, 1)
  })
  it('give 14.5 for Ra 1e6, Pr 0.7 about a still horizontal cylinder (Churchill & Chu 1975, worked by hand)', () => {
    expect(naturalNusselt(1e6, 0.7)).toBeCloseTo((0.6 + 3.87 / 1.2059) ** 2, 1)
  })
  it.each([
    { what: 'smokehouse air', medium: 'air' as const, speed: 2, low: 10, high: 40 },
    { what: 'still water', medium: 'water' as const, speed: 0, low: 150, high: 1000 },
    { what: 'stirred water', medium: 'water' as const, speed: 0.2, low: 500, high: 2500 },
  ])(
    'lie in the usual range of $what about a 60 mm sausage (common practice, no source)',
    ({ medium, speed, low, high }) => {
      const h = filmCoefficient({ medium, mediumC: 70, surfaceC: 20, diameterM: 0.06, speed, pressurePa: 101_325 })
      expect(h).toBeGreaterThan(low)
      expect(h).toBeLessThan(high)
    },
  )
  it('rise with the air’s speed and fall with the diameter', () => {
    const h = (speed: number, diameterM: number) =>
      filmCoefficient({ medium: 'air', mediumC: 70, surfaceC: 40, diameterM, speed, pressurePa: 101_325 })
    expect(h(2, 0.06)).toBeGreaterThan(h(1, 0.06))
    expect(h(1, 0.03)).toBeGreaterThan(h(1, 0.06))
    expect(h(0.01, 0.06)).toBeGreaterThan(h(0, 0.06) * 0.999)
  })
  it('are scaled by filmFactor where not given, and left alone where given', () => {
    const stages = [{ medium: 'air' as const, tempC: 70, airSpeedMPerS: 1, minutes: 10 }]
    const film = (filmFactor: number, given?: number) =>
      cook({
        diameterMm: 60,
        composition: mix,
        startC: 10,
        filmFactor,
        stages: given ? [{ ...stages[0]!, filmWPerM2K: given }] : stages,
      }).stages[0]!.filmWPerM2K
    expect(film(0.5)).toBeCloseTo(film(1) / 2, 9)
    expect(film(0.5, 25)).toBe(25)
  })
})
