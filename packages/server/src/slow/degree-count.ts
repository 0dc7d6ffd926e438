import { degreeHours } from '@forcemeat/craft/ferment/degree-hours'
import { exposure } from '@forcemeat/craft/ferment/exposure'
import { degreeHourSystems } from '@forcemeat/craft/ferment/schema'
import type { Finding, WorkingStep } from '@forcemeat/craft/finding'
import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { AirPoint } from './chamber.ts'

type Taken = {
  readonly taken: string
  readonly ph: number
  readonly calibrated: boolean
  readonly piece?: string
  readonly step?: string
}

/** Chamber and pH on one axis of hours from the first reading. */
export type HourReading = {
  readonly hour: number
  readonly tempC: number | null
  readonly ph?: number
  /** Whether that pH may end a count. */
  readonly proven?: boolean
  readonly piece?: string
  readonly step?: Step
}
type Step = 'ferment' | 'dry' | 'pack'

/** One published count as it stands at the last reading. */
export type CountedSystem = {
  readonly jurisdiction: string
  readonly unit: string
  readonly degreeHours: number
  readonly limit: number
  /** How the limit was read in its source. */
  readonly limitMark?: string
  readonly highestC: number
  /** Hours from the start to the pH that ended the count. */
  readonly hoursToTarget?: number
  /** At the last temperature, from the last reading; absent once the count has ended, or where the chamber is below the base. */
  readonly hoursLeft?: number
  /** Instant the limit is used up at that temperature. */
  readonly runsOutAt?: string
  /** A stretch before the end of the count that nobody logged, hours from the start: what it added is not counted. */
  readonly hole?: { readonly from: number; readonly to: number }
  readonly working: readonly WorkingStep[]
}

export type HourLog = { readonly startAt: number; readonly rows: readonly HourReading[] }

const HOUR = 3_600_000

/**
 * A chamber's points as a log with the pH readings put in: where one was taken between two readings, at the temperature of the straight line
 * between them; further from any reading than the log's own spacing, without a temperature, which is a hole. Undefined under two points.
 */
export function hourLog(points: readonly AirPoint[], phs: readonly Taken[]): HourLog | undefined {
  const from = points.findIndex((p) => p.highC !== null)
  const used = from < 0 ? [] : points.slice(from)
  const first = used[0]
  if (!first || used.length < 2) return undefined
  const joinable = 60_000 * joinableMinutes([...new Set(used.map((p) => p.at / 60_000))])
  const hourOf = (at: number): number => (at - first.at) / HOUR
  const temperatureAt = (at: number): number | null => {
    const before = used.findLast((p) => p.at <= at && p.highC !== null)
    const after = used.find((p) => p.at >= at && p.highC !== null)
    if (!before) return null
    if (!after) return at - before.at <= joinable ? before.highC : null
    const span = after.at - before.at
    if (span > joinable) return null
    return span === 0 ? before.highC : before.highC! + ((after.highC! - before.highC!) * (at - before.at)) / span
  }
  const taken = phs
    .map(({ taken: instant, calibrated, ...p }) => ({ ...p, at: Date.parse(instant), proven: calibrated }))
    .filter((p) => p.at >= first.at)
    .map(({ at, ph, proven, piece, step }) => ({
      hour: hourOf(at),
      tempC: temperatureAt(at),
      ph,
      proven,
      ...(piece === undefined ? {} : { piece }),
      step: step === 'dry' || step === 'pack' ? step : ('ferment' as const),
    }))
  const rows: HourReading[] = [...used.map((p) => ({ hour: hourOf(p.at), tempC: p.highC })), ...taken]
  return { startAt: first.at, rows: rows.toSorted((a, b) => a.hour - b.hour) }
}

const withPh = (rows: readonly HourReading[], counts: (r: HourReading) => boolean) =>
  rows.map(({ hour, tempC, ph, proven, piece, step }, i) => ({
    hour,
    tempC,
    ...(ph === undefined || !counts(rows[i]!)
      ? {}
      : {
          ph,
          phCounts: proven === true,
          ...(piece === undefined ? {} : { piece }),
          ...(step === undefined ? {} : { step }),
        }),
  }))

const markOf = (findings: readonly Finding[], system: string): Pick<CountedSystem, 'limitMark'> => {
  const mark = findings.find((f) => f.jurisdiction === system)?.source.mark
  return mark === undefined ? {} : { limitMark: mark }
}

/**
 * The published degree-hour counts, ended as a batch's judgement ends them: at a pH that no later one is above, over all its pieces. A pH by a
 * meter that was not calibrated that day ends no count, so the hours go on; the findings then say that they cannot tell. `toleranceC` is the
 * largest error of the thermometer, ± °C, `phTolerance` that of the pH meter: a pH ends the count where it is at or below the target with that
 * error added.
 */
export function countDegreeHours(
  { startAt, rows }: HourLog,
  targetPh: number,
  { toleranceC = 0, phTolerance }: { readonly toleranceC?: number; readonly phTolerance?: number } = {},
): { systems: CountedSystem[]; findings: readonly Finding[]; lastTempC?: number } {
  // What does not count may hold a batch up, and ends nothing.
  const proven = withPh(rows, (r) => r.proven === true || r.ph! > targetPh)
  const error = phTolerance === undefined ? {} : { phTolerance }
  const last = rows.findLast((r) => r.tempC !== null)
  const counts = degreeHourSystems.map((system) => ({
    system,
    ...degreeHours({ log: proven, targetPh, system, toleranceC, ...error }),
  }))
  const ended = counts[0]!.hoursToTarget
  const { hole } = exposure(proven, 0, ended === undefined ? rows.at(-1)!.hour : rows[0]!.hour + ended)
  const systems = counts.map((c): CountedSystem => ({
    jurisdiction: c.system,
    ...markOf(c.findings, c.system),
    unit: c.unit,
    degreeHours: c.degreeHours,
    limit: c.limit,
    highestC: c.highestC,
    ...(c.hoursToTarget === undefined ? {} : { hoursToTarget: c.hoursToTarget }),
    ...(c.hoursLeft === undefined || !last
      ? {}
      : {
          hoursLeft: c.hoursLeft,
          runsOutAt: new Date(startAt + (last.hour + c.hoursLeft) * HOUR).toISOString(),
        }),
    ...(hole ? { hole } : {}),
    working: c.working,
  }))
  return {
    systems,
    findings: degreeHours({ log: withPh(rows, () => true), targetPh, toleranceC, ...error }).findings,
    ...(last?.tempC === undefined || last.tempC === null ? {} : { lastTempC: last.tempC }),
  }
}
