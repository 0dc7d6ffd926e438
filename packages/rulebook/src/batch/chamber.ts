import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { BatchFacts } from './facts.ts'
import type { AirChannel } from './slow-facts.ts'

export type ChamberReading = { readonly hour: number; readonly tempC: number | null }

/** The air around a batch through one or more logs that follow each other, on one clock. */
export type Chamber = {
  /** Hour 0, seconds from 1970. */
  readonly startsAt: number
  /** Unsaid where the logs run on a clock whose zone nobody stated. */
  readonly zone: 'said' | 'unsaid'
  /** The warmest, and the coldest, of the channels at each moment. */
  readonly hottest: readonly ChamberReading[]
  readonly coldest: readonly ChamberReading[]
  /** What read it, for the thermometers' checks: each channel's instrument, first and last day. */
  readonly channels: readonly {
    readonly seq: number
    readonly column: string
    readonly instrument?: string
    readonly from: string
    readonly to: string
  }[]
}

type Span = Omit<Chamber, 'hottest' | 'coldest'> & {
  readonly endsAt: number
  readonly hottest: readonly ChamberReading[]
  readonly coldest: readonly ChamberReading[]
}

const dayOf = (epoch: number): string => new Date(epoch * 1000).toISOString().slice(0, 10)

/** A channel at the given minutes: on the line between two of its readings that may be joined, missing elsewhere. */
function joinedAt({ readings }: AirChannel, minutes: readonly number[]): (number | null)[] {
  const known = readings.flatMap((r) => (r.value === null ? [] : [{ minute: r.minute, value: r.value }]))
  const joinable = joinableMinutes([...new Set(known.map((r) => r.minute))])
  let next = 0
  return minutes.map((minute) => {
    while (next < known.length && known[next]!.minute < minute) next += 1
    const [before, after] = [known[next - 1], known[next]]
    if (after?.minute === minute) return after.value
    if (!before || !after || after.minute - before.minute > joinable) return null
    return before.value + ((minute - before.minute) / (after.minute - before.minute)) * (after.value - before.value)
  })
}

/** The channels of one curve as a span of air, the worst of them at each moment. */
function spanOf(
  curve: BatchFacts['curves'][number],
  channels: readonly AirChannel[],
  starts: NonNullable<AirChannel['starts']>,
): Span {
  const minutes = [...new Set(channels.flatMap((c) => c.readings.map((r) => r.minute)))].toSorted((a, b) => a - b)
  const each = channels.map((c) => joinedAt(c, minutes))
  // What one channel did not see is not known: the cold one does not speak for the warm one.
  const rows = (pick: (...x: number[]) => number): ChamberReading[] =>
    minutes.map((minute, i) => {
      const known = each.flatMap((values) => values[i] ?? [])
      return { hour: minute / 60, tempC: known.length < each.length ? null : pick(...known) }
    })
  const endsAt = starts.at + 60 * (minutes.at(-1) ?? 0)
  return {
    startsAt: starts.at,
    endsAt,
    zone: starts.zone,
    hottest: rows(Math.max),
    coldest: rows(Math.min),
    channels: channels.map(({ seq, column }) => {
      const instrument = curve.channels.find((c) => c.column === column)?.instrument
      return {
        seq,
        column,
        ...(instrument === undefined ? {} : { instrument }),
        from: dayOf(starts.at),
        to: dayOf(endsAt),
      }
    }),
  }
}

const later = (rows: readonly ChamberReading[], hours: number): ChamberReading[] =>
  rows.map((r) => ({ hour: r.hour + hours, tempC: r.tempC }))

const joined = (a: Span, b: Span): Span => {
  const shift = (b.startsAt - a.startsAt) / 3600
  return {
    ...a,
    endsAt: Math.max(a.endsAt, b.endsAt),
    hottest: [...a.hottest, ...later(b.hottest, shift)],
    coldest: [...a.coldest, ...later(b.coldest, shift)],
    channels: [...a.channels, ...b.channels],
  }
}

const NO_AIR = 'the fermentation log has no channel of the air'

/** What one curve tells of the air, and what keeps it from telling; nothing of either where it logged only the humidity. */
function toldBy(
  curve: BatchFacts['curves'][number],
  air: readonly AirChannel[],
): { readonly span?: Span; readonly troubles: readonly string[]; readonly moistOnly?: true } {
  const mine = air.filter((c) => c.seq === curve.seq && c.role === 'house')
  if (mine.length === 0 && curve.channels.some((c) => c.role === 'humidity')) return { troubles: [], moistOnly: true }
  const bad = [...new Set(mine.flatMap((c) => c.trouble ?? []))]
  const read = mine.filter((c) => c.trouble === undefined)
  const good = read.filter((c) => c.readings.some((r) => r.value !== null))
  if (good.length === 0) return { troubles: curve.purpose === 'ferment' && bad.length === 0 ? [NO_AIR] : bad }
  const troubles = [
    ...bad,
    ...read.filter((c) => !good.includes(c)).map((c) => `channel ${c.column} of the air has no reading`),
  ]
  const starts = good[0]!.starts
  return starts
    ? { span: spanOf(curve, good, starts), troubles }
    : {
        troubles: [
          ...troubles,
          'a chamber log gives no date and its start was not stated, so that readings of pH cannot be placed on it',
        ],
      }
}

/**
 * The logs of a batch's chambers, put one after the other by their instants. Logs that overlap are taken as loggers side by side, each
 * followed by what came after it; whoever judges takes the worst. What keeps a log from being placed is a trouble; one of a log of the
 * fermentation is among the `unseen` too.
 */
export function chambersOf(
  facts: Pick<BatchFacts, 'curves'>,
  air: readonly AirChannel[] = [],
): { chambers: readonly Chamber[]; troubles: readonly string[]; unseen: readonly string[] } {
  const told = facts.curves
    .filter((c) => c.purpose === 'ferment' || c.purpose === 'dry')
    .map((curve) => ({ curve, ...toldBy(curve, air) }))
  const ferments = told.filter((t) => t.curve.purpose === 'ferment')
  // A sensor of humidity may leave a log of its own; the warmth of the air is then in another.
  const airless = ferments.length > 0 && ferments.every((t) => t.moistOnly) ? [NO_AIR] : []
  const troubles = [...told.flatMap((t) => t.troubles), ...airless]
  const unseen = [...ferments.flatMap((t) => t.troubles), ...airless]
  const spans = told.flatMap((t) => t.span ?? [])
  if (new Set(spans.map((s) => s.zone)).size > 1) {
    troubles.push('some chamber logs say their time zone and some do not, so that they cannot be put in order')
    return { chambers: [], troubles, unseen }
  }
  const chains: Span[] = []
  for (const next of spans.toSorted((a, b) => a.startsAt - b.startsAt)) {
    const before = chains.map((c, i) => ({ c, i })).filter(({ c }) => c.endsAt <= next.startsAt)
    if (before.length === 0) chains.push(next)
    for (const { c, i } of before) chains[i] = joined(c, next)
  }
  return { chambers: chains, troubles, unseen }
}

/**
 * A log up to an hour, with a reading at that very hour: between two readings that may be joined it lies on their line. Where nobody saw
 * the air at that hour the log ends in a missing reading, which is a hole.
 */
export function upTo(log: readonly ChamberReading[], until: number): ChamberReading[] {
  const kept = log.filter((r) => r.hour <= until)
  const last = kept.at(-1)
  if (!last || last.hour === until) return kept
  const joinable = joinableMinutes([...new Set(log.map((r) => r.hour * 60))]) / 60
  const next = log[kept.length]
  if (next && last.tempC !== null && next.tempC !== null && next.hour - last.hour <= joinable) {
    const share = (until - last.hour) / (next.hour - last.hour)
    return [...kept, { hour: until, tempC: last.tempC + share * (next.tempC - last.tempC) }]
  }
  // Just past the last reading of the log, the air is taken to have stayed; further on nobody saw it.
  if (!next && last.tempC !== null && until - last.hour <= joinable)
    return [...kept, { hour: until, tempC: last.tempC }]
  return [...kept, { hour: until, tempC: null }]
}
