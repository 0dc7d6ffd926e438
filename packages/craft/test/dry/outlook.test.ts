import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { airSoFar, plannedFrom } from '../../src/dry/air-so-far.ts'
import { course } from '../../src/dry/course.ts'
import { markedPieces } from '../../src/dry/marked-pieces.ts'
import { targetsLeft } from '../../src/dry/targets-left.ts'
import { changedAir, courseInputAt, forecasts, type Drying } from '../../src/dry/outlook.ts'

const planned = [
  { days: 2, tempC: 22, rhPct: 92 },
  { days: 38, tempC: 14, rhPct: 80 },
]
const total = (stages: readonly { days: number }[]) => stages.reduce((s, x) => s + x.days, 0)

describe('marked pieces', () => {
  it('lose against their own first weight, and pieces weighed within six hours are one weighing', () => {
    const { losses } = markedPieces([
      { piece: 'P1', day: 0, g: 1000 },
      { piece: 'P2', day: 0.01, g: 500 },
      { piece: 'P1', day: 5, g: 900 },
      { piece: 'P2', day: 5.1, g: 460 },
    ])
    expect(losses).toHaveLength(1)
    expect(losses[0]!.weightLossPct).toBeCloseTo((10 + 8) / 2, 10)
    expect(losses[0]!.sdPct).toBeCloseTo(Math.SQRT2, 10)
  })

  it('count once in a weighing, as last weighed, whatever order they come in', () => {
    const { losses } = markedPieces([
      { piece: 'P1', day: 5.02, g: 880 },
      { piece: 'P1', day: 5, g: 800 },
      { piece: 'P1', day: 0, g: 1000 },
    ])
    expect(losses.map((l) => l.weightLossPct)).toEqual([expect.closeTo(12, 10)])
    expect(losses[0]).not.toHaveProperty('sdPct')
  })

  it('first weighed more than a day after stuffing are named and left out', () => {
    const { starts, losses } = markedPieces([
      { piece: 'P1', day: 0, g: 1000 },
      { piece: 'P9', day: 4, g: 900 },
      { piece: 'P9', day: 8, g: 850 },
    ])
    expect(starts.find((s) => s.piece === 'P9')!.counts).toBe(false)
    expect(losses).toEqual([])
  })
})

describe('the air so far', () => {
  it('is the plan where nothing is logged', () => expect(airSoFar(planned, []).stages).toEqual(planned))

  it('is the log up to its end and the plan from there, day for day', () => {
    const log = Array.from({ length: 24 * 5 + 1 }, (_, i) => ({ day: i / 24, tempC: 16, rhPct: 85 }))
    const { stages, loggedTo, filledDays } = airSoFar(planned, log)
    expect(loggedTo).toBe(5)
    expect(filledDays).toBe(0)
    expect(stages).toEqual([
      { days: expect.closeTo(5, 9), tempC: expect.closeTo(16, 9), rhPct: expect.closeTo(85, 9) },
      { days: expect.closeTo(35, 9), tempC: 14, rhPct: 80 },
    ])
  })

  it('takes the planned humidity where only temperature was logged, and says how long', () => {
    const log = Array.from({ length: 24 * 4 + 1 }, (_, i) => ({ day: i / 24, tempC: 15, rhPct: null }))
    const { stages, filledDays } = airSoFar(planned, log)
    expect(filledDays).toBeCloseTo(4, 9)
    expect(stages[0]!.rhPct).toBe(92)
  })

  it('keeps every day: its stages last as long as log or plan, whichever is longer', () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            tempC: fc.double({ min: -5, max: 50, noNaN: true }),
            rhPct: fc.double({ min: 0, max: 100, noNaN: true }),
          }),
          { minLength: 2, maxLength: 400 },
        ),
        (rows) => {
          const log = rows.map((r, i) => ({ day: i / 6, ...r }))
          const { stages } = airSoFar(planned, log)
          const end = Math.max(total(planned), log.at(-1)!.day + (log.at(-1)!.day >= total(planned) ? 1 : 0))
          expect(total(stages)).toBeCloseTo(end, 6)
          for (const s of stages) {
            expect(s.tempC).toBeGreaterThanOrEqual(0)
            expect(s.tempC).toBeLessThanOrEqual(45)
            expect(s.rhPct).toBeGreaterThanOrEqual(10)
          }
        },
      ),
      { numRuns: 100 },
    ))

  it('cuts the plan at a day within a stage', () =>
    expect(plannedFrom(planned, 10)).toEqual([{ days: 30, tempC: 14, rhPct: 80 }]))
})

describe('air changed from a day on', () => {
  it('leaves what was as it was, and moves what is ahead', () => {
    const stages = changedAir(planned, { fromDay: 10, rhPoints: 4, tempC: -1, airSpeedMPerS: 0.1 })
    expect(stages).toEqual([
      { days: 2, tempC: 22, rhPct: 92 },
      { days: 8, tempC: 14, rhPct: 80 },
      { days: 30, tempC: 13, rhPct: 84, airSpeedMPerS: 0.1 },
    ])
  })

  it('stays within what a course takes', () => {
    const ahead = changedAir(planned, { fromDay: 0, rhPoints: 30 })
    expect(ahead.every((s) => s.rhPct <= 100)).toBe(true)
  })

  it('of moister air dries no faster (common practice: moister air dries slower)', () => {
    const input = courseInputAt({ ...drying, losses: [] }).input
    const moister = course({ ...input, stages: changedAir(input.stages, { fromDay: 12, rhPoints: 4 }) })
    expect(moister.readyDay?.likely ?? Infinity).toBeGreaterThan(course(input).readyDay!.likely)
  })
})

const truth = course({
  diameterMm: 50,
  composition: { waterPct: 57, proteinPct: 16, fatPct: 23, carbohydratePct: 0.6, ashPct: 3.4, saltPct: 2.8 },
  target: { weightLossPct: 30 },
  stages: planned,
})
const drying: Drying = {
  diameterMm: 50,
  composition: { waterPct: 57, proteinPct: 16, fatPct: 23, carbohydratePct: 0.6, ashPct: 3.4, saltPct: 2.8 },
  target: { weightLossPct: 30 },
  planned,
  log: [],
  losses: [3, 7, 11, 15].map((day) => ({ day, weightLossPct: truth.series.find((r) => r.day === day)!.weightLossPct })),
}

describe('forecasts after each weighing', () => {
  it('narrow as weighings come in, and know nothing of later ones', () => {
    const found = forecasts(drying)
    const bands = found.map((f) => f.readyDay!.late! - f.readyDay!.early)
    expect(bands.at(-1)!).toBeLessThan(bands[0]!)
    expect(forecasts({ ...drying, losses: drying.losses.slice(0, 2) })[1]).toEqual(found[1])
  })

  it('of a batch that does as the published figures say stay on its day', () => {
    for (const f of forecasts(drying)) expect(f.readyDay!.likely).toBeCloseTo(truth.readyDay!.likely, 0)
  })
})

describe('targets left', () => {
  const target = { weightLossPct: 30, aw: 0.9, moistureToProtein: 1.6 }
  it('are those no measured figure has met', () => {
    const { left, met } = targetsLeft(target, { weightLossPct: 31, aw: 0.905 })
    expect(left).toEqual({ aw: 0.9, moistureToProtein: 1.6 })
    expect(met).toEqual([{ of: 'weightLossPct', target: 30, measured: 31 }])
  })
  it('are met at the figure itself', () =>
    expect(targetsLeft(target, { weightLossPct: 30, aw: 0.9, moistureToProtein: 1.6 }).left).toEqual({}))
  it('are all left where nothing was measured', () => expect(targetsLeft(target, {}).left).toEqual(target))
})
