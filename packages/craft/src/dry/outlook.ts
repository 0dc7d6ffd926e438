import { airSoFar, plannedFrom, type AirReading, type AirSoFar } from './air-so-far.ts'
import { course } from './course.ts'
import {
  LONGEST_DAYS,
  type CourseInput,
  type CourseOutput,
  type DryingPiece,
  type DryingStage,
} from './course-schema.ts'
import type { MeanLoss } from './marked-pieces.ts'

/** A batch that dries: the piece, the air it was planned to have and has had, and what its marked pieces lost. */
export type Drying = DryingPiece & {
  readonly planned: readonly DryingStage[]
  readonly log: readonly AirReading[]
  readonly losses: readonly Pick<MeanLoss, 'day' | 'weightLossPct'>[]
}

/** A change of the air from a day on. */
export type AirChange = {
  readonly fromDay: number
  /** Points of humidity and degrees added to the air as it would be. */
  readonly rhPoints?: number
  readonly tempC?: number
  readonly airSpeedMPerS?: number
}

/** What was foretold right after a weighing. */
export type Forecast = {
  readonly day: number
  readonly weightLossPct: number
  readonly readyDay?: CourseOutput['readyDay']
}

/** Weighings and stages a course takes; what is too much is left out from the oldest on. */
const MOST_WEIGHINGS = 200

/** The course of a batch as far as it is known on a day: logged air and weighings up to then, planned air after it. */
export function courseInputAt(drying: Drying, untilDay: number = Infinity): { input: CourseInput; air: AirSoFar } {
  const { diameterMm, composition, target, planned, log, losses } = drying
  const air = airSoFar(planned, log, untilDay)
  const weighings = losses
    .filter((w) => w.day <= untilDay + 1e-9)
    .slice(-MOST_WEIGHINGS)
    .map(({ day, weightLossPct }) => ({ day, weightLossPct }))
  return {
    input: {
      diameterMm,
      composition,
      target,
      stages: within(air.stages),
      ...(weighings.length === 0 ? {} : { weighings }),
    },
    air,
  }
}

/** Stages cut where they go on past the longest course. */
function within(stages: readonly DryingStage[]): DryingStage[] {
  let left = LONGEST_DAYS
  return stages.flatMap((s) => {
    const days = Math.min(s.days, left)
    left -= days
    return days > 0 ? [{ ...s, days }] : []
  })
}

/** Stages with their air changed from a day on, kept within what the course takes. */
export function changedAir(stages: readonly DryingStage[], change: AirChange): DryingStage[] {
  const { fromDay, rhPoints = 0, tempC = 0, airSpeedMPerS } = change
  const before: DryingStage[] = []
  let begin = 0
  for (const s of stages) {
    const days = Math.min(s.days, fromDay - begin)
    if (days > 1e-6) before.push({ ...s, days })
    begin += s.days
  }
  if (fromDay > begin + 1e-6) before.push({ ...stages.at(-1)!, days: fromDay - begin })
  const after = plannedFrom(stages, fromDay).map((s) => ({
    ...s,
    tempC: Math.max(0, Math.min(45, s.tempC + tempC)),
    rhPct: Math.max(10, Math.min(100, s.rhPct + rhPoints)),
    ...(airSpeedMPerS === undefined ? {} : { airSpeedMPerS }),
  }))
  return within([...before, ...after])
}

/** What would have been foretold after each weighing, by what was known then: how the band narrowed. */
export function forecasts(drying: Drying, days: readonly number[] = drying.losses.map((w) => w.day)): Forecast[] {
  return days.map((day) => {
    const { readyDay } = course(courseInputAt(drying, day).input)
    const weightLossPct = drying.losses.findLast((w) => w.day <= day + 1e-9)?.weightLossPct ?? 0
    return { day, weightLossPct, ...(readyDay === undefined ? {} : { readyDay }) }
  })
}
