import { describe, expect, it } from 'vitest'
import { findCalculation } from '@forcemeat/craft/calculations'
import { cook } from '@forcemeat/craft/heat/cook'
import { schedule, type ScheduleInput } from '@forcemeat/craft/heat/schedule'
import { mix } from './kitchen.ts'

const ask = (over: Partial<ScheduleInput> & Pick<ScheduleInput, 'target'>): ScheduleInput => ({
  diameterMm: 75,
  composition: mix,
  startC: 5,
  medium: 'air',
  rhPct: 70,
  airSpeedMPerS: 2,
  houseMaxC: 90,
  surfaceMaxC: 75,
  ...over,
})
const seventyC7Log = { logReduction: 7, referenceC: 70, dMinutes: 0.1, zC: 6 }

describe('heat.schedule', () => {
  it('reaches its core temperature with the surface under its limit, as heat.cook run on its stages confirms', () => {
    const s = schedule(ask({ target: { coreC: 66 } }))
    const { diameterMm, composition, startC } = ask({ target: { coreC: 66 } })
    const again = cook({ diameterMm, composition, startC, stages: s.stages })
    expect(again.stages.at(-1)!.coreC).toBeGreaterThanOrEqual(66)
    expect(Math.max(...again.series.map((p) => p.surfaceC))).toBeLessThanOrEqual(75)
    expect(again.minutesTotal).toBeCloseTo(s.minutesTotal, 6)
  })
  it('is quicker than one step at the surface limit where the house may be hotter', () => {
    const s = schedule(ask({ target: seventyC7Log }))
    expect(s.minutesTotal).toBeLessThan(s.oneStep!.minutesTotal - 10)
    expect(s.logReduction!).toBeGreaterThanOrEqual(7)
    expect(s.surfacePeakC).toBeLessThanOrEqual(75)
  })
  it('takes no longer when the surface may be hotter', () => {
    const minutes = (surfaceMaxC: number) => schedule(ask({ target: { coreC: 65 }, surfaceMaxC })).minutesTotal
    expect(minutes(80)).toBeLessThanOrEqual(minutes(72) + 1)
  })
  it('is one step at the highest temperature where nothing limits the surface', () => {
    const { surfaceMaxC: _, rhPct: __, airSpeedMPerS: ___, ...free } = ask({ target: { coreC: 70 }, medium: 'water' })
    const s = schedule(free)
    expect(s.stages).toHaveLength(1)
    expect(s.stages[0]!.tempC).toBe(90)
  })
  it('loses no more weight when asked for the least loss than when asked for the shortest time', () => {
    const dry = { rhPct: 35, target: { coreC: 55 } }
    const least = schedule(ask({ ...dry, objective: 'lowest-loss' }))
    const shortest = schedule(ask({ ...dry, objective: 'shortest' }))
    expect(least.weightLossPct).toBeLessThanOrEqual(shortest.weightLossPct + 0.05)
  })
  it('refuses a target the house cannot give, naming the limits', () => {
    const bath: ScheduleInput = {
      diameterMm: 75,
      composition: mix,
      startC: 5,
      medium: 'water',
      houseMaxC: 62,
      surfaceMaxC: 75,
      target: { coreC: 70 },
    }
    expect(() => schedule(bath)).toThrow(/target: is not reached within 24 h with the house at most 62 °C/)
  })
  it('refuses humidity for water, by name', () => {
    expect(() => findCalculation('heat.schedule')!.run(ask({ medium: 'water', target: { coreC: 70 } }))).toThrow(
      /rhPct: is given for water/,
    )
  })
  it('warns that it is a proposal', () => {
    expect(schedule(ask({ target: { coreC: 60 } })).warnings[0]).toMatch(/not proven best/)
  })
})
