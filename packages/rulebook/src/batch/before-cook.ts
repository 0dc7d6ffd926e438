import { degreeHourSystems } from '../../data/ferment/degree-hours.ts'
import { comeUp } from '../../data/lethality/process.ts'
import type { Finding } from '../rule.ts'
import { chambersOf, joinedAt, type Chamber } from './chamber.ts'
import { thermometersOf } from './chamber-thermometers.ts'
import type { BatchFacts, CurveChannel } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import type { AirChannel } from './slow-facts.ts'
import { keepsCold, spoken, staysOf } from './stays.ts'
import { dayEnds, madeAt, RECORD_THE_HANGING } from './went-in.ts'
import { ZONES_H } from './zones.ts'

/** The hours before a cook are looked at in steps of so many minutes. */
const STEP_MIN = 5

/** When the batch's own cook began, seconds from 1970, at the latest that a clock without a zone may mean; nothing where no date says it. */
export function cookBegins(facts: BatchFacts, channels: readonly CurveChannel[]): number | undefined {
  const cooks = new Set(
    facts.curves.filter((c) => c.purpose === 'cook' || c.purpose === 'cook-and-chill').map((c) => c.seq),
  )
  const all = channels.flatMap((c) =>
    cooks.has(c.seq) && c.starts ? [c.starts.at + (c.starts.zone === 'said' ? 0 : 3600 * ZONES_H.behind)] : [],
  )
  return all.length === 0 ? undefined : Math.min(...all)
}

/** What a chamber read at some instants, its thermometers' error counted in; nothing where they cannot be believed. */
function readAt(facts: BatchFacts, chamber: Chamber, instants: readonly number[]): (number | null)[] {
  const { toleranceC, doubt } = thermometersOf(facts, chamber, instants.at(-1)!)
  if (doubt || chamber.zone === 'unsaid') return instants.map(() => null)
  const readings = chamber.hottest.map((r) => ({ minute: r.hour * 60, value: r.tempC }))
  return joinedAt(
    { readings },
    instants.map((t) => (t - chamber.startsAt) / 60),
  ).map((c) => (c === null ? null : c + toleranceC))
}

/** Hours between two instants in which the batch was not known to be cold: neither in a room that keeps cold, nor in air its log read cool. */
function hoursNotCold(
  facts: BatchFacts,
  air: readonly AirChannel[] | undefined,
  from: number,
  until: number,
  baseC: number,
): number {
  const count = Math.ceil((until - from) / 60 / STEP_MIN)
  if (count <= 0) return 0
  const stepS = (until - from) / count
  const instants = Array.from({ length: count }, (_, i) => from + (i + 0.5) * stepS)
  const colds = staysOf(facts).filter(keepsCold)
  const read = chambersOf(facts, air, from).chambers.map((c) => readAt(facts, c, instants))
  const warm = instants.filter((t, i) => {
    if (colds.some((s) => t >= s.from && t < s.until)) return false
    const seen = read.flatMap((r) => r[i] ?? [])
    return seen.length === 0 || Math.max(...seen) > baseC
  })
  return (warm.length * stepS) / 3600
}

/**
 * The hours of a product that is cooked and then dried, before its cook. A toxin made in them survives the cook: of the hours from the
 * stuffing or the hanging on, those neither in a cold room nor in air that was logged at or below the base of the degree-hours may be as many as
 * a raw product may take to come up to its cook (FSIS-GD-2021-14, p. 23; for this a choice of ours). Nothing where they are.
 */
export function judgeBeforeCook(
  facts: BatchFacts,
  channels: readonly CurveChannel[],
  air: readonly AirChannel[] | undefined,
): Finding[] {
  const cannotTell = (because: string, settle: string): Finding[] => [
    recordFinding('dryAir', { verdict: 'cannot-tell', because, settle }),
  ]
  const survives = 'a toxin made before a cook survives it'
  const cook = cookBegins(facts, channels)
  if (cook === undefined)
    return cannotTell(
      `nothing says when it was cooked, and ${survives}`,
      'when the first reading of the cook was taken: the curve corrected with its start',
    )
  const { mixed, stuffed, hung } = madeAt(facts)
  const known = [stuffed, hung].flatMap((t) => (t !== undefined && t <= cook ? [t] : []))
  const from = known.length > 0 ? Math.min(...known) : mixed
  if (from === undefined || from > cook || from > dayEnds(facts.on))
    return cannotTell(
      `nothing recorded says when it was stuffed or hung before its cook of ${spoken(cook)}, and ${survives}`,
      RECORD_THE_HANGING,
    )
  const baseC = degreeHourSystems.find((s) => s.celsius)!.base
  const most = comeUp.maxMinutes / 60
  const hours = hoursNotCold(facts, air, from, cook, baseC)
  // Clocks are set by hand: a minute is none.
  if (hours <= most + 1 / 60) return []
  return cannotTell(
    `of the ${((cook - from) / 3600).toFixed(1)} h between ${spoken(from)} and its cook of ${spoken(cook)}, ${hours.toFixed(1)} h are not known to have been cold; ${most} h are let go, for ${survives}`,
    'the cold room it waited in, if it did, and from when until when; or the lot held and tested for staphylococcal enterotoxin',
  )
}
