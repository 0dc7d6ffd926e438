import { exposure } from '@forcemeat/craft/ferment/exposure'
import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import { stabilityRules } from '../../data/dry/stability.ts'
import { degreeHourSystems, type DegreeHourSystem } from '../../data/ferment/degree-hours.ts'
import { comeUp } from '../../data/lethality/process.ts'
import type { Finding } from '../rule.ts'
import { coldAlone, contradictions } from './air-doubts.ts'
import { chambersOf, upTo, type Chamber, type ChamberReading } from './chamber.ts'
import { thermometersOf } from './chamber-thermometers.ts'
import type { AwReading } from './dry.ts'
import type { BatchFacts } from './facts.ts'
import { coolest } from './ferment-course.ts'
import { CORRECTED, systemsFor } from './ferment.ts'
import { recordFinding } from './own-rules.ts'
import type { AirChannel } from './slow-facts.ts'
import { epoch, spoken, staysOf, unseenStays } from './stays.ts'
import { TARGET_PH } from './target-ph.ts'
import { enteredAt, startTroubles } from './went-in.ts'

/** A hole in weeks of drying up to so many hours is bridged at its warmer end; a choice of ours, no source. */
const BRIDGED_H = 6
/** The log may end so long before the drying does, hours; a choice of ours, as for the measures of the finished product. */
const ENDS_EARLY_H = 24

const SETTLE_AIR =
  'the whole log of the air it dried in, from the hanging to the end, with the instant of its first reading'
const SETTLE_WARM = `a measured pH of ${TARGET_PH} or less with the degree-hours to it, a study of this very process, or the lot held and tested for staphylococcal enterotoxin`

/** Water activity under which S. aureus does not grow, all else at its best. */
const stopsAt = (): number =>
  stabilityRules
    .find((s) => s.rule.id === 'stability.s-aureus.growth')!
    .anyOf.flatMap((c) => (c.all.length === 1 ? c.all : []))
    .find((b) => b.measure === 'aw')!.below!

/** When a water activity that stops it was measured, after which none was above it. */
function stoppedAt(aw: readonly AwReading[]): number | undefined {
  const stops = (r: AwReading): boolean => r.counts && r.aw + r.tolerance < stopsAt()
  const last = aw.findLastIndex((r) => !stops(r))
  const first = aw[last + 1]
  return first && epoch(first.taken)
}

/** When the batch was done drying: taken out of every room for good, else when it was last weighed or measured. */
function endsAt({ measures = [], ...facts }: BatchFacts): number | undefined {
  const out = staysOf(facts).at(-1)
  const of = (weights: boolean): number[] =>
    measures.flatMap((m) => {
      const piece = m.what === 'weight' && m.piece !== undefined
      return piece || (!weights && m.what !== 'note' && (m.step === 'dry' || m.step === 'pack')) ? [epoch(m.taken)] : []
    })
  const those = out !== undefined && out.room === undefined ? [out.from, ...of(true)] : of(false)
  return those.length === 0 ? undefined : Math.max(...those)
}

/** A log whose short holes are bridged at their warmer end. */
function bridged(log: readonly ChamberReading[]): ChamberReading[] {
  const known = log.filter((r) => r.tempC !== null)
  const step = joinableMinutes([...new Set(log.map((r) => r.hour * 60))]) / 60
  return known.flatMap((r, i) => {
    const next = known[i + 1]
    const gap = next ? next.hour - r.hour : 0
    if (!next || gap <= step || gap > BRIDGED_H) {
      // A longer hole is one: a missing reading says so whatever the spacing.
      return next && gap > BRIDGED_H ? [r, { hour: next.hour - 1e-6, tempC: null }] : [r]
    }
    const warmer = Math.max(r.tempC!, next.tempC!)
    const parts = Math.ceil(gap / step) + 1
    return [
      r,
      ...Array.from({ length: parts - 1 }, (_, k) => ({ hour: r.hour + (gap * (k + 1)) / parts, tempC: warmer })),
    ]
  })
}

const baseC = (s: DegreeHourSystem): number => (s.celsius ? s.base : (s.base - 32) / 1.8)

/** Hours a log is above a temperature. */
const hoursAbove = (log: readonly ChamberReading[], c: number): number =>
  log.reduce((sum, r, i) => {
    const next = log[i + 1]
    if (!next || r.tempC === null || next.tempC === null) return sum
    const [low, high] = [Math.min(r.tempC, next.tempC), Math.max(r.tempC, next.tempC)]
    if (high <= c) return sum
    return sum + (next.hour - r.hour) * (low >= c ? 1 : (high - c) / (high - low))
  }, 0)

type Told = { readonly rank: number; readonly because: string; readonly settle?: string }

/** What one chamber's log says of the air until the end, by one published system's base and limits. */
function told(facts: BatchFacts, chamber: Chamber, system: DegreeHourSystem, end: number): Told {
  const until = Math.max(0, Math.min((end - chamber.startsAt) / 3600, chamber.hottest.at(-1)!.hour))
  const log = upTo(bridged(chamber.hottest), until)
  const { toleranceC, doubt } = thermometersOf(facts, chamber, chamber.startsAt + 3600 * until)
  const shifted = log.map((r) => ({ hour: r.hour, tempC: r.tempC === null ? null : r.tempC + toleranceC }))
  const { degreeHours, highestC, hole } = exposure(log, baseC(system), until)
  const above = hoursAbove(shifted, baseC(system))
  const degree = system.celsius ? '°C' : '°F'
  const used = system.celsius ? degreeHours : degreeHours * 1.8
  const highest = system.celsius ? highestC : highestC * 1.8 + 32
  const { limit } = system.classes.find((k) => highest < k.upTo || (k.edgeIncluded && highest <= k.upTo))!
  const most = comeUp.maxMinutes / 60
  const counted = `${used.toFixed(1)} ${system.rule.unit}`
  const error = toleranceC > 0 ? ` (the thermometer's error of ${toleranceC} °C counted in)` : ''
  const warm = `${above.toFixed(1)} h above ${system.base} ${degree} in ${(until / 24).toFixed(1)} days${error}`
  if (above > most) {
    const over = used > limit ? `over the limit of ${limit}` : `the limit of ${limit} is for a mix that reaches it`
    return {
      rank: 3,
      because: `${warm}, and ${counted}, without a pH of ${TARGET_PH} or a water activity under ${stopsAt()}: ${over}`,
      settle: SETTLE_WARM,
    }
  }
  if (hole)
    return {
      rank: 2,
      because: `nothing is known of the air between hour ${hole.from.toFixed(1)} and hour ${hole.to.toFixed(1)}`,
      settle: SETTLE_AIR,
    }
  if (doubt) return { rank: 1, because: `${warm}; but ${doubt.because}`, settle: doubt.settle }
  return { rank: 0, because: `${warm}; ${most} h are let go` }
}

/**
 * The air a raw product dried in that was never soured. Nothing but cold holds Staphylococcus aureus in it until it is dry: the log has to
 * show that it stayed at or below the base of the published degree-hours (60 °F; 15.6 °C) from the hanging on, until a water activity was
 * measured that stops it by itself or the drying was over. Hours above it in all up to those a raw product may take to come up
 * (FSIS-GD-2021-14, p. 23) are let go: a choice of ours. The limits of the degree-hours are for a mix that reaches pH 5.3; within them warm
 * hours are shown beside, and prove nothing. It cannot fail: those limits were not made for it.
 */
export function judgeDryAir(
  facts: BatchFacts,
  air: readonly AirChannel[] | undefined,
  aw: readonly AwReading[],
): Finding {
  const cannotTell = (because: string, settle: string): Finding =>
    recordFinding('dryAir', { verdict: 'cannot-tell', because, settle })
  const { begins } = enteredAt(facts)
  const { chambers, troubles, spans } = chambersOf(facts, air, begins)
  if (chambers.length === 0)
    return cannotTell(
      [...troubles, ...(facts.curves.some((c) => c.purpose === 'dry') && troubles.length > 0 ? [] : [NO_LOG])].join(
        '; ',
      ),
      SETTLE_AIR,
    )
  const done = endsAt(facts)
  const stopped = stoppedAt(aw)
  const logged = Math.min(...chambers.map((c) => c.startsAt + 3600 * c.hottest.at(-1)!.hour))
  const end = Math.min(stopped ?? Infinity, done ?? Infinity)
  const short = (Number.isFinite(end) ? end - logged : 0) / 3600
  const times = [begins ?? -Infinity, end] as const
  const plannedC = coolest(facts.recipeBody.dry?.stages)
  const against = [...contradictions(facts, chambers, times, plannedC), ...coldAlone(facts, chambers, times, plannedC)]
  const missing = [
    ...troubles,
    ...startTroubles(facts, chambers, [], TARGET_PH),
    ...unseenStays(staysOf(facts), spans, times),
    ...(short > ENDS_EARLY_H
      ? [`the log of the air ends ${spoken(logged)}, ${(short / 24).toFixed(1)} days before the drying did`]
      : []),
    ...against,
  ]
  const systems = degreeHourSystems.filter((s) => systemsFor(facts.jurisdictions).has(s.rule.jurisdiction))
  const worst = chambers
    .flatMap((chamber) => systems.map((system) => told(facts, chamber, system, end)))
    .toSorted((a, b) => b.rank - a.rank)[0]!
  if (worst.rank === 3 || (worst.rank > 0 && missing.length === 0))
    return cannotTell([worst.because, ...missing].join('; '), worst.settle ?? SETTLE_AIR)
  if (missing.length > 0)
    return cannotTell(missing.join('; '), against.length > 0 ? `${CORRECTED}; ${SETTLE_AIR}` : SETTLE_AIR)
  return recordFinding('dryAir', { verdict: 'pass', because: worst.because })
}

const NO_LOG = 'no log of the air it dried in is recorded'
