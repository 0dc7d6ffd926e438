import type { BatchRecord } from '@forcemeat/ledger'
import type { Chamber } from '@forcemeat/rulebook/batch/chamber'
import { fermentCourse } from '@forcemeat/rulebook/batch/ferment-course'
import type { AirChannel } from '@forcemeat/rulebook/batch/slow-facts'
import { spoken } from '@forcemeat/rulebook/batch/stays'
import { unjoined, type AirPoint, type ChamberLog } from './chamber.ts'

/** The air that is counted of a batch: from when it went in, in the rooms it hung in, as it is judged. */
export type OwnAir = {
  readonly points: readonly AirPoint[]
  /** The logs the points are of. */
  readonly chain: readonly ChamberLog[]
  /** Several recorders ran at once. */
  readonly beside: boolean
  /** When the batch went in, ms since 1970, where a record says it. */
  readonly begins?: number
  /** What keeps the count from being believed. */
  readonly doubts: readonly string[]
}

type Curves = Parameters<typeof fermentCourse>[0]['curves']

/** Readings that still come in, as a curve of the fermentation with no entry yet. */
function fed(log: ChamberLog, seq: number): { curve: Curves[number]; air: AirChannel[] } | undefined {
  const first = log.points.find((p) => p.highC !== null)
  if (!first) return undefined
  const column = log.columns[0] ?? log.name
  return {
    curve: { seq, purpose: 'ferment', channels: [{ column, role: 'house' }] },
    air: [
      {
        seq,
        column,
        role: 'house',
        readings: log.points.map((p) => ({ minute: (p.at - first.at) / 60_000, value: p.highC })),
        starts: { at: first.at / 1000, zone: 'said' },
      },
    ],
  }
}

const pointsIn = ({ startsAt, hottest }: Chamber): AirPoint[] =>
  unjoined(
    hottest.map(({ hour, tempC }) => ({
      at: Math.round(1000 * (startsAt + 3600 * hour)),
      highC: tempC,
      meanC: null,
      rhPct: null,
    })),
  )

/** Degrees over the base of the counts times ms: the warmer of two recorders in one chamber counts. */
const heat = (points: readonly AirPoint[]): number =>
  points.reduce((s, p, i) => {
    const next = points[i + 1]
    return next && p.highC !== null && next.highC !== null ? s + Math.max(0, p.highC - 15.6) * (next.at - p.at) : s
  }, 0)

/** The course of the air about a batch by some of its logs, the warmest where several ran at once. */
export function ownAir(record: BatchRecord, logs: readonly ChamberLog[], timeZone: string | undefined): OwnAir {
  const comeIn = logs.flatMap((log, i) => {
    const seq = -1 - i
    const made = log.seq === undefined ? fed(log, seq) : undefined
    return made ? [{ log, seq, ...made }] : []
  })
  const seqOf = (log: ChamberLog): number | undefined => log.seq ?? comeIn.find((f) => f.log === log)?.seq
  const seqs = new Set(logs.map(seqOf))
  const air = [...logs.flatMap((l) => l.air ?? []), ...comeIn.flatMap((f) => f.air)]
  const zones = new Set(air.flatMap((a) => a.starts?.zone ?? []))
  // Judged, clocks with and without a zone cannot be put in order; here the latter are taken as this machine's, and that is said.
  const mixed = zones.size > 1
  const { chambers, begins, troubles, starts, doubts } = fermentCourse(
    {
      ...record,
      timeZone,
      curves: [...record.curves.filter((c) => seqs.has(c.seq)), ...comeIn.map((f) => f.curve)],
    },
    mixed ? air.map((a) => (a.starts ? { ...a, starts: { ...a.starts, zone: 'said' } } : a)) : air,
  )
  const courses = chambers
    .map((chamber) => ({ chamber, points: pointsIn(chamber) }))
    .toSorted((a, b) => heat(b.points) - heat(a.points))
  const counted = new Set(courses[0]?.chamber.channels.map((c) => c.seq))
  const went = begins === undefined ? undefined : 1000 * begins
  const early = went !== undefined && logs.some((l) => (l.points.find((p) => p.highC !== null)?.at ?? Infinity) < went)
  return {
    points: courses[0]?.points ?? [],
    chain: logs.filter((l) => counted.has(seqOf(l) ?? 0)),
    beside: chambers.length > 1,
    ...(went === undefined ? {} : { begins: went }),
    doubts: [
      ...(mixed ? ['some chamber logs say their time zone and some do not: no count of them together is sure'] : []),
      ...(early ? [`what was logged before the batch went in, ${spoken(begins!)}, is not counted`] : []),
      ...troubles,
      ...starts,
      ...doubts,
    ],
  }
}
