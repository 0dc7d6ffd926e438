import { createTracker } from '@forcemeat/craft/heat/track'
import { defaultDeathSet } from '@forcemeat/craft/heat/data/death'
import { lethalityCourse } from '@forcemeat/craft/heat/lethality-course'
import type { Answers } from '@forcemeat/craft/log/format'
import { readLog } from '@forcemeat/craft/log/read'
import { judgeLog, type JudgeOptions, type LogJudgement } from '@forcemeat/craft/log/judge-log'
import type { Finding } from '@forcemeat/craft/finding'
import { coolingMarks } from '@forcemeat/rulebook/cooling/judge'
import { coolingSpans, type CoolingSpan } from '@forcemeat/rulebook/cooling/spans'
import type { CurveSeries, PlotWindow } from '../plot/model.ts'

export type CurveRequest = {
  readonly bytes: Uint8Array
  readonly answers: Answers
  readonly options: Omit<JudgeOptions, 'answers' | 'onProgress'>
}

export type CurvePlotData = {
  readonly minutes: readonly number[]
  readonly series: readonly CurveSeries[]
  readonly windows: readonly PlotWindow[]
  /** Temperatures the drawn cooling option turns on, °C. */
  readonly marksC: readonly number[]
}

/** The log of a room: its air, with no core to be judged. */
export type RoomLog = {
  readonly minutes: readonly number[]
  /** °C, and % relative humidity where `moist`. */
  readonly columns: readonly {
    readonly name: string
    readonly moist: boolean
    readonly values: readonly (number | null)[]
  }[]
  readonly firstStamp?: number
  readonly rows: number
}

export type CurveResult = { readonly judged: LogJudgement; readonly plot?: CurvePlotData; readonly room?: RoomLog }

const POINTS = 1200

type Points = LogJudgement['series'][number]['points']

/** Put series that were thinned apart on one row of minutes, empty where a series has no point. */
function aligned(all: readonly (readonly { minute: number; value: number }[])[]): {
  minutes: number[]
  columns: (number | null)[][]
} {
  const minutes = [...new Set(all.flatMap((s) => s.map((p) => p.minute)))].toSorted((a, b) => a - b)
  const columns = all.map((s) => {
    const at = new Map(s.map((p) => [p.minute, p.value]))
    return minutes.map((m) => at.get(m) ?? between(s, m))
  })
  return { minutes, columns }
}

/** Value of a thinned series between its points; nothing before the first and after the last. */
function between(s: readonly { minute: number; value: number }[], minute: number): number | null {
  let [low, high] = [0, s.length - 1]
  if (high < 0 || minute < s[low]!.minute || minute > s[high]!.minute) return null
  while (high - low > 1) {
    const mid = (low + high) >> 1
    if (s[mid]!.minute <= minute) low = mid
    else high = mid
  }
  const [a, b] = [s[low]!, s[high]!]
  return b.minute === a.minute ? a.value : a.value + ((b.value - a.value) * (minute - a.minute)) / (b.minute - a.minute)
}

/** The option to draw: the first one met, else the first that applies. */
const optionToDraw = (findings: readonly Finding[], options: readonly string[]): string | undefined =>
  findings.find((f) => options.includes(f.rule) && f.verdict === 'pass')?.rule ?? options[0]

function spansOf(points: Points, judged: LogJudgement, joinedMinutes: number): CoolingSpan[] {
  const options = judged.probes[0]?.chill?.options ?? []
  const rule = optionToDraw(judged.findings, options)
  if (rule === undefined || points.length === 0) return []
  const tracker = createTracker({ marksC: coolingMarks, joinedMinutes })
  for (const p of points) tracker.push(p.minute, p.tempC)
  return coolingSpans(tracker.finish(points.at(-1)!.minute), rule)
}

function windowOf(s: CoolingSpan): PlotWindow {
  const took = Math.round(s.toMinute - s.fromMinute)
  return {
    label: `${s.shown}: ${took} of ${s.maxMinutes} min${s.finished ? '' : ', not through'}`,
    fromMinute: s.fromMinute,
    toMinute: s.toMinute,
    verdict: took > s.maxMinutes ? 'fail' : s.finished ? 'pass' : 'cannot-tell',
  }
}

/** Most readings of a room's column that are drawn. */
const ROOM_POINTS = 1500

/** The log of a room, read whole: drawn by every so manieth reading, for air moves slowly beside the days it is logged. */
function roomLog(bytes: Uint8Array, answers: Answers, { format, questions }: LogJudgement): RoomLog | undefined {
  if (!format || questions.length > 0 || format.channels.some((c) => c.role === 'core')) return undefined
  const read = readLog(bytes, answers)
  const all = [
    ...read.channels
      .filter((c) => c.role === 'house')
      .map((c) => ({
        name: c.name,
        moist: false,
        series: c.series.map((p) => ({ minute: p.minute, value: p.tempC })),
      })),
    ...read.humidity.map((c) => ({
      name: c.name,
      moist: true,
      series: c.series.map((p) => ({ minute: p.minute, value: p.rhPct })),
    })),
  ]
  const rows = all[0]?.series ?? []
  if (rows.length < 2) return undefined
  const every = Math.ceil(rows.length / ROOM_POINTS)
  const kept = rows.flatMap((_, i) => (i % every === 0 || i === rows.length - 1 ? [i] : []))
  return {
    minutes: kept.map((i) => rows[i]!.minute),
    columns: all.map(({ name, moist, series }) => ({ name, moist, values: kept.map((i) => series[i]?.value ?? null) })),
    rows: read.rows,
    ...(read.firstStamp === undefined || Number.isNaN(read.firstStamp) ? {} : { firstStamp: read.firstStamp }),
  }
}

/** Read and judge a logger file and lay it out for a plot. */
export async function workCurve({ bytes, answers, options }: CurveRequest): Promise<CurveResult> {
  const judged = await judgeLog([bytes], { ...options, answers, points: POINTS })
  if (judged.series.length === 0) {
    const room = roomLog(bytes, answers, judged)
    return { judged, ...(room ? { room } : {}) }
  }
  const step = judged.format?.stepMinutes ?? 1
  // Thinned points stand further apart than readings; what the log itself lost is named in the anomalies.
  const joined = Math.max(3 * step, (3 * judged.minutes) / POINTS, 1)
  const coldest = judged.series.find((s) => s.name === judged.lethality?.probe)
  const warmest = judged.series.find((s) => s.name === judged.chill?.probe)
  const course = coldest
    ? lethalityCourse(coldest.points, defaultDeathSet(options.organism ?? 'salmonella'), joined)
    : []
  const shown = judged.series.filter((s) => s.points.length > 0)
  const { minutes, columns } = aligned([
    ...shown.map((s) => s.points.map((p) => ({ minute: p.minute, value: p.tempC }))),
    course.map((p) => ({ minute: p.minute, value: p.logReduction })),
  ])
  const spans = warmest ? spansOf(warmest.points, judged, joined) : []
  return {
    judged,
    plot: {
      minutes,
      series: [
        ...shown.map((s, i): CurveSeries => ({
          name: s.name,
          kind: s.role === 'core' || s.role === 'house' ? s.role : 'other',
          values: columns[i]!,
        })),
        ...(course.length > 0 ? [{ name: 'Lethality', kind: 'lethality' as const, values: columns.at(-1)! }] : []),
      ],
      windows: spans.map(windowOf),
      marksC: [...new Set(spans.flatMap((s) => [s.fromC, s.toC]))],
    },
  }
}
