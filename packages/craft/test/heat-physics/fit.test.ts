import { describe, expect, it } from 'vitest'
import { findCalculation } from '@forcemeat/craft/calculations'
import { cook } from '@forcemeat/craft/heat/cook'
import { fit } from '@forcemeat/craft/heat/fit'
import { properties } from '@forcemeat/craft/heat/properties'
import { mix } from './kitchen.ts'

/** Normal deviates from a fixed seed (Park & Miller, Box & Muller). */
function noise(seed: number): () => number {
  let state = seed
  const uniform = () => {
    state = (state * 16_807) % 2_147_483_647
    return state / 2_147_483_647
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

const base = { diameterMm: 75, composition: mix, startC: 4 }
const films = [18, 25, 400]
const schedule = [
  { medium: 'air' as const, tempC: 60, wetBulbC: 45, minutes: 90 },
  { medium: 'air' as const, tempC: 75, wetBulbC: 65, minutes: 120 },
  { medium: 'water' as const, tempC: 78, untilCoreC: 72 },
]
const truth = cook({ ...base, stages: schedule.map((s, i) => ({ ...s, filmWPerM2K: films[i]! })) })
/** What the maker would enter: films well off the truth. */
const planned = schedule.map((s, i) => ({ ...s, filmWPerM2K: [13, 34, 700][i]! }))
const readings = (until: number, seed: number) => {
  const gauss = noise(seed)
  return truth.series
    .filter((p) => Number.isInteger(p.minute) && p.minute <= until)
    .map((p) => ({ minute: p.minute, coreC: p.coreC + 0.2 * gauss() }))
}

describe('heat.fit on simulated noisy logs (0.2 °C)', () => {
  it.each([1, 2, 3])(
    'recovers the film of the first stage inside its interval, and the noise as its rms (seed %i)',
    (seed) => {
      const f = fit({ ...base, stages: planned, log: readings(240, seed) })
      expect(f.filmIntervals[0]!.low).toBeLessThan(18)
      expect(f.filmIntervals[0]!.high).toBeGreaterThan(18)
      expect(f.diffusivityInterval.low).toBeLessThan(1)
      expect(f.diffusivityInterval.high).toBeGreaterThan(1)
      expect(f.rmsC).toBeGreaterThan(0.15)
      expect(f.rmsC).toBeLessThan(0.25)
    },
  )
  it.each([1, 2, 3])(
    'from two hours of readings foretells the time to 72 °C with a band that holds the truth (seed %i)',
    (seed) => {
      const { minutesToTargetC: t } = fit({ ...base, stages: planned, log: readings(120, seed), targetCoreC: 72 })
      const true_ = truth.minutesTotal - 120
      expect(t!.state).toBe('predicted')
      expect(t!.early!).toBeLessThan(true_ + 0.5)
      expect(t!.late!).toBeGreaterThan(true_ - 0.5)
      expect(t!.late! - t!.early!).toBeLessThan(25)
    },
  )
  it('narrows its band as readings come', () => {
    const width = (until: number) => {
      const { minutesToTargetC: t } = fit({ ...base, stages: planned, log: readings(until, 1), targetCoreC: 72 })
      return t!.late! - t!.early!
    }
    expect(width(230)).toBeLessThan(width(40))
  })
  it('recovers a diffusivity 8 % off from a well-stirred bath, where the film hardly matters', () => {
    const p = properties({ composition: mix, tempC: 40 })
    const given = {
      conductivityWPerMK: p.conductivityWPerMK,
      densityKgPerM3: p.densityKgPerM3,
      specificHeatJPerKgK: p.specificHeatJPerKgK,
    }
    const stages = [{ medium: 'water' as const, tempC: 75, filmWPerM2K: 900, minutes: 120 }]
    const real = cook({
      ...base,
      properties: { ...given, conductivityWPerMK: given.conductivityWPerMK * 1.08 },
      stages,
    })
    const gauss = noise(7)
    const log = real.series
      .filter((q) => Number.isInteger(q.minute))
      .map((q) => ({ minute: q.minute, coreC: q.coreC + 0.2 * gauss() }))
    const f = fit({ ...base, properties: given, stages, log })
    expect(f.diffusivityFactor).toBeGreaterThan(1.06)
    expect(f.diffusivityFactor).toBeLessThan(1.1)
    expect(f.diffusivityInterval.fromLog).toBe(true)
  })
  it('follows the house as logged where it sagged', () => {
    const stages = [
      { medium: 'air' as const, tempC: 60, filmWPerM2K: 20, minutes: 120 },
      { medium: 'air' as const, tempC: 72, filmWPerM2K: 20, minutes: 120, rampMinutes: 120 },
    ]
    const real = cook({ ...base, stages })
    const log = real.series
      .filter((q) => Number.isInteger(q.minute))
      .map((q) => ({ minute: q.minute, coreC: q.coreC, houseC: q.houseC }))
    const f = fit({ ...base, stages: [{ medium: 'air', tempC: 60, minutes: 240 }], log })
    expect(f.filmWPerM2K[0]!).toBeGreaterThan(19)
    expect(f.filmWPerM2K[0]!).toBeLessThan(21)
    expect(f.rmsC).toBeLessThan(0.1)
  })
  it('finds a stage that ended by core temperature from the log itself', () => {
    const stages = [
      { medium: 'water' as const, tempC: 70, untilCoreC: 55 },
      { medium: 'ice-water' as const, tempC: 1, minutes: 60 },
    ]
    const real = cook({
      ...base,
      stages: [
        { ...stages[0]!, filmWPerM2K: 300 },
        { ...stages[1]!, filmWPerM2K: 200 },
      ],
    })
    const log = real.series.filter((q) => Number.isInteger(q.minute)).map((q) => ({ minute: q.minute, coreC: q.coreC }))
    expect(fit({ ...base, stages, log }).rmsC).toBeLessThan(0.5)
  })
})

describe('heat.fit', () => {
  const log = readings(240, 1)
  it('says a target already met', () => {
    expect(fit({ ...base, stages: planned, log, targetCoreC: 50 }).minutesToTargetC).toEqual({
      targetC: 50,
      state: 'already-met',
    })
  })
  it('says a target this schedule does not reach', () => {
    const stages = planned.slice(0, 2)
    expect(fit({ ...base, stages, log: readings(100, 1), targetCoreC: 72 }).minutesToTargetC).toEqual({
      targetC: 72,
      state: 'not-in-this-schedule',
    })
  })
  it('skips readings that are missing', () => {
    const holes = log.map((r, i) => (i % 7 === 0 ? { ...r, coreC: null } : r))
    expect(fit({ ...base, stages: planned, log: holes }).readings).toBe(log.length - Math.ceil(log.length / 7))
  })
  it('warns where the model does not follow the log', () => {
    const wrong = log.map((r) => ({ ...r, coreC: r.coreC + (r.minute > 100 ? 15 : 0) }))
    expect(fit({ ...base, stages: planned, log: wrong }).warnings.join()).toMatch(/follows this log only to/)
  })
  it('refuses minutes out of order and too few readings, by name', () => {
    const run = (l: unknown) => () => findCalculation('heat.fit')!.run({ ...base, stages: planned, log: l })
    expect(run([log[0], log[2], log[1], log[3], log[4]])).toThrow(/log\[2\]\.minute: is 1, not after 2/)
    expect(run(log.slice(0, 2))).toThrow(/log: has 2 items/)
  })
})
