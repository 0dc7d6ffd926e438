import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { LogRead } from '@forcemeat/craft/log/read'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { AirChannel } from '@forcemeat/rulebook/batch/slow-facts'
import { readRecorded, type RecordedCurve } from '../curves/recorded.ts'
import { airOfCurve } from '../curves/slow-logs.ts'
import { startOf } from '../curves/starts.ts'

/** The air of a chamber or room at an instant: warmest and mean of its temperature columns, °C, and mean humidity, %. */
export type AirPoint = {
  /** ms since 1970. */
  readonly at: number
  readonly highC: number | null
  readonly meanC: number | null
  readonly rhPct: number | null
}

/** One recorder's log of the air about a batch. */
export type ChamberLog = {
  /** Entry of the curve; absent for readings that still come in. */
  readonly seq?: number
  readonly name: string
  readonly columns: readonly string[]
  readonly instruments: readonly string[]
  readonly points: readonly AirPoint[]
  readonly notes: readonly string[]
  /** Its channels as the batch is judged by them; absent for readings that still come in. */
  readonly air?: readonly AirChannel[]
  /** What keeps it from being used. */
  readonly trouble?: string
}

type Purpose = RecordedCurve['purpose']

/** Wall clock of a file, which names no zone, as an instant by this machine's zone. */
function fromWallClock(seconds: number): number {
  const d = new Date(seconds * 1000)
  return new Date(
    d.getUTCFullYear(),
    d.getUTCMonth(),
    d.getUTCDate(),
    d.getUTCHours(),
    d.getUTCMinutes(),
    d.getUTCSeconds(),
  ).getTime()
}

/** Instant of a curve's first reading; undefined where neither the file nor the entry says it. */
function beginOf(curve: RecordedCurve, read: LogRead): { at: number; notes: string[] } | undefined {
  const starts = startOf(curve, read)
  if (starts === undefined) return undefined
  return starts.zone === 'said'
    ? { at: starts.at * 1000, notes: [] }
    : {
        at: fromWallClock(starts.at),
        notes: [`the times of ${curve.fileName} name no zone and are taken as this machine's`],
      }
}

const mean = (xs: readonly number[]): number | null =>
  xs.length === 0 ? null : xs.reduce((s, x) => s + x, 0) / xs.length
const numbers = (xs: readonly (number | null | undefined)[]): number[] =>
  xs.filter((x): x is number => x !== null && x !== undefined)

type Series<K extends string> = readonly { readonly [P in K]: number | null }[]

/** The air of a room from columns read side by side: `minutes` from the instant `at` (ms since 1970), offsets in °C added. */
export const airPoints = (
  at: number,
  minutes: readonly number[],
  temps: readonly { readonly series: Series<'tempC'>; readonly offsetC: number }[],
  moistures: readonly Series<'rhPct'>[] = [],
): AirPoint[] =>
  minutes.map((minute, i) => {
    const seen = numbers(
      temps.map(({ series, offsetC }) => {
        const v = series[i]?.tempC
        return v === null || v === undefined ? null : v + offsetC
      }),
    )
    return {
      at: at + minute * 60_000,
      highC: seen.length === 0 ? null : Math.max(...seen),
      meanC: mean(seen),
      rhPct: mean(numbers(moistures.map((s) => s[i]?.rhPct))),
    }
  })

function chamberLog(curve: RecordedCurve, read: LogRead | undefined): ChamberLog {
  const air = curve.channels.filter((c) => c.role === 'house')
  const moist = curve.channels.filter((c) => c.role === 'humidity')
  const head = {
    seq: curve.seq,
    name: curve.fileName,
    columns: [...air, ...moist].map((c) => c.column),
    instruments: [...new Set(air.flatMap((c) => c.instrument ?? []))],
    notes: [],
    points: [],
  }
  if (!read) return { ...head, trouble: `${curve.fileName} is not in the record, or too large to read` }
  if (read.questions.length > 0)
    return { ...head, trouble: `${curve.fileName}: ${read.questions.map((q) => q.text).join(' ')}` }
  const begin = beginOf(curve, read)
  if (!begin)
    return { ...head, trouble: `${curve.fileName} says no date: say when it begins where the curve is corrected` }
  const temps = air.map((c) => ({ c, series: read.channels.find((r) => r.name === c.column)?.series ?? [] }))
  const moistures = moist.map((c) => read.humidity.find((r) => r.name === c.column)?.series ?? [])
  const missing = temps.filter((t) => t.series.length === 0).map((t) => t.c.column)
  if (temps.length + moistures.length === 0)
    return { ...head, trouble: `${curve.fileName} has no column named as the air of the room` }
  if (missing.length > 0) return { ...head, trouble: `${curve.fileName} has no column ${missing.join(', ')}` }
  const rows = temps[0]?.series ?? moistures[0] ?? []
  const points = airPoints(
    begin.at,
    rows.map((r) => r.minute),
    temps.map(({ c, series }) => ({ series, offsetC: c.offsetC ?? 0 })),
    moistures,
  )
  return { ...head, points, notes: begin.notes }
}

const onThisClock = (channel: AirChannel): AirChannel =>
  channel.starts?.zone === 'unsaid'
    ? { ...channel, starts: { at: fromWallClock(channel.starts.at) / 1000, zone: 'unsaid' } }
    : channel

/** The logs of a batch's air, by the purpose of their curve, in the order they begin. */
export async function chamberLogs(
  ledger: Ledger,
  record: Pick<BatchRecord, 'curves'>,
  purposes: readonly Purpose[],
): Promise<ChamberLog[]> {
  const logs: ChamberLog[] = []
  for (const curve of record.curves) {
    if (!purposes.includes(curve.purpose)) continue
    const read = await readRecorded(ledger, curve)
    const air = await airOfCurve(ledger, curve, record.curves, read)
    logs.push({ ...chamberLog(curve, read), air: air.map(onThisClock) })
  }
  return logs.toSorted((a, b) => (a.points[0]?.at ?? Infinity) - (b.points[0]?.at ?? Infinity))
}

/** Logs that hold a quantity, one after the other as one; those that run beside one another stay apart. */
export function inTurn(
  logs: readonly ChamberLog[],
  of: 'highC' | 'rhPct' = 'highC',
): readonly (readonly ChamberLog[])[] {
  const chains: ChamberLog[][] = []
  const usable = logs
    .filter((l) => l.points.some((p) => p[of] !== null))
    .toSorted((a, b) => a.points[0]!.at - b.points[0]!.at)
  for (const log of usable) {
    const chain = chains.find((c) => c.at(-1)!.points.at(-1)!.at <= log.points[0]!.at)
    if (chain) chain.push(log)
    else chains.push([log])
  }
  return chains
}

/** The temperatures of logs one after the other; a step longer than the logs' own spacing is broken by a point without a reading. */
export const pointsOf = (chain: readonly ChamberLog[]): AirPoint[] => unjoined(chain.flatMap((l) => l.points))

/** Points of the air with one without a reading in every step that is too long to be joined. */
export function unjoined(all: readonly AirPoint[]): AirPoint[] {
  const joinable = 60_000 * joinableMinutes([...new Set(all.map((p) => p.at / 60_000))])
  return all.flatMap((p, i) => {
    const next = all[i + 1]
    return next && next.at - p.at > joinable ? [p, { at: next.at - 1, highC: null, meanC: null, rhPct: null }] : [p]
  })
}
