import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import { channelsOf, type Quantity } from '../feed/reading.ts'
import type { Feed } from '../feed/store.ts'
import type { AirPoint, ChamberLog } from './chamber.ts'

/** Names of channels that are the air about the product rather than its inside. */
const AIR = /house|room|chamber|air|ambient/i

const head = { instruments: [] as string[], notes: [] as string[] }

type Read = { readonly t: number; readonly value: number }

/** A channel at any of some ascending instants: on the line between two of its readings that may be joined, and for as long after its last. */
function joinedAt(read: readonly Read[], instants: readonly number[]): (number | undefined)[] {
  const joinable = 60_000 * joinableMinutes(read.map((r) => r.t / 60_000))
  let next = 0
  return instants.map((t) => {
    while (next < read.length && read[next]!.t < t) next += 1
    const [before, after] = [read[next - 1], read[next]]
    if (after?.t === t) return after.value
    if (!before || (after?.t ?? t) - before.t > joinable) return undefined
    return after ? before.value + ((after.value - before.value) * (t - before.t)) / (after.t - before.t) : before.value
  })
}

/** The air by some channels, at every instant one of them was read: sensors read in turn do not speak for one another. */
function byInstant(feed: Feed, columns: readonly string[], of: (read: readonly number[]) => Omit<AirPoint, 'at'>) {
  const mine = Map.groupBy(feed.readings, (r) => r.channel)
  const channels = columns.map((c) => mine.get(c)!.toSorted((a, b) => a.t - b.t))
  const [only, ...more] = channels
  if (only && more.length === 0) return only.map((r): AirPoint => ({ at: feed.origin + r.t, ...of([r.value]) }))
  const instants = [...new Set(channels.flat().map((r) => r.t))].toSorted((a, b) => a - b)
  const values = channels.map((read) => joinedAt(read, instants))
  return instants.map((t, i): AirPoint => ({ at: feed.origin + t, ...of(values.flatMap((v) => v[i] ?? [])) }))
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
