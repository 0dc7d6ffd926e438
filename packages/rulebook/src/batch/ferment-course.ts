import { contradictions, sourInTheCold, sourTooSoon } from './air-doubts.ts'
import { chambersOf, type Chamber } from './chamber.ts'
import { dryingEnds, notTheEnd } from './end-of-process.ts'
import type { BatchFacts } from './facts.ts'
import { phLevels, phReadings, reopened, type PhLevel, type PhReading } from './ph-course.ts'
import type { AirChannel } from './slow-facts.ts'
import { holdsAcid, holdsLactone, souredUnplanned, unplannedSouring } from './slow-kind.ts'
import { staysOf, unseenStays, type Stay } from './stays.ts'
import { TARGET_PH } from './target-ph.ts'
import { enteredAt, startTroubles } from './went-in.ts'

const DAY_S = 24 * 3600
/** Readings so close are of one sampling, s; a choice of ours. */
const SAMPLING_S = 3600

export type Placed = { readonly until: number; readonly reached?: PhLevel }

/** Hour of the log at which the target was reached, with the meter read `shift` too high and the log's clock `hours` off. */
export function placed(chamber: Chamber, levels: readonly PhLevel[], sure: boolean, zoneH: number): Placed {
  const end = chamber.hottest.at(-1)!.hour
  // What was read before the log ends no count of it: the next such reading does.
  const at = (l: PhLevel): boolean =>
    (!sure || l.at + 1 >= chamber.startsAt - 3600 * zoneH) &&
    l.ph + (sure ? l.tolerance : -l.tolerance) <= TARGET_PH + 1e-9 &&
    !reopened(levels, l, (k) => (sure ? k.ph > TARGET_PH : k.counts && k.ph - k.tolerance > TARGET_PH))
  // A reading that does not count ends the count only where no later one that does is there.
  const reached = (sure ? levels.find((l) => l.counts && at(l)) : undefined) ?? levels.find(at)
  if (!reached) return { until: end }
  return { until: Math.max(0, (reached.at - chamber.startsAt) / 3600 + zoneH), reached }
}

/** The coolest air of planned stages. */
export const coolest = (stages: readonly { readonly tempC: number }[] = []): number | undefined =>
  stages.length === 0 ? undefined : Math.min(...stages.map((s) => s.tempC))

/** The air about a batch while it sours, as its degree-hours are counted in it, and what keeps that count from being believed. */
export type FermentCourse = {
  /** Its logs from when it went in, where it hung; of loggers side by side each. */
  readonly chambers: readonly Chamber[]
  readonly ph: readonly PhReading[]
  readonly levels: readonly PhLevel[]
  /** When it went in, seconds from 1970; absent where no record says it. */
  readonly begins?: number
  /** What keeps a log from being placed; of those, the ones of the fermentation's own log. */
  readonly troubles: readonly string[]
  readonly unseen: readonly string[]
  /** No log of a fermentation is recorded. */
  readonly unlogged: readonly string[]
  /** What keeps the log from being whole at its beginning. */
  readonly starts: readonly string[]
  /** What else on record speaks against the log, and where the batch hung that no log saw. */
  readonly doubts: readonly string[]
}

/** Where a batch hung; out of every room to be measured at its end is no stay. */
function staysWithout(facts: BatchFacts, reached: PhLevel | undefined): Stay[] {
  const stays = staysOf(facts)
  const out = stays.at(-1)
  const packing =
    souredUnplanned(facts) &&
    reached !== undefined &&
    out?.room === undefined &&
    out !== undefined &&
    reached.at - out.from <= DAY_S
  return packing ? stays.slice(0, -1) : stays
}

/** What only a pH says is sour has to be read so again, or at its end: one reading may be a slip. */
function onceOnly(
  facts: BatchFacts,
  reached: PhLevel,
  levels: readonly PhLevel[],
  air: readonly AirChannel[] | undefined,
): string[] {
  const again = levels.some((l) => l.counts && l.at > reached.at + SAMPLING_S && l.ph <= TARGET_PH)
  return again || notTheEnd(facts, dryingEnds(facts, air))(reached) === undefined
    ? []
    : [
        `nothing in it or planned sours it, and pH ${reached.ph} of ${reached.taken.slice(0, 10)} was not found again later`,
      ]
}

/** The course of a fermentation through its chambers, by which it is judged and by which its page counts. */
export function fermentCourse(facts: BatchFacts, air?: readonly AirChannel[]): FermentCourse {
  const ph = phReadings(facts)
  const levels = phLevels(ph)
  const { begins } = enteredAt(facts)
  const { chambers, troubles, unseen, spans } = chambersOf(facts, air, begins)
  // What soured by itself while it dried has no log of a fermentation: that of its drying has to show all of it.
  const purposes = new Set(facts.curves.map((c) => c.purpose))
  const unlogged =
    purposes.has('ferment') || (purposes.has('dry') && souredUnplanned(facts))
      ? []
      : [
          unplannedSouring(facts)
            ? 'what sours it is in the recipe; its fermentation is neither planned nor recorded'
            : 'no fermentation log is recorded',
        ]
  const plannedC = coolest(facts.recipeBody.ferment?.stages)
  const reached = chambers[0] && placed(chambers[0], levels, true, 0).reached
  const reachedAt = reached?.at
  const times = [begins ?? -Infinity, reachedAt ?? Infinity] as const
  return {
    chambers,
    ph,
    levels,
    ...(begins === undefined ? {} : { begins }),
    troubles,
    unseen,
    unlogged,
    starts: startTroubles(facts, chambers, ph, TARGET_PH),
    doubts: [
      ...unseenStays(staysWithout(facts, reached), spans, times),
      ...contradictions(facts, chambers, times, plannedC),
      ...(reachedAt === undefined ? [] : sourInTheCold(facts, chambers, reachedAt, holdsLactone(facts), plannedC)),
      ...(reached === undefined || holdsAcid(facts)
        ? []
        : sourTooSoon(reached, Math.min(begins ?? Infinity, ...chambers.map((c) => c.startsAt)))),
      ...(reached === undefined || !souredUnplanned(facts) ? [] : onceOnly(facts, reached, levels, air)),
    ],
  }
}
