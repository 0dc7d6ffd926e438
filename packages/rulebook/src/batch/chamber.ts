import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import { apart } from '../../data/ferment/air.ts'
import type { BatchFacts } from './facts.ts'
import type { AirChannel } from './slow-facts.ts'
import { spoken, staysOf, timesOf, type Interval } from './stays.ts'
import { ZONES_H } from './zones.ts'

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

/** A log that ends this shortly after the next begins is still followed by it, s: clocks are kept to the second. */
const ONE_SECOND = 1

type Span = Chamber & { readonly endsAt: number }

const dayOf = (epoch: number): string => new Date(epoch * 1000).toISOString().slice(0, 10)

/** A channel at the given minutes: on the line between two of its readings that may be joined, missing elsewhere. */
export function joinedAt({ readings }: Pick<AirChannel, 'readings'>, minutes: readonly number[]): (number | null)[] {
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

/** The reading of a log at an hour between two that may be joined. */
function readingAt(rows: readonly ChamberReading[], hour: number): ChamberReading[] {
  const i = rows.findIndex((r) => r.hour >= hour)
  const [before, after] = [rows[i - 1], rows[i]]
  if (!before || !after || before.tempC === null || after.tempC === null || after.hour === hour) return []
  if (after.hour - before.hour > joinableMinutes([...new Set(rows.map((r) => r.hour * 60))]) / 60) return []
  const share = (hour - before.hour) / (after.hour - before.hour)
  return [{ hour, tempC: before.tempC + share * (after.tempC - before.tempC) }]
}

/** A span of air within some times alone, each a span on the clock of what is left of it; none where none is. */
function within(span: Span, times: readonly Interval[]): Span[] {
  if (times.some(([from, until]) => from <= span.startsAt && until >= span.endsAt)) return [span]
  return times.flatMap(([since, to]): Span[] => {
    const [from, until] = [(since - span.startsAt) / 3600, (to - span.startsAt) / 3600]
    const cut = (rows: readonly ChamberReading[]): ChamberReading[] => [
      ...(Number.isFinite(from) ? readingAt(rows, from) : []),
      ...rows.filter((r) => r.hour >= from && r.hour <= until),
      ...(Number.isFinite(until) ? readingAt(rows, until) : []),
    ]
    const [hottest, coldest] = [cut(span.hottest), cut(span.coldest)]
    const [first, last] = [hottest[0]?.hour, hottest.at(-1)?.hour]
    if (first === undefined || last === undefined || last <= first) return []
    const startsAt = span.startsAt + 3600 * first
    const endsAt = span.startsAt + 3600 * last
    return [
      {
        ...span,
        startsAt,
        endsAt,
        hottest: later(hottest, -first),
        coldest: later(coldest, -first),
        channels: span.channels.map((c) => ({ ...c, from: dayOf(startsAt), to: dayOf(endsAt) })),
      },
    ]
  })
}

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

/** The air two logs that overlap read together; nothing where they disagree over what both saw, or saw nothing both. */
function overlapping(a: Span, b: Span): Span | undefined {
  const shift = (b.startsAt - a.startsAt) / 3600
  const rowsOf = (which: 'hottest' | 'coldest', pick: (...x: number[]) => number) => {
    const [mine, theirs] = [a[which], later(b[which], shift)]
    const minutes = [...new Set([...mine, ...theirs].map((r) => r.hour * 60))].toSorted((x, y) => x - y)
    const at = (rows: readonly ChamberReading[]) =>
      joinedAt({ readings: rows.map((r) => ({ minute: r.hour * 60, value: r.tempC })) }, minutes)
    const [x, y] = [at(mine), at(theirs)]
    const apartC = minutes.flatMap((_, i) => (x[i] == null || y[i] == null ? [] : [Math.abs(x[i] - y[i])]))
    const rows = minutes.map((minute, i): ChamberReading => {
      const known = [x[i] ?? [], y[i] ?? []].flat()
      return { hour: minute / 60, tempC: known.length === 0 ? null : pick(...known) }
    })
    return { rows, apartC: apartC.toSorted((m, n) => m - n) }
  }
  const hottest = rowsOf('hottest', Math.max)
  const usual = hottest.apartC[Math.floor(hottest.apartC.length / 2)]
  if (usual === undefined || usual > apart.leftOutC) return undefined
  return {
    ...a,
    endsAt: Math.max(a.endsAt, b.endsAt),
    hottest: hottest.rows,
    coldest: rowsOf('coldest', Math.min).rows,
    channels: [...a.channels, ...b.channels],
  }
}

const logsOf = (s: Span): Set<number> => new Set(s.channels.map((c) => c.seq))

/** Spans put after one another; those that overlap and agree are of one air, the others stay side by side, each followed by what came after it. */
function chained(spans: readonly Span[]): Span[] {
  const follows = (b: Span, a: Span): boolean => a.endsAt <= b.startsAt + ONE_SECOND
  const apartLogs = new Set(
    spans.flatMap((a) =>
      spans.flatMap((b) =>
        a === b || follows(a, b) || follows(b, a) || overlapping(a, b)
          ? []
          : [`${a.channels[0]!.seq} ${b.channels[0]!.seq}`],
      ),
    ),
  )
  /** Whether a span is of a log that ran beside those of a chain and told another air. */
  const beside = (c: Span, next: Span): boolean => {
    const [logs, mine] = [logsOf(c), next.channels[0]!.seq]
    return !logs.has(mine) && [...logs].some((l) => apartLogs.has(`${l} ${mine}`))
  }
  const chains: Span[] = []
  for (const next of spans.toSorted((a, b) => a.startsAt - b.startsAt)) {
    let found = false
    for (const [i, c] of chains.entries()) {
      const one = follows(next, c) ? (beside(c, next) ? undefined : joined(c, next)) : overlapping(c, next)
      if (!one) continue
      chains[i] = one
      found = true
    }
    if (!found) chains.push(next)
  }
  return chains
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
    ...new Set(read.flatMap((c) => c.caution ?? [])),
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
 * The logs of a batch's chambers as far as the batch was in them, put one after the other by their instants. Logs that overlap and agree
 * (usually within the degree that ends of one chamber differ by) are of one air: the hours of either count, the warmer where both saw it. Others
 * are loggers side by side, each followed by what came after it; whoever judges takes the worst. What keeps a log from being placed is a
 * trouble; one of a log of the fermentation is among the `unseen` too.
 *
 * @param begins when the batch went in, seconds from 1970, where that is known
 */
export function chambersOf(
  facts: Pick<BatchFacts, 'curves' | 'placements'>,
  air: readonly AirChannel[] = [],
  begins?: number,
): { chambers: readonly Chamber[]; troubles: readonly string[]; unseen: readonly string[]; spans: readonly Span[] } {
  const told = facts.curves
    .filter((c) => c.purpose === 'ferment' || c.purpose === 'dry')
    .map((curve) => ({ curve, ...toldBy(curve, air) }))
  const ferments = told.filter((t) => t.curve.purpose === 'ferment')
  // A sensor of humidity may leave a log of its own; the warmth of the air is then in another.
  const airless = ferments.length > 0 && ferments.every((t) => t.moistOnly) ? [NO_AIR] : []
  const troubles = [...told.flatMap((t) => t.troubles), ...airless]
  const unseen = [...ferments.flatMap((t) => t.troubles), ...airless]
  const logs = told.flatMap((t) => (t.span ? [{ purpose: t.curve.purpose, span: t.span }] : []))
  if (new Set(logs.map((l) => l.span.zone)).size > 1) {
    troubles.push('some chamber logs say their time zone and some do not, so that they cannot be put in order')
    return { chambers: [], troubles, unseen, spans: [] }
  }
  // By a clock of unsaid zone the batch may have gone in, and moved, so much sooner.
  const slackS = logs.some((l) => l.span.zone === 'unsaid') ? 3600 * ZONES_H.behind : 0
  const stays = staysOf(facts).map((s) => ({ ...s, from: s.from - slackS, until: s.until - slackS }))
  const entered = (begins ?? -Infinity) - slackS
  const times = timesOf(
    stays,
    logs.map(({ purpose, span: { startsAt, endsAt } }) => ({ purpose, startsAt: Math.max(startsAt, entered), endsAt })),
  )
  const spans: Span[] = []
  for (const [i, { purpose, span }] of logs.entries()) {
    const since = times[i]!.flatMap(([from, until]): Interval[] =>
      until > entered ? [[Math.max(from, entered), until]] : [],
    )
    const kept = within(span, since)
    if (kept.length > 0) spans.push(...kept)
    else if (span.endsAt <= entered) {
      const over = `a log of the ${purpose === 'dry' ? 'drying' : 'fermentation'} ends ${spoken(span.endsAt)}, before the batch went in`
      troubles.push(over)
      if (purpose === 'ferment') unseen.push(over)
    }
  }
  return { chambers: chained(spans), troubles, unseen, spans }
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
