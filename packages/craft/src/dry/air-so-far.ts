import type { DryingStage } from './course-schema.ts'

/** The room's air as a log has it, days after stuffing; null where a channel has no reading. */
export type AirReading = { readonly day: number; readonly tempC: number | null; readonly rhPct: number | null }

export type AirSoFar = {
  readonly stages: readonly DryingStage[]
  /** Last day the log stands for; absent without a log. */
  readonly loggedTo?: number
  /** Days before that whose temperature or humidity was not logged, where the planned one was taken. */
  readonly filledDays: number
  /** Days on which the air lay outside what the model takes, brought to its edge. */
  readonly clampedDays: number
}

/** Logged air is taken together by the quarter of a day. */
const PART_DAYS = 0.25
/** Parts whose air differs by no more than this are one stage. */
const SAME = { tempC: 0.3, rhPct: 1 } as const
/** What the course takes. */
const RANGE = { tempC: [0, 45], rhPct: [10, 100] } as const

const within = (x: number, [low, high]: readonly [number, number]): number => Math.max(low, Math.min(high, x))
const mean = (xs: readonly number[]): number | undefined =>
  xs.length === 0 ? undefined : xs.reduce((s, x) => s + x, 0) / xs.length

/** The planned stage a day falls into; after the last one its air goes on. */
function plannedAt(planned: readonly DryingStage[], day: number): DryingStage {
  let end = 0
  for (const stage of planned) {
    end += stage.days
    if (day < end - 1e-9) return stage
  }
  return planned.at(-1)!
}

/** Planned stages from a day on, the first of them cut. */
export function plannedFrom(planned: readonly DryingStage[], day: number): DryingStage[] {
  let begin = 0
  const left = planned.flatMap((stage) => {
    const end = begin + stage.days
    const days = end - Math.max(begin, day)
    begin = end
    return days > 1e-6 ? [{ ...stage, days }] : []
  })
  return left.length > 0 ? left : [{ ...planned.at(-1)!, days: 1 }]
}

type Part = { days: number; tempC: number; rhPct: number; airSpeedMPerS: number | undefined }

const asStage = ({ days, tempC, rhPct, airSpeedMPerS }: Part): DryingStage => ({
  days,
  tempC,
  rhPct,
  ...(airSpeedMPerS === undefined ? {} : { airSpeedMPerS }),
})

/**
 * Stages of a course from stuffing on: the logged air up to where the log ends, the planned air from there. Where a channel was not logged the
 * planned figure stands in, and how long is said.
 *
 * @param planned at least one stage
 * @param until day the log is read to; all of it unless said
 */
export function airSoFar(
  planned: readonly DryingStage[],
  log: readonly AirReading[],
  until: number = Infinity,
): AirSoFar {
  const read = log.filter((r) => r.day >= 0 && r.day <= until && (r.tempC !== null || r.rhPct !== null))
  const last = read.at(-1)?.day
  if (last === undefined || last < PART_DAYS) return { stages: plannedFrom(planned, 0), filledDays: 0, clampedDays: 0 }
  const byPart = Map.groupBy(read, (r) => Math.floor(r.day / PART_DAYS))
  const parts: Part[] = []
  let [filledDays, clampedDays] = [0, 0]
  for (let k = 0; k * PART_DAYS < last - 1e-9; k++) {
    const begin = k * PART_DAYS
    const days = Math.min(PART_DAYS, last - begin)
    const rows = byPart.get(k) ?? []
    const plan = plannedAt(planned, begin)
    const seen = {
      tempC: mean(rows.flatMap((r) => r.tempC ?? [])),
      rhPct: mean(rows.flatMap((r) => r.rhPct ?? [])),
    }
    if (seen.tempC === undefined || seen.rhPct === undefined) filledDays += days
    const [asTemp, asRh] = [seen.tempC ?? plan.tempC, seen.rhPct ?? plan.rhPct]
    const part: Part = {
      days,
      tempC: within(asTemp, RANGE.tempC),
      rhPct: within(asRh, RANGE.rhPct),
      airSpeedMPerS: plan.airSpeedMPerS,
    }
    if (part.tempC !== asTemp || part.rhPct !== asRh) clampedDays += days
    const before = parts.at(-1)
    const same =
      before !== undefined &&
      Math.abs(before.tempC - part.tempC) <= SAME.tempC &&
      Math.abs(before.rhPct - part.rhPct) <= SAME.rhPct &&
      before.airSpeedMPerS === part.airSpeedMPerS
    if (!same) {
      parts.push(part)
      continue
    }
    const sum = before.days + days
    before.tempC += ((part.tempC - before.tempC) * days) / sum
    before.rhPct += ((part.rhPct - before.rhPct) * days) / sum
    before.days = sum
  }
  return {
    stages: [...parts.map(asStage), ...plannedFrom(planned, last)],
    loggedTo: last,
    filledDays,
    clampedDays,
  }
}
