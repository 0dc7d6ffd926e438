import { degreeHourSystems } from '../../data/ferment/degree-hours.ts'
import { inC } from './air-doubts.ts'
import type { Chamber } from './chamber.ts'
import type { BatchFacts } from './facts.ts'
import type { PhReading } from './ph-course.ts'
import { epoch, keepsCold, spoken, staysOf, type Stay } from './stays.ts'
import { ZONES_H } from './zones.ts'

/** A log that begins this much after the batch went in has missed something, hours; a choice of ours. */
const LATE_START_H = 1
/** Filling, tying off and hanging after the mixing, or after the filling where the hanging itself is recorded, hours; a choice of ours. */
const HANDLING_H = 4

const earliest = (instants: readonly number[]): number | undefined =>
  instants.length === 0 ? undefined : Math.min(...instants)

/** The end of a batch's own day anywhere on earth, seconds from 1970. */
export const dayEnds = (on: string): number => epoch(`${on}T00:00:00Z`) + (24 + ZONES_H.behind) * 3600

type Event = { readonly what: string; readonly at: number }
type Entered = {
  /** What happened, when, and how many hours later the air has to be seen. */
  readonly events: readonly (Event & { readonly within: number })[]
  readonly troubles: readonly string[]
  /** From when on the air about the batch counts, seconds from 1970; nothing where no record says it. */
  readonly begins?: number
}

/** Times a batch was kept cold: in a room that keeps cold, until it was put elsewhere, taken out, or stuffed in between. */
function coldTimes(
  stays: readonly Stay[],
  made: readonly Event[],
): { readonly from: number; readonly until: number }[] {
  return stays.filter(keepsCold).map(({ from, until }) => ({
    from,
    until: Math.min(until, ...made.filter((m) => m.at > from).map((m) => m.at)),
  }))
}

/** Time between being made, the cold and the hanging in which nobody saw the batch. */
function outOfTheCold(made: readonly Event[], colds: ReturnType<typeof coldTimes>, hung: number | undefined): string[] {
  const left = colds.map((c): Event => ({ what: 'it was taken out of the cold', at: c.until }))
  return [...made, ...left.filter((l) => !made.some((m) => m.at === l.at))].flatMap(({ what, at }) => {
    if (!Number.isFinite(at) || (hung !== undefined && at >= hung)) return []
    const next = earliest([...colds.map((c) => c.from), ...(hung === undefined ? [] : [hung])].filter((t) => t >= at))
    if (next === undefined) return what.includes('cold') ? [] : [`where it was after ${what} is not recorded`]
    const hours = (next - at) / 3600
    return hours > HANDLING_H ? [`it went into a room ${hours.toFixed(1)} h after ${what}`] : []
  })
}

/** A batch found warm while it was to be cold: by any temperature above the base of the degree-hours. */
function warmInTheCold({ measures = [] }: BatchFacts, colds: ReturnType<typeof coldTimes>): string[] {
  const base = degreeHourSystems.find((s) => s.celsius)!.base
  return measures.flatMap((m) => {
    if (m.what !== 'temperature' || m.value === undefined || inC(m) <= base) return []
    const at = epoch(m.taken)
    return colds.some((c) => at > c.from && at < c.until)
      ? [`${Number(inC(m).toFixed(1))} °C was measured at ${spoken(at)}, while it was to be kept cold`]
      : []
  })
}

export const NEVER_HUNG = 'nothing recorded says when it was stuffed or hung'
export const RECORD_THE_HANGING =
  'when it was stuffed or hung: the room it was put in and at what time, a measure at the stuffing, or the first weight of a marked piece'

/** When a batch was first mixed, stuffed and hung outside the cold, seconds from 1970, as far as the record says. */
export function madeAt(facts: BatchFacts): {
  readonly mixed?: number
  readonly stuffed?: number
  readonly hung?: number
} {
  const { measures = [] } = facts
  const of = (steps: readonly string[]) => measures.filter((m) => steps.includes(m.step)).map((m) => epoch(m.taken))
  const marked = measures.filter((m) => m.what === 'weight' && m.piece !== undefined).map((m) => epoch(m.taken))
  const mixed = earliest(of(['mix']))
  const stuffed = earliest([...of(['stuff']), ...marked])
  const hung = earliest(
    staysOf(facts)
      .filter((s) => s.room !== undefined && !keepsCold(s))
      .map((s) => s.from),
  )
  return {
    ...(mixed === undefined ? {} : { mixed }),
    ...(stuffed === undefined ? {} : { stuffed }),
    ...(hung === undefined ? {} : { hung }),
  }
}

/** What the record says of when a batch was mixed, stuffed, kept cold and hung. */
export function enteredAt(facts: BatchFacts): Entered {
  const { on } = facts
  const { mixed, stuffed, hung } = madeAt(facts)
  const stays = staysOf(facts)
  const made: Event[] = [
    ...(mixed === undefined ? [] : [{ what: 'it was mixed', at: mixed }]),
    ...(stuffed === undefined ? [] : [{ what: 'it was stuffed', at: stuffed }]),
  ]
  const hanging = hung === undefined ? [] : [{ what: 'the batch went in', at: hung, within: LATE_START_H }]
  const begun = earliest(made.map((m) => m.at)) ?? -Infinity
  const colds = coldTimes(stays, made).filter(({ from }) => from >= begun && (hung === undefined || from < hung))
  if (colds.length > 0) {
    // Kept cold overnight it may go in late; between each step and the next room nobody saw it.
    const out = colds.at(-1)!.until
    const taken = hung === undefined && Number.isFinite(out)
    const begins = hung ?? (taken ? out : undefined)
    return {
      events: taken ? [{ what: 'it was taken out of the cold', at: out, within: HANDLING_H }] : hanging,
      troubles: [
        ...outOfTheCold(made, colds, hung),
        ...warmInTheCold(facts, colds),
        ...(begins === undefined ? ['when it was taken out of the cold is not recorded'] : []),
      ],
      ...(begins === undefined ? {} : { begins }),
    }
  }
  const events = [
    ...hanging,
    ...made.map((m) => ({
      ...m,
      within: hung === undefined && m.what === 'it was stuffed' ? LATE_START_H : HANDLING_H,
    })),
  ]
  // What is first heard of it days later says nothing of where it hung until then.
  const known = events.some((e) => e.at <= dayEnds(on))
  if (!known) return { events, troubles: [NEVER_HUNG] }
  const base = stuffed ?? mixed
  // Hung soon after it was stuffed, the air counts from the hanging; else from the first that is known of it.
  const soon = base !== undefined && hung !== undefined && hung >= base && hung - base <= HANDLING_H * 3600
  return { events, troubles: [], begins: soon ? hung : Math.min(base ?? Infinity, hung ?? Infinity) }
}

/**
 * What keeps the log of the air from being whole at its beginning. A clock of unsaid zone is taken to have begun as late as it may. Loggers
 * side by side each have to see the beginning: the one that came late may be the one in the warmth.
 *
 * @param reachedPh the pH at which the count ends
 */
export function startTroubles(
  facts: BatchFacts,
  chambers: readonly Chamber[],
  ph: readonly PhReading[],
  reachedPh: number,
): string[] {
  if (chambers.length === 0) return []
  const fermenting = chambers.filter(
    (c) => facts.curves.find((x) => x.seq === c.channels[0]?.seq)?.purpose === 'ferment',
  )
  const slackH = chambers[0]!.zone === 'unsaid' ? ZONES_H.behind : 0
  const first = Math.max(...(fermenting.length > 0 ? fermenting : chambers).map((c) => c.startsAt)) + slackH * 3600
  const unsaid = slackH > 0 ? ', as far as its clock, whose time zone nobody stated, can tell' : ''
  const { events, troubles, begins } = enteredAt(facts)
  // A target reached before the first reading of the air would count as no degree-hours at all, unless the log follows at once.
  const early = ph.find((p) => p.ph <= reachedPh && p.at < first)
  if (early && (begins === undefined || first - begins > LATE_START_H * 3600 + 1))
    return [
      `pH ${early.ph} was measured at ${spoken(early.at)}, before the log of the chamber begins at ${spoken(first)}${unsaid}`,
    ]
  const late = events
    .map((e) => ({ ...e, hours: (first - e.at) / 3600 }))
    .filter((e) => e.hours > e.within + 1e-9)
    .toSorted((a, b) => b.hours - a.hours)[0]
  return [
    ...troubles,
    ...(late
      ? [`the log begins ${late.hours.toFixed(1)} h after ${late.what}${unsaid}, and nobody saw the air before`]
      : []),
  ]
}
