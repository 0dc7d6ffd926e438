import { describe, expect, it } from 'vitest'
import { cook } from '../../src/heat/cook.ts'
import { fit, type FitInput } from '../../src/heat/fit.ts'
import { forecast } from '../../src/heat/forecast.ts'

const piece = {
  diameterMm: 70,
  composition: { waterPct: 58, proteinPct: 14, fatPct: 24, ashPct: 3 },
  startC: 8,
}
const stages = [
  { medium: 'air' as const, tempC: 60, rhPct: 40, minutes: 60 },
  { medium: 'air' as const, tempC: 78, rhPct: 60, minutes: 240 },
  { medium: 'ice-water' as const, tempC: 1, minutes: 240 },
]
/** Films of the house the log comes from differ from what the correlations say. */
const truth = cook({ ...piece, filmFactor: 0.75, stages })
const at = (minute: number) => truth.series.find((p) => p.minute >= minute)!
const logTo = (minute: number): FitInput['log'] =>
  truth.series
    .filter((p) => p.minute <= minute && Number.isInteger(p.minute))
    .map((p) => ({ minute: p.minute, coreC: Math.round(10 * p.coreC) / 10 }))
const inputTo = (minute: number): FitInput => ({ ...piece, stages, log: logTo(minute) })

describe('what a fitted cook says is ahead', () => {
  const input = inputTo(150)
  const fitted = fit(input)

  it('begins at the measured core and follows the house it was fitted to', () => {
    const f = forecast(input, fitted, { holdMinutes: 90, after: [] })
    expect(f.current).toBe(1)
    expect(f.nowMinute).toBe(150)
    expect(f.series[0]!.coreC).toBeCloseTo(at(150).coreC, 0)
    // Half a degree over an hour and a half: the log is rounded to a tenth and the film is taken as one figure a stage.
    for (const p of f.series) expect(Math.abs(p.coreC - at(p.minute).coreC)).toBeLessThan(0.5)
    expect(f.series.at(-1)!.minute).toBe(240)
  })

  it('goes on rising at the core after it is pulled into ice water, then falls', () => {
    const f = forecast(input, fitted, { holdMinutes: 0, after: [stages[2]!] })
    const peak = Math.max(...f.series.map((p) => p.coreC))
    expect(peak).toBeGreaterThan(f.series[0]!.coreC + 0.2)
    expect(f.series.at(-1)!.coreC).toBeLessThan(10)
  })

  it('is never hotter at the poor end of the fit while it heats, nor colder while it chills', () => {
    const heat = (outlook: 'likely' | 'poor') =>
      forecast(input, fitted, { holdMinutes: 60, after: [] }, outlook).series.at(-1)!.coreC
    expect(heat('poor')).toBeLessThanOrEqual(heat('likely') + 1e-9)
    const chilled = { holdMinutes: 60, after: [{ medium: 'air' as const, tempC: 2, airSpeedMPerS: 2, minutes: 180 }] }
    const end = (outlook: 'likely' | 'poor') => forecast(input, fitted, chilled, outlook).series.at(-1)!.coreC
    expect(end('poor')).toBeGreaterThan(end('likely'))
  })

  it('ends with a stage ahead that runs until a core temperature', () => {
    const f = forecast(input, fitted, { holdMinutes: 0, after: [{ medium: 'ice-water', tempC: 1, untilCoreC: 20 }] })
    expect(f.series.at(-1)!.coreC).toBeCloseTo(20, 0)
  })

  it('lets the running stage go on until a core temperature', () => {
    const target = at(200).coreC
    const f = forecast(input, fitted, { holdMinutes: 0, untilCoreC: target, after: [] })
    expect(f.series.at(-1)!.coreC).toBeCloseTo(target, 0)
    // The core rises by hundredths of a degree a minute here, so that little error in it is much in time.
    expect(Math.abs(f.series.at(-1)!.minute - 200)).toBeLessThan(20)
  })

  it('joins what was measured and what is ahead into one log of ascending minutes', () => {
    const { log } = forecast(input, fitted, { holdMinutes: 10.5, after: [] })
    expect(log.slice(0, input.log.length)).toEqual(input.log)
    expect(log.every((r, i) => i === 0 || r.minute > log[i - 1]!.minute)).toBe(true)
    expect(log.at(-1)!.minute).toBeCloseTo(160.5, 6)
  })
})
