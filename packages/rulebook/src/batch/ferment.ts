import { exposure } from '@forcemeat/craft/ferment/exposure'
import { degreeHourSystems } from '../../data/ferment/degree-hours.ts'
import { betweenEnds, judgeDegreeHours } from '../ferment/judge.ts'
import type { Finding } from '../rule.ts'
import { upTo, type Chamber } from './chamber.ts'
import { thermometersOf } from './chamber-thermometers.ts'
import type { BatchFacts } from './facts.ts'
import { fermentCourse, placed, type Placed } from './ferment-course.ts'
import { recordFinding } from './own-rules.ts'
import { reopened, type PhLevel, type PhReading } from './ph-course.ts'
import type { AirChannel } from './slow-facts.ts'
import { sourByStepAlone } from './slow-kind.ts'
import { TARGET_PH } from './target-ph.ts'
import { NEVER_HUNG, RECORD_THE_HANGING } from './went-in.ts'
import { ZONES_H } from './zones.ts'

export type FermentJudged = {
  readonly findings: readonly Finding[]
  /** The chamber that did worst, its log on its own clock; absent where none could be placed. */
  readonly chamber?: Chamber
  readonly ph: readonly PhReading[]
  readonly levels: readonly PhLevel[]
  /** Hours of the log at which the pH was first measured at or below 5.3; absent where it was not. */
  readonly reachedHour?: number
  readonly highestC?: number
  /** Hours left at the last temperature before a limit is used up; none once the target is reached or below the base. */
  readonly hoursLeft?: readonly { readonly jurisdiction: string; readonly hours: number }[]
}

const order = { fail: 0, 'cannot-tell': 1, pass: 2 } as const
const worse = (a: Finding, b: Finding): number =>
  order[a.verdict] - order[b.verdict] || (a.margin ?? 0) - (b.margin ?? 0)

/** Which published system a batch is judged by, and for whom it stands in. */
export function systemsFor(jurisdictions: readonly string[]): Map<string, readonly string[]> {
  const own = (place: string): string | undefined =>
    place === 'US' || place === 'US-home' ? 'US' : place === 'CA' ? 'CA' : undefined
  const others = jurisdictions.filter((j) => own(j) === undefined)
  const found = new Map<string, readonly string[]>()
  for (const j of jurisdictions) if (own(j) !== undefined) found.set(own(j)!, [])
  if (others.length > 0) found.set('CA', others)
  return found
}

function question(
  chamber: Chamber,
  levels: readonly PhLevel[],
  { until, reached }: Placed,
  toleranceC: number,
  from = 0,
) {
  const log = upTo(chamber.hottest, until).filter((r) => r.hour >= from)
  const last = levels.at(-1)
  return judgeDegreeHours({
    exposure: (_of, baseC, shift) =>
      exposure(
        log.map((r) => ({ hour: r.hour, tempC: r.tempC === null ? null : r.tempC + shift })),
        baseC,
        until,
      ),
    toleranceC,
    targetPh: TARGET_PH,
    phCounts: reached?.counts !== false,
    ...(reached ? { hoursToTarget: until } : {}),
    phTolerance: (reached ?? last)?.tolerance ?? 0,
    ...((reached ?? last)?.assumed ? { phErrorAssumed: true } : {}),
    ...(last === undefined ? {} : { lastPh: last.last }),
    ...(last === undefined || last.ph === last.last
      ? {}
      : { heldAt: { ph: last.ph, ...(last.piece === undefined ? {} : { piece: last.piece }) } }),
  })
}

const NEVER_ENTERED = 'nothing recorded says when the batch went in, and the hours before it are not its own'

/** Degree-hours by one chamber, each published system once; those before the batch went in are none of its own, and fail nothing. */
function byChamber(facts: BatchFacts, chamber: Chamber, levels: readonly PhLevel[], begins?: number): Finding[] {
  const unsaid = chamber.zone === 'unsaid'
  const last = placed(chamber, levels, true, unsaid ? ZONES_H.ahead : 0)
  const { toleranceC, doubt } = thermometersOf(facts, chamber, chamber.startsAt + last.until * 3600)
  const surelyIn = unsaid ? (begins === undefined ? 0 : (begins - chamber.startsAt) / 3600 + ZONES_H.ahead) : 0
  const first = placed(chamber, levels, false, unsaid ? -ZONES_H.behind : 0)
  const best = question(chamber, levels, first, 0, surelyIn)
  const worst = question(chamber, levels, last, toleranceC)
  return best.map((b) => {
    const w = worst.find((f) => f.rule === b.rule)!
    const stood = betweenEnds(
      b,
      w,
      unsaid
        ? 'the time zone of the log, which nobody stated, and the meter allow'
        : 'the error of the pH meter allows',
      unsaid ? 'say when the first reading of the log was taken' : 'a lower pH, or a finer meter',
    )
    // Between the two ends it is the reading that does not count, not the meter's error.
    if (b.verdict !== 'fail' && w.verdict === 'fail' && !unsaid && first.reached?.counts === false)
      return {
        ...stood,
        because: `${w.because}, for pH ${first.reached.ph} of ${first.reached.taken.slice(0, 16).replace('T', ' ')} does not count: ${first.reached.because ?? ''}`,
        settle: first.reached.settle ?? 'a pH by a meter set against its buffers that day',
      }
    if (stood.verdict === 'fail' && begins === undefined)
      return {
        ...stood,
        verdict: 'cannot-tell',
        because: `${stood.because}; but ${NEVER_ENTERED}`,
        settle: 'when it was stuffed or hung: a measure at the stuffing, a marked piece, or the room it was put in',
      }
    return stood.verdict === 'pass' && doubt
      ? { ...stood, verdict: 'cannot-tell', because: `${stood.because}; but ${doubt.because}`, settle: doubt.settle }
      : stood
  })
}

const forPlaces = (f: Finding, others: readonly string[]): Finding =>
  others.length === 0
    ? f
    : {
        ...f,
        because: `${f.because} (the rulebook holds no degree-hours of ${others.join(', ')}: the Canadian ones stand in, every limit of which was read)`,
      }

/** The pH the recipe ferments to: the maker's own limit, judged once there is something after it. */
function ownTarget(facts: BatchFacts, levels: readonly PhLevel[]): Finding[] {
  const target = facts.recipeBody.ferment?.targetPh
  if (target === undefined) return []
  const met = levels.find(
    (l) => l.counts && l.ph + l.tolerance <= target + 1e-9 && !reopened(levels, l, (k) => k.ph > target),
  )
  if (met)
    return [
      recordFinding('fermentPh', {
        verdict: 'pass',
        because: `pH ${met.ph} was measured; the recipe asks for ${target} or less`,
      }),
    ]
  const weak = levels.find((l) => l.ph <= target)
  const over =
    facts.curves.some((c) => c.purpose === 'dry') || levels.some((l) => l.step === 'dry' || l.step === 'pack')
  const last = levels.findLast((l) => l.counts)
  if (weak)
    return [
      recordFinding('fermentPh', {
        verdict: 'cannot-tell',
        because: weak.counts
          ? `pH ${weak.ph} is within the meter's error of ${target}`
          : `pH ${weak.ph} does not count: ${weak.because}`,
        settle: weak.settle ?? 'a lower pH, or a finer meter',
      }),
    ]
  if (last && over)
    return [
      recordFinding('fermentPh', {
        verdict: 'fail',
        because: `the batch went on to dry at pH ${last.ph}; the recipe asks for ${target} or less`,
      }),
    ]
  return [
    recordFinding('fermentPh', {
      verdict: 'cannot-tell',
      because: last ? `pH ${last.ph} so far; the recipe asks for ${target} or less` : 'no pH that counts was measured',
      settle: `a measured pH at or below ${target} with a meter calibrated that day`,
    }),
  ]
}

function left(chamber: Chamber, findings: readonly Finding[]) {
  const last = chamber.hottest.findLast((r) => r.tempC !== null)?.tempC
  return degreeHourSystems.flatMap(({ rule, celsius, base }) => {
    const f = findings.find((x) => x.rule === rule.id)
    if (last === undefined || last === null || f?.measured === undefined || f.limit === undefined) return []
    const rate = celsius ? last - base : last * 1.8 + 32 - base
    return rate > 0 ? [{ jurisdiction: rule.jurisdiction, hours: Math.max(0, (f.limit - f.measured) / rate) }] : []
  })
}

export const WHOLE_LOG =
  'the whole log of the chamber with the instant of its first reading; or hold the lot and test for staphylococcal enterotoxin'

export const CORRECTED =
  'what is wrong of the record put right: the unit of the log, the rooms, or the reading by hand and its time'

/** A count kept within its limit is kept only where the whole fermentation was counted: what the drying's log alone adds up to says nothing of it. */
const ofTheWhole = (f: Finding, unseen: readonly string[]): Finding =>
  f.verdict !== 'pass' || unseen.length === 0
    ? f
    : {
        ...f,
        verdict: 'cannot-tell',
        because: `${f.because}; but ${unseen.join('; ')}`,
        settle: unseen.every((u) => u === NEVER_HUNG) ? RECORD_THE_HANGING : WHOLE_LOG,
      }

const NOT_TO_SOUR =
  'where it was not to sour: the pH corrected with the step it was taken at, the mix, the stuffing or the drying'

/** What would settle what the record of a fermentation lacks. */
function settleOf(
  facts: BatchFacts,
  missing: readonly string[],
  starts: readonly string[],
  doubts: readonly string[],
): string {
  const unhung = starts.includes(NEVER_HUNG)
  return [
    ...(sourByStepAlone(facts) ? [NOT_TO_SOUR] : []),
    ...(unhung ? [RECORD_THE_HANGING] : []),
    ...(doubts.length > 0 ? [CORRECTED] : []),
    ...(unhung && missing.length === 1 ? [] : [WHOLE_LOG]),
  ].join('; ')
}

/**
 * Fermentation of a batch: the air of its chambers until the pH was measured at or below 5.3, in the published degree-hours of the places it
 * is sold in. The published systems count the chamber's air, not the product. Of several loggers the worst decides.
 */
export function judgeFerment(facts: BatchFacts, air?: readonly AirChannel[]): FermentJudged {
  const { chambers, ph, levels, begins, troubles, unseen, unlogged, starts, doubts } = fermentCourse(facts, air)
  const missing = [...troubles, ...unlogged, ...starts, ...doubts]
  // A clock of unsaid zone is counted at the worst its zone allows already.
  const partly = [...unseen, ...unlogged, ...(chambers[0]?.zone === 'said' ? starts : []), ...doubts]
  const own = ownTarget(facts, levels)
  const record = recordFinding(
    'fermentLog',
    missing.length > 0
      ? {
          verdict: 'cannot-tell',
          because: missing.join('; '),
          settle: settleOf(facts, missing, starts, doubts),
        }
      : {
          verdict: 'pass',
          because: `the air of the chamber is recorded, with ${ph.length} reading${ph.length === 1 ? '' : 's'} of pH`,
        },
  )
  const places = systemsFor(facts.jurisdictions)
  const judged = chambers.map((chamber) => ({
    chamber,
    findings: byChamber(facts, chamber, levels, begins).map((f) => ofTheWhole(f, partly)),
  }))
  const worst = [...places].flatMap(([place, others]) => {
    const all = judged.flatMap((j) => j.findings.filter((f) => f.jurisdiction === place))
    const f = all.toSorted(worse)[0]
    return f ? [forPlaces(f, others)] : []
  })
  const shown = judged.toSorted((a, b) => worse(a.findings.toSorted(worse)[0]!, b.findings.toSorted(worse)[0]!))[0]
  const reached = shown && placed(shown.chamber, levels, true, 0)
  const highest = shown && Math.max(...upTo(shown.chamber.hottest, reached!.until).map((r) => r.tempC ?? -Infinity))
  return {
    findings: [record, ...worst, ...own],
    ...(shown ? { chamber: shown.chamber } : {}),
    ph,
    levels,
    ...(reached?.reached ? { reachedHour: reached.until } : {}),
    ...(highest === undefined || !Number.isFinite(highest) ? {} : { highestC: highest }),
    ...(shown && !reached?.reached ? { hoursLeft: left(shown.chamber, shown.findings) } : {}),
  }
}
