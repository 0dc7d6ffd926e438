import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { Reading } from '@forcemeat/craft/heat/reading'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { validatedProcesses, type ValidatedProcess } from '../../data/ferment/five-log.ts'
import { reductionRules } from '../../data/ferment/reduction.ts'
import { heading } from '../evaluate.ts'
import { judgeProcess } from '../ferment/five-log.ts'
import type { Finding, Rule } from '../rule.ts'
import type { ChamberReading } from './chamber.ts'
import { mayHoldBeef } from './beef-origin.ts'
import { measuredDry, SETTLE_ORDER } from './cook-order.ts'
import type { BatchFacts, CurveChannel } from './facts.ts'
import type { FermentJudged } from './ferment.ts'
import { trustOn, type Trust } from './instrument-days.ts'

/** How near its usual warmth the chamber has come when the fermentation counts as begun, °C; a choice of ours. */
const CAME_UP_C = 2

type At = { readonly hour: number; readonly c: number | null }
type Held = { readonly tempC: number; readonly hours: number; readonly core: boolean; readonly end: number }

/** The first unbroken time of at least so many hours at or above a temperature, from an hour on; the coldest reading in it. */
function heldFrom(log: readonly At[], from: number, c: number, hours: number, core: boolean): Held | undefined {
  const joinable = joinableMinutes([...new Set(log.map((r) => r.hour * 60))]) / 60
  let begun: number | undefined
  let low = Infinity
  let last: number | undefined
  for (const r of log) {
    if (r.hour < from - 1e-9) continue
    const broken = last !== undefined && r.hour - last > joinable
    if (r.c === null || r.c < c || broken) {
      begun = undefined
      low = Infinity
    }
    last = r.hour
    if (r.c === null || r.c < c) continue
    begun ??= r.hour
    low = Math.min(low, r.c)
    if (r.hour - begun >= hours - 1e-9) return { tempC: low, hours: r.hour - begun, core, end: r.hour }
  }
  return undefined
}

/** The holds of a published combination as they were met one after the other; those that were not are left out. */
function heatOf(
  process: ValidatedProcess,
  air: readonly At[],
  cores: readonly (readonly At[])[],
  from: number,
  toleranceC: number,
): Held[] {
  const met: Held[] = []
  let at = from
  for (const { c, hours, core } of process.heat) {
    const logs = core ? cores : [air]
    // First where it was surely that warm; else where it was as read, which the instrument's error then leaves open.
    const all = logs.map(
      (log) => heldFrom(log, at, c - 0.05 + toleranceC, hours, core) ?? heldFrom(log, at, c - 0.05, hours, core),
    )
    // Of several probes each has to have held: the coldest decides.
    if (all.length === 0 || all.some((h) => h === undefined)) break
    const held = all.reduce((a, b) => (b!.end > a!.end ? b : a))!
    met.push({ ...held, tempC: Math.min(...all.map((h) => h!.tempC)) })
    at = held.end
  }
  return met
}

const median = (xs: readonly number[]): number => xs.toSorted((a, b) => a - b)[Math.floor(xs.length / 2)]!

/** Lowest and highest of the chamber from its coming up until the end of the fermentation. */
function rangeOf(coldest: readonly ChamberReading[], hottest: readonly ChamberReading[], until: number) {
  const within = (log: readonly ChamberReading[]) => log.filter((r) => r.hour <= until && r.tempC !== null)
  const cold = within(coldest)
  if (cold.length === 0) return undefined
  const usual = median(cold.map((r) => r.tempC!))
  const begun = cold.find((r) => r.tempC! >= usual - CAME_UP_C)!.hour
  const from = (log: readonly ChamberReading[]) => within(log).filter((r) => r.hour >= begun)
  return {
    low: Math.min(...from(coldest).map((r) => r.tempC!)),
    high: Math.max(...from(hottest).map((r) => r.tempC!)),
  }
}

/** Heat that begins later than this after the souring is no longer the combination as published, hours; a choice of ours. */
const AT_ONCE_H = 24

/** What speaks against the heat of a combination: a drying in between, or days. */
function heatedLate(facts: BatchFacts, startsAt: number, until: number, met: readonly Held[]): string | undefined {
  for (const h of met) {
    const begun = h.end - h.hours
    const { dry } = measuredDry(facts, startsAt + begun * 3600)
    if (dry !== undefined) return `the heat came when ${dry}`
  }
  const first = met[0]
  const wait = first === undefined ? 0 : first.end - first.hours - until
  return wait > AT_ONCE_H
    ? `the heat came ${wait.toFixed(0)} h after the souring; the published combination heats it at once`
    : undefined
}

type Cores = { readonly logs: readonly (readonly At[])[]; readonly trusts: readonly Trust[] }

/**
 * Core logs of the curves on the clock of the chamber, with the thermometers that read them on their first and last days. Of a probe that
 * cannot be put there nothing is known, and it may be the coldest: then there are none.
 */
function coresOn(
  facts: BatchFacts,
  channels: readonly CurveChannel[],
  startsAt: number,
  starts: ReadonlyMap<number, number>,
): Cores {
  const none: Cores = { logs: [], trusts: [] }
  const logs: At[][] = []
  const trusts: Trust[] = []
  for (const curve of facts.curves)
    for (const c of curve.channels) {
      if (c.role !== 'core') continue
      const read = channels.find((x) => x.seq === curve.seq && x.column === c.column)
      const at = starts.get(curve.seq)
      if (!read || read.trouble !== undefined || at === undefined) return none
      const shift = (at - startsAt) / 3600
      logs.push(read.log.map((r: Reading) => ({ hour: shift + r.minute / 60, c: r.coreC })))
      const days = [at, at + 60 * (read.log.at(-1)?.minute ?? 0)].map((s) =>
        new Date(s * 1000).toISOString().slice(0, 10),
      )
      trusts.push(...days.map((day) => trustOn(facts, c.instrument, day, 'thermometer of the core')))
    }
  return { logs, trusts }
}

const errorOf = (trusts: readonly Trust[]): number =>
  Math.max(0, ...trusts.map((t) => (t.ok ? (t.instrument.toleranceC ?? 0) : 0)))

/** Each published combination held against the log of the batch: the worst of the lowest and the highest the chamber was. */
export function judgeCombinations(
  facts: BatchFacts,
  ferment: FermentJudged,
  channels: readonly CurveChannel[],
  starts: ReadonlyMap<number, number>,
): Finding[] {
  const { chamber, levels } = ferment
  const casingMm = facts.recipeBody.casing?.calibreMm
  const lowest = levels.filter((l) => l.step === 'ferment').at(-1) ?? levels.at(-1)
  if (!chamber || casingMm === undefined || !lowest) return []
  const until = (lowest.at - chamber.startsAt) / 3600
  const range = rangeOf(chamber.coldest, chamber.hottest, until)
  if (!range || until <= 0) return []
  const airTrusts = chamber.channels.flatMap((c) =>
    [c.from, c.to].map((day) => trustOn(facts, c.instrument, day, 'thermometer of the chamber')),
  )
  const cores = coresOn(facts, channels, chamber.startsAt, starts)
  const air = chamber.coldest.map((r) => ({ hour: r.hour, c: r.tempC }))
  return validatedProcesses
    .filter(({ rule }) => rule.jurisdiction === 'everywhere' || facts.jurisdictions.includes(rule.jurisdiction))
    .map((process) => {
      // Heat measured inside rests on the thermometer inside as well.
      const inside = process.heat.some((h) => h.core)
      const trusts = inside ? [...airTrusts, ...cores.trusts] : airTrusts
      const toleranceC = errorOf(trusts)
      const distrust = trusts.find((t) => !t.ok || t.instrument.toleranceC === undefined)
      const met = heatOf(process, air, cores.logs, until, toleranceC)
      const heat = met.map(({ tempC, hours, core }) => ({ tempC, hours, core }))
      const asked = (chamberC: number) =>
        judgeProcess(process, {
          chamberC,
          endPh: lowest.ph,
          casingMm,
          heat,
          phTolerance: lowest.tolerance,
          toleranceC,
          phCounts: lowest.counts,
        })
      const [low, high] = [asked(range.low), asked(range.high)]
      const worst = low.verdict === 'pass' ? high : low
      if (worst.verdict !== 'pass') return worst
      const late = heatedLate(facts, chamber.startsAt, until, met)
      if (late !== undefined)
        return { ...worst, verdict: 'cannot-tell', because: `${worst.because}; but ${late}`, settle: SETTLE_ORDER }
      if (chamber.zone === 'unsaid')
        return {
          ...worst,
          verdict: 'cannot-tell',
          because: `${worst.because}; but the clock of the log names no time zone`,
          settle: 'say when the first reading of the log was taken',
        }
      if (distrust)
        return {
          ...worst,
          verdict: 'cannot-tell',
          because: `${worst.because}; but ${distrust.ok ? `how far ${distrust.instrument.name} may be off is not known` : distrust.because}`,
          settle: distrust.ok ? `enter the largest error of ${distrust.instrument.name}` : distrust.settle,
        }
      return worst
    })
}

const ways =
  'a published combination of fermentation and heat followed throughout, a logged cook that meets a lethality table, a study of this very process, or finished lots held and tested'

function ask(rule: Rule, followed: Finding | undefined, cooked: boolean): Finding {
  const head = heading(rule, rule.values[0]!)
  if (cooked) return { ...head, verdict: 'pass', because: 'the cook of the batch itself meets a lethality table' }
  if (followed) return { ...head, verdict: 'pass', because: followed.because }
  return {
    ...head,
    verdict: 'cannot-tell',
    because:
      'no published combination was followed by the record; fermenting and drying alone take one to two tenfolds',
    settle: ways,
  }
}

/** No figure of the regulation asks for it, so that it stops no batch; the hazard analysis has to, so that each batch says it. */
function salmonella(cooked: boolean): Finding {
  const found = ask(reductionRules.salmonella, undefined, cooked)
  if (found.verdict === 'pass') return found
  return {
    ...found,
    because:
      'the batch is judged without it: fermenting and drying alone take one to two tenfolds of Salmonella, and no regulation states a figure for a fermented or dried sausage; the hazard analysis has to say what does (9 CFR 417.2)',
    settle: `the reduction of Salmonella your hazard analysis rests on, with its proof on file: ${ways}`,
  }
}

/**
 * What must be shown to have died, by place. The estimate of slow death is shown elsewhere and passes nothing here; Listeria gets no credit.
 *
 * @param cooked whether a cook of the batch meets a lethality table
 */
export function judgeReduction(
  facts: BatchFacts,
  computed: RecipeComputed,
  combinations: readonly Finding[],
  cooked: boolean,
): Finding[] {
  const followed = combinations.find((f) => f.verdict === 'pass')
  const beef = mayHoldBeef(facts, computed)
  const us = facts.jurisdictions.some((j) => j === 'US' || j === 'US-home')
  return [
    ...(followed ? [followed] : []),
    ...(us && beef ? [ask(reductionRules.US, followed, cooked)] : []),
    ...(facts.jurisdictions.includes('CA') && beef ? [ask(reductionRules.CA, followed, cooked)] : []),
    ...(us ? [salmonella(cooked)] : []),
  ]
}
