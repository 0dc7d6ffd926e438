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
import { dryingEnds, notTheEnd } from './end-of-process.ts'
import { gramsOf } from './grams.ts'
import { dayOf } from './local-day.ts'
import { recordFinding } from './own-rules.ts'
import type { AirChannel } from './slow-facts.ts'
import { epoch, keepsCold, spoken, staysOf, unseenStays, type Interval } from './stays.ts'
import { TARGET_PH } from './target-ph.ts'
import { enteredAt, NEVER_HUNG, RECORD_THE_HANGING, startTroubles } from './went-in.ts'

/** A hole in weeks of drying up to so many hours is bridged at its warmer end; a choice of ours, no source. */
const BRIDGED_H = 6
/** The log may end so long before the drying does, hours; a choice of ours, as for the measures of the finished product. */
const ENDS_EARLY_H = 24

/** A product so dry that S. aureus stops lost so much of its weight at the least, %; a choice of ours, no source. */
const DRY_LOSS_PCT = 20

const SETTLE_AIR =
  'the whole log of the air it dried in, from the hanging to the end, with the instant of its first reading'
const SETTLE_WARM = `a measured pH of ${TARGET_PH} or less with the degree-hours to it, a study of this very process, or the lot held and tested for staphylococcal enterotoxin`

/** Water activity under which S. aureus does not grow, all else at its best. */
const stopsAt = (): number =>
  stabilityRules
    .find((s) => s.rule.id === 'stability.s-aureus.growth')!
    .anyOf.flatMap((c) => (c.all.length === 1 ? c.all : []))
    .find((b) => b.measure === 'aw')!.below!

/** Least a piece has lost of its weight, by the straight line between its weighings, %; nothing where none was weighed on. */
function lostBy({ measures = [] }: BatchFacts, at: number): number | undefined {
  const pieces = Map.groupBy(
    measures.flatMap((m) => {
      const g =
        m.what === 'weight' && m.piece !== undefined && m.value !== undefined ? gramsOf(m.value, m.unit) : undefined
      return g === undefined || g <= 0 ? [] : [{ piece: m.piece!, at: epoch(m.taken), g }]
    }),
    (w) => w.piece,
  )
  const lost = [...pieces.values()].flatMap((all) => {
    const w = all.toSorted((x, y) => x.at - y.at)
    const i = w.findIndex((x) => x.at >= at)
    const [before, after] = [w[i - 1], w[i]]
    if (i === 0 || w.length < 2) return []
    const g =
      before && after ? before.g + ((at - before.at) / (after.at - before.at)) * (after.g - before.g) : w.at(-1)!.g
    return [100 * (1 - g / w[0]!.g)]
  })
  return lost.length === 0 ? undefined : Math.min(...lost)
}

/**
 * When a water activity that stops it was measured, after which none was above it. One that comes before the end has to be of a product that
 * may be so dry by then: of the drying, and with a good part of its weight gone.
 */
function stoppedAt(facts: BatchFacts, aw: readonly AwReading[], dryEndsAt: number | undefined): number | undefined {
  const early = notTheEnd(facts, dryEndsAt)
  const may = ({ step, taken }: AwReading): boolean => {
    if (early({ step, taken }) === undefined) return true
    const late = (step === 'dry' || step === 'pack') && dayOf(facts, taken) > facts.on
    return late && (lostBy(facts, epoch(taken)) ?? 0) >= DRY_LOSS_PCT
  }
  const stops = (r: AwReading): boolean => r.counts && r.aw + r.tolerance < stopsAt()
  const last = aw.findLastIndex((r) => !stops(r))
  const first = aw.slice(last + 1).find(may)
  return first && epoch(first.taken)
}

/** When the product was finished: last weighed or measured, or in the cold for good before that; else taken out of every room. */
function endsAt({ measures = [], ...facts }: BatchFacts): number | undefined {
  const out = staysOf(facts).at(-1)
  const measured = measures.flatMap((m) => {
    const piece = m.what === 'weight' && m.piece !== undefined
    return piece || (m.what !== 'note' && (m.step === 'dry' || m.step === 'pack')) ? [epoch(m.taken)] : []
  })
  if (measured.length === 0) return out?.room === undefined ? out?.from : undefined
  const last = Math.max(...measured)
  return out && keepsCold(out) ? Math.min(last, out.from) : last
}

/** Hours a batch hung where nobody logged the air, until an instant; after the last room a day is for weighing and packing. */
function hoursAway(facts: BatchFacts, spans: readonly Spanned[], [from, until]: Interval): Away {
  const stays = staysOf(facts)
  const away = stays.flatMap((s) => {
    const [since, to] = [Math.max(s.from, from), Math.min(s.until, until)]
    const packed = s === stays.at(-1) && s.room === undefined
    if (keepsCold(s) || to <= since || spans.some((l) => l.startsAt < to && l.endsAt > since)) return []
    return packed ? [] : [{ from: s.from, hours: (to - since) / 3600 }]
  })
  return { hours: away.reduce((sum, a) => sum + a.hours, 0), short: away.filter((a) => a.hours <= BRIDGED_H) }
}
type Spanned = { readonly startsAt: number; readonly endsAt: number }
type Away = { readonly hours: number; readonly short: readonly { readonly from: number }[] }

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
function told(facts: BatchFacts, chamber: Chamber, system: DegreeHourSystem, end: number, awayH: number): Told {
  const until = Math.max(0, Math.min((end - chamber.startsAt) / 3600, chamber.hottest.at(-1)!.hour))
  const log = upTo(bridged(chamber.hottest), until)
  const { toleranceC, doubt } = thermometersOf(facts, chamber, chamber.startsAt + 3600 * until)
  const shifted = log.map((r) => ({ hour: r.hour, tempC: r.tempC === null ? null : r.tempC + toleranceC }))
  const { degreeHours, highestC, hole } = exposure(log, baseC(system), until)
  const above = hoursAbove(shifted, baseC(system)) + awayH
  const degree = system.celsius ? '°C' : '°F'
  const used = system.celsius ? degreeHours : degreeHours * 1.8
  const highest = system.celsius ? highestC : highestC * 1.8 + 32
  const { limit } = system.classes.find((k) => highest < k.upTo || (k.edgeIncluded && highest <= k.upTo))!
  const most = comeUp.maxMinutes / 60
  const counted = `${used.toFixed(1)} ${system.rule.unit}`
  const error = toleranceC > 0 ? ` (the thermometer's error of ${toleranceC} °C counted in)` : ''
  const away = awayH > 0 ? ` (${awayH.toFixed(1)} h where nobody logged the air counted as warm)` : ''
  const warm = `${above.toFixed(1)} h above ${system.base} ${degree} in ${(until / 24).toFixed(1)} days${error}${away}`
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
  const stopped = stoppedAt(facts, aw, dryingEnds(facts, air))
  const logged = Math.min(...chambers.map((c) => c.startsAt + 3600 * c.hottest.at(-1)!.hour))
  const end = Math.min(stopped ?? Infinity, done ?? Infinity)
  const short = (Number.isFinite(end) ? end - logged : 0) / 3600
  const times = [begins ?? -Infinity, end] as const
  const plannedC = coolest(facts.recipeBody.dry?.stages)
  const against = [...contradictions(facts, chambers, times, plannedC), ...coldAlone(facts, chambers, times, plannedC)]
  const away = hoursAway(facts, spans, times)
  const stays = staysOf(facts)
  // Out of every room for good: the end of the log says how long nothing is known.
  const asked = stays.filter(
    (s, i) => !(i === stays.length - 1 && s.room === undefined) && !away.short.some((a) => a.from === s.from),
  )
  const starts = startTroubles(facts, chambers, [], TARGET_PH)
  const missing = [
    ...troubles,
    ...starts,
    ...unseenStays(asked, spans, times),
    ...(short > ENDS_EARLY_H
      ? [`the log of the air ends ${spoken(logged)}, ${(short / 24).toFixed(1)} days before the drying did`]
      : []),
    ...against,
  ]
  const settle =
    against.length > 0
      ? `${CORRECTED}; ${SETTLE_AIR}`
      : missing.every((m) => m === NEVER_HUNG)
        ? RECORD_THE_HANGING
        : starts.includes(NEVER_HUNG)
          ? `${RECORD_THE_HANGING}; ${SETTLE_AIR}`
          : SETTLE_AIR
  const systems = degreeHourSystems.filter((s) => systemsFor(facts.jurisdictions).has(s.rule.jurisdiction))
  const worst = chambers
    .flatMap((chamber) => systems.map((system) => told(facts, chamber, system, end, away.hours)))
    .toSorted((a, b) => b.rank - a.rank)[0]!
  if (worst.rank === 3 || (worst.rank > 0 && missing.length === 0))
    return cannotTell([worst.because, ...missing].join('; '), worst.settle ?? SETTLE_AIR)
  if (missing.length > 0) return cannotTell(missing.join('; '), settle)
  return recordFinding('dryAir', { verdict: 'pass', because: worst.because })
}

const NO_LOG = 'no log of the air it dried in is recorded'
