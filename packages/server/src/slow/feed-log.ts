import { channelsOf, type FeedReading, type Quantity } from '../feed/reading.ts'
import type { Feed } from '../feed/store.ts'
import type { AirPoint, ChamberLog } from './chamber.ts'

/** Names of channels that are the air about the product rather than its inside. */
const AIR = /house|room|chamber|air|ambient/i

const head = { instruments: [] as string[], notes: [] as string[] }

/** Readings of some channels by their instant, in order. */
function byInstant(feed: Feed, columns: readonly string[], of: (read: readonly number[]) => Omit<AirPoint, 'at'>) {
  const mine = new Set(columns)
  const instants = Map.groupBy(
    feed.readings.filter((r) => mine.has(r.channel)),
    (r) => r.t,
  )
  const values = (t: number): number[] => instants.get(t)!.map((r: FeedReading) => r.value)
  return [...instants.keys()]
    .toSorted((a, b) => a - b)
    .map((t): AirPoint => ({ at: feed.origin + t, ...of(values(t)) }))
}

const mean = (xs: readonly number[]): number => xs.reduce((s, x) => s + x, 0) / xs.length

/**
 * Readings of a batch that still come in, as logs of its chamber: one of its temperatures, of the channels named as air or the only one there
 * is; one of its humidity, which is of the air under any name. Two, for the two are seldom read at the same instant.
 */
export function feedLogs(feed: Feed | undefined): ChamberLog[] {
  if (!feed || feed.readings.length === 0) return []
  const reads = channelsOf(feed.readings)
  const named = (of: Quantity): string[] => [...reads.keys()].filter((c) => reads.get(c) === of)
  const [warm, moist] = [named('tempC'), named('rhPct')]
  const air = warm.filter((c) => AIR.test(c))
  const columns = air.length > 0 ? air : warm.length === 1 ? warm : []
  const logs: ChamberLog[] = []
  if (columns.length > 0)
    logs.push({
      ...head,
      name: 'readings that come in',
      columns,
      points: byInstant(feed, columns, (read) => ({ highC: Math.max(...read), meanC: mean(read), rhPct: null })),
    })
  else if (warm.length > 0)
    logs.push({
      ...head,
      name: 'readings that come in',
      columns,
      points: [],
      trouble: `none of the channels that come in (${warm.join(', ')}) is named as the air: name one "chamber"`,
    })
  if (moist.length > 0)
    logs.push({
      ...head,
      name: 'humidity that comes in',
      columns: moist,
      // A sensor over saturation stands in saturated air, as the reader of logs has it.
      points: byInstant(feed, moist, (read) => ({
        highC: null,
        meanC: null,
        rhPct: mean(read.map((v) => Math.min(100, v))),
      })),
    })
  return logs
}
