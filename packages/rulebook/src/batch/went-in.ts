import type { Chamber } from './chamber.ts'
import type { BatchFacts } from './facts.ts'
import type { PhReading } from './ph-course.ts'

/** A clock whose zone nobody said may run this many hours behind and ahead of UTC. */
export const ZONES_H = { behind: 12, ahead: 14 } as const
/** A log that begins this much after the batch went in has missed something, hours; a choice of ours. */
const LATE_START_H = 1
/** Filling, tying off and hanging after the mixing, or after the filling where the hanging itself is recorded, hours; a choice of ours. */
const HANDLING_H = 4

const epoch = (instant: string): number => Date.parse(instant) / 1000
const earliest = (instants: readonly string[]): number | undefined =>
  instants.length === 0 ? undefined : Math.min(...instants.map(epoch))

/** The end of a batch's own day anywhere on earth, seconds from 1970. */
const dayEnds = (on: string): number => epoch(`${on}T00:00:00Z`) + (24 + ZONES_H.behind) * 3600

type Seen = {
  /** What happened, when, and how many hours later the air has to be seen. */
  readonly events: readonly { readonly what: string; readonly at: number; readonly within: number }[]
  readonly troubles: readonly string[]
}

/** What the record says of when a batch was mixed, stuffed, kept cold and hung. */
function seen(facts: BatchFacts): Seen {
  const { measures = [], placements = [], on } = facts
  const of = (steps: readonly string[]) => measures.filter((m) => steps.includes(m.step)).map((m) => m.taken)
  const marked = measures.filter((m) => m.what === 'weight' && m.piece !== undefined).map((m) => m.taken)
  const mixed = earliest(of(['mix']))
  const stuffed = earliest([...of(['stuff']), ...marked])
  const isCold = ({ purpose }: (typeof placements)[number]) => purpose === 'cold' || purpose === 'freeze'
  const rooms = placements.filter((p) => p.room !== undefined)
  const hung = earliest(rooms.filter((p) => !isCold(p)).map((p) => p.at))
  const made = [
    ...(mixed === undefined ? [] : [{ what: 'it was mixed', at: mixed }]),
    ...(stuffed === undefined ? [] : [{ what: 'it was stuffed', at: stuffed }]),
  ]
  const hanging = hung === undefined ? [] : [{ what: 'the batch went in', at: hung, within: LATE_START_H }]
  const begun = Math.min(...made.map((m) => m.at))
  const colds = rooms.filter(isCold).map((p) => epoch(p.at))
  if (colds.some((at) => (made.length === 0 || at >= begun) && (hung === undefined || at < hung))) {
    // Kept cold overnight it may go in late; between each step and the next room nobody saw it.
    const unseen = made.flatMap((m) => {
      if (hung !== undefined && m.at >= hung) return []
      const next = Math.min(...[...colds, ...(hung === undefined ? [] : [hung])].filter((at) => at >= m.at))
      const hours = (next - m.at) / 3600
      return hours > HANDLING_H
        ? [
            Number.isFinite(hours)
              ? `it went into a room ${hours.toFixed(1)} h after ${m.what}`
              : `where it was after ${m.what} is not recorded`,
          ]
        : []
    })
    return {
      events: hanging,
      troubles: [...unseen, ...(hung === undefined ? ['when it was taken out of the cold is not recorded'] : [])],
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
  return { events, troubles: known ? [] : ['nothing recorded says when it was stuffed or hung'] }
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
  // A target reached before the first reading of the air would count as no degree-hours at all.
  if (ph.some((p) => p.ph <= reachedPh && p.at < first))
    return [`pH ${reachedPh} was measured before the log of the chamber begins${unsaid}`]
  const { events, troubles } = seen(facts)
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
