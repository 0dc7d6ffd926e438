import { apart, souring } from '../../data/ferment/air.ts'
import type { Chamber, ChamberReading } from './chamber.ts'
import type { BatchFacts } from './facts.ts'
import { epoch, keepsCold, spoken, staysOf, type Interval } from './stays.ts'
import { ZONES_H } from './zones.ts'

type Seen = { readonly at: number; readonly tempC: number }

/** A temperature taken by hand, in °C whatever it was written in. */
export const inC = (m: { readonly value?: number | undefined; readonly unit?: string | undefined }): number =>
  m.unit !== undefined && /F$/i.test(m.unit) ? ((m.value ?? 0) - 32) / 1.8 : (m.value ?? 0)
const degrees = (c: number): string => `${Number(c.toFixed(1))} °C`

/** Temperatures of the product taken by hand while it soured or dried; one taken at a cook says nothing of the air. */
const byHand = ({ measures = [] }: BatchFacts, [from, until]: Interval): Seen[] =>
  measures.flatMap((m) => {
    const at = epoch(m.taken)
    const of = m.what === 'temperature' && m.value !== undefined && (m.step === 'ferment' || m.step === 'dry')
    return of && at >= from && at < until ? [{ at, tempC: inC(m) }] : []
  })

/** Warmest of the chambers in some hours. */
const warmest = (chambers: readonly Chamber[], [from, until]: Interval): number =>
  chambers.reduce((most, { startsAt, zone, hottest }) => {
    const [early, late] = zone === 'unsaid' ? [ZONES_H.behind, ZONES_H.ahead] : [0, 0]
    return hottest.reduce((m, { hour, tempC }) => {
      const at = startsAt + 3600 * hour
      return tempC !== null && at >= from - 3600 * early && at <= until + 3600 * late ? Math.max(m, tempC) : m
    }, most)
  }, -Infinity)

/** The usual reading of the warmest of the chambers within some hours. */
function usual(chambers: readonly Chamber[], [from, until]: Interval): number | undefined {
  const medians = chambers.flatMap(({ startsAt, hottest }) => {
    const read = hottest.flatMap(({ hour, tempC }) => {
      const at = startsAt + 3600 * hour
      return tempC !== null && at >= from && at <= until ? [tempC] : []
    })
    return read.length === 0 ? [] : [read.toSorted((a, b) => a - b)[Math.floor(read.length / 2)]!]
  })
  return medians.length === 0 ? undefined : Math.max(...medians)
}

/** What rooms it hung in are set to within some hours, the coldest of them. */
function setC(facts: BatchFacts, [from, until]: Interval): number | undefined {
  const set = staysOf(facts)
    .filter((s) => s.room !== undefined && !keepsCold(s) && s.from < until && s.until > from)
    .flatMap((s) => s.tempC ?? [])
  return set.length === 0 ? undefined : Math.min(...set)
}

/** Whether another record of the air is as warm as its log: a product by hand, a room by its setting, or the plan. */
function agreed(facts: BatchFacts, chambers: readonly Chamber[], times: Interval, plannedC?: number): boolean {
  const read = usual(chambers, times)
  if (read === undefined) return false
  const hands = byHand(facts, times).some(
    ({ at, tempC }) => Math.abs(tempC - warmest(chambers, [at - 3600, at + 3600])) <= apart.agreesC,
  )
  return hands || [setC(facts, times), plannedC].some((c) => c !== undefined && Math.abs(c - read) <= apart.agreesC)
}

/**
 * What else is recorded against the log of the air within some hours: a product by hand far warmer than it; what the recipe plans, or the
 * room is set to, far above it, and no hand that found it so.
 *
 * @param plannedC the coolest air the recipe plans, °C
 */
export function contradictions(
  facts: BatchFacts,
  chambers: readonly Chamber[],
  times: Interval,
  plannedC: number | undefined,
): string[] {
  if (chambers.length === 0) return []
  const warm = byHand(facts, times).flatMap(({ at, tempC }) => {
    const most = warmest(chambers, [at - 3600 * apart.lagHours, at])
    return Number.isFinite(most) && tempC - most > apart.overLogC
      ? [`${degrees(tempC)} was measured at ${spoken(at)}, where the log reads ${degrees(most)} at most`]
      : []
  })
  const read = usual(chambers, times)
  if (read === undefined) return warm
  const far = (c: number | undefined): c is number => c !== undefined && c - read > apart.underSetC
  const set = setC(facts, times)
  const said = [
    ...(far(plannedC) ? [`the recipe plans ${degrees(plannedC)}`] : []),
    ...(far(set) ? [`the room is set to ${degrees(set)}`] : []),
  ]
  return said.length === 0 || agreed(facts, chambers, times)
    ? warm
    : [...warm, `${said.join(' and ')}, and the log reads ${degrees(read)}`]
}

/** Hours of a log that may have been at least so warm: a hole between two readings as warm as the warmer. */
const hoursFrom = (log: readonly ChamberReading[], leastC: number, until: number): number => {
  const known = log.filter((r) => r.tempC !== null)
  return known.reduce((sum, r, i) => {
    const next = known[i + 1]
    if (!next || r.hour >= until || Math.max(r.tempC!, next.tempC!) < leastC) return sum
    return sum + Math.min(next.hour, until) - r.hour
  }, 0)
}

/**
 * A target reached in air no culture works in: the log has another unit than it says, or is of another room. With glucono-delta-lactone a mix
 * sours in the cold too; then another record has to agree with the log.
 *
 * @param reachedAt when the target was measured, seconds from 1970
 */
export function sourInTheCold(
  facts: BatchFacts,
  chambers: readonly Chamber[],
  reachedAt: number,
  lactone: boolean,
  plannedC: number | undefined,
): string[] {
  const least = souring.leastHours
  const before = chambers.filter((c) => reachedAt - c.startsAt >= 3600 * least)
  const cold = before.every(
    ({ startsAt, hottest }) => hoursFrom(hottest, souring.leastC, (reachedAt - startsAt) / 3600) < least,
  )
  if (before.length === 0 || !cold) return []
  const times: Interval = [Math.min(...before.map((c) => c.startsAt)), reachedAt]
  if (lactone && agreed(facts, chambers, times, plannedC)) return []
  const read = usual(chambers, times)
  return [
    `the log reads ${read === undefined ? 'nothing' : degrees(read)}, in which no mix sours ${lactone ? 'as fast by a culture, and nothing else recorded says that it was so cold' : 'so fast'} (common practice): its unit, or its room, is wrong`,
  ]
}

/**
 * A target reached sooner after it went in than any culture sours a mix, with no acid and nothing in it that makes one: the reading, or its
 * time, is wrong.
 *
 * @param wentIn when it went in, or the log began, seconds from 1970
 */
export function sourTooSoon(reached: { readonly ph: number; readonly at: number }, wentIn: number): string[] {
  const hours = (reached.at - wentIn) / 3600
  return hours >= souring.leastHours - 1e-9
    ? []
    : [
        `pH ${reached.ph} was read at ${spoken(reached.at)}, ${Math.max(0, hours).toFixed(1)} h after it went in, and no mix without an acid sours so fast (common practice): the reading, or its time, is wrong`,
      ]
}

/** A log colder than anything is dried in, with nothing else on record that says so. */
export function coldAlone(
  facts: BatchFacts,
  chambers: readonly Chamber[],
  times: Interval,
  plannedC: number | undefined,
): string[] {
  const read = usual(chambers, times)
  return read === undefined || read >= souring.leastC || agreed(facts, chambers, times, plannedC)
    ? []
    : [`the log reads ${degrees(read)}, and nothing else recorded says that it dried so cold: its unit may be wrong`]
}
