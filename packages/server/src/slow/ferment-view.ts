import type { Finding } from '@forcemeat/craft/finding'
import { staph, type StaphOutput } from '@forcemeat/craft/ferment/staph'
import { partsIfKnown, stuffedMix } from '@forcemeat/craft/recipe/ferment-dry/stuffed-mix'
import type { BatchRecord } from '@forcemeat/ledger'
import { calibratedOn, type Trust } from '@forcemeat/rulebook/batch/instrument-days'
import { dayOf } from '@forcemeat/rulebook/batch/local-day'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { findRule } from '@forcemeat/rulebook/catalogue'
import { thin } from '../curves/thin.ts'
import { inTurn, type ChamberLog } from './chamber.ts'
import { countDegreeHours, hourLog, type CountedSystem } from './degree-count.ts'
import { humidityAlong } from './humidity.ts'
import { mixOf } from './mix.ts'
import { ownAir, type OwnAir } from './own-air.ts'

/** Both published systems count to this; a recipe may ask for less. */
const PUBLISHED_PH = 5.3

export type PhReading = {
  readonly seq: number
  readonly taken: string
  readonly by: string
  readonly ph: number
  readonly step: string
  readonly instrument?: string
  readonly piece?: string
  readonly note?: string
  readonly calibrated: boolean
  /** Largest error of the meter by its check of that day, ± pH; absent where it was not checked. */
  readonly tolerance?: number
  readonly because: string
}

export type FermentView = {
  readonly batch: string
  readonly recipeName: string
  readonly kind: BatchRecord['recipeKind']
  readonly on: string
  /** True while readings still come in. */
  readonly live: boolean
  /** First and last reading of the chamber's temperature, ISO. */
  readonly from?: string
  readonly to?: string
  readonly minutes: readonly number[]
  readonly tempC: readonly (number | null)[]
  /** Relative humidity, %, at instants of its own, ISO; null ends a stretch that may be joined. */
  readonly humidity: readonly { readonly at: string; readonly rhPct: number | null }[]
  readonly sources: readonly {
    readonly seq?: number
    readonly name: string
    readonly columns: readonly string[]
    readonly instruments: readonly string[]
    readonly trouble?: string
  }[]
  readonly stages: readonly { readonly hours: number; readonly tempC: number; readonly rhPct?: number }[]
  /** pH the recipe asks for, and the one the published systems count to. */
  readonly targetPh: number
  readonly targetFrom: 'recipe' | 'published'
  readonly countedToPh: number
  readonly readings: readonly PhReading[]
  readonly systems: readonly CountedSystem[]
  readonly lastTempC?: number
  readonly staph?: StaphOutput
  readonly findings: readonly Finding[]
  /** What keeps the count from being believed, as the judgement has it; among the notes too. */
  readonly doubts: readonly string[]
  readonly notes: readonly string[]
}

export type FermentSeen = {
  readonly record: BatchRecord
  readonly judgement: Pick<BatchJudgement, 'findings'>
  readonly logs: readonly ChamberLog[]
  /** Logs of the drying: the count goes on in them where it did not end before. */
  readonly later?: readonly ChamberLog[]
  /** The zone the kitchen's days are told in; absent, UTC. */
  readonly timeZone?: string
}

const standing = (trust: Trust, day: string): Pick<PhReading, 'calibrated' | 'tolerance' | 'because'> =>
  trust.ok
    ? {
        calibrated: true,
        ...(trust.tolerance === undefined ? {} : { tolerance: trust.tolerance }),
        because: `calibrated in buffer on ${day}${trust.tolerance === undefined ? '' : `, ± ${trust.tolerance}`}`,
      }
    : { calibrated: false, because: trust.because }

/** The pH readings of a batch by their time, each with what its meter's standing was that day. */
export const phReadings = (
  record: Pick<BatchRecord, 'measures' | 'instruments' | 'checks'>,
  timeZone?: string,
): PhReading[] =>
  record.measures
    .filter((m) => m.what === 'ph' && m.value !== undefined)
    .toSorted((a, b) => Date.parse(a.taken) - Date.parse(b.taken))
    .map((m) => ({
      seq: m.seq,
      taken: m.taken,
      by: m.by,
      ph: m.value!,
      step: m.step,
      ...(m.instrument === undefined ? {} : { instrument: m.instrument }),
      ...(m.piece === undefined ? {} : { piece: m.piece }),
      ...(m.note === undefined ? {} : { note: m.note }),
      ...standing(
        calibratedOn(record, m.instrument, dayOf({ timeZone }, m.taken), 'buffer', m.value),
        dayOf({ timeZone }, m.taken),
      ),
    }))

const mineOf = (findings: readonly Finding[]): Finding[] =>
  findings.filter((f) => findRule(f.rule)?.topic === 'fermentation' || /ferment/.test(f.rule))

const isCount = (f: Finding): boolean => f.rule.endsWith('.ferment.degree-hours')

/** The batch's own findings; while its count still runs on readings that come in, with how that count stands by the places it is made for. */
function withLive(judged: Finding[], counted: readonly Finding[], places: readonly string[]): Finding[] {
  if (judged.some(isCount)) return judged
  const own = counted.filter((f) => places.includes(f.jurisdiction))
  return [...judged, ...(own.length > 0 ? own : counted)]
}

/** Everything the page and the paper of a fermentation show, made anew from the record, its files and the rulebook. */
export function fermentView({ record, judgement, logs: soured, later = [], timeZone }: FermentSeen): FermentView {
  const readings = phReadings(record, timeZone)
  const phTolerance = Math.max(0, ...readings.map((r) => r.tolerance ?? 0))
  const count = (of: readonly ChamberLog[]) => {
    const own = ownAir(record, of, timeZone)
    const log = hourLog(own.points, readings)
    return { own, log, counted: log && countDegreeHours(log, PUBLISHED_PH, { phTolerance }) }
  }
  const inChamber = count(soured)
  const hours = inChamber.log ? (inChamber.own.points.at(-1)!.at - inChamber.log.startAt) / 3_600_000 : 0
  const ended = inChamber.counted?.systems.some((s) => s.hoursToTarget !== undefined && s.hoursToTarget <= hours)
  // Logs of the drying after the chamber's own are over: there the batch hangs then.
  const goesOn = ended !== true && soured.some((l) => l.points.length > 0) && later.some((l) => l.points.length > 0)
  const { own, log, counted } = goesOn ? count([...soured, ...later]) : inChamber
  const { points, chain } = own
  const logs = goesOn ? [...soured, ...later.filter((l) => chain.includes(l))] : soured
  const asked = record.recipeBody.ferment
  const { waterPct, saltPct } = stuffedMix(partsIfKnown(mixOf(record)).parts).composition
  const first = points[0]
  const kept = thin({ minutes: points.map((p) => p.at), channels: [{ values: points.map((p) => p.highC) }] })
  const moist = humidityAlong(chain, logs).filter(
    (p) => first === undefined || own.begins === undefined || p.at >= own.begins,
  )
  const keptMoist = thin({ minutes: moist.map((p) => p.at), channels: [{ values: moist.map((p) => p.rhPct) }] })
  return {
    batch: record.batch,
    recipeName: record.recipeName,
    kind: record.recipeKind,
    on: record.on,
    live: logs.some((l) => l.seq === undefined && l.points.length > 0),
    ...(first ? { from: new Date(first.at).toISOString(), to: new Date(points.at(-1)!.at).toISOString() } : {}),
    minutes: first ? kept.map((i) => (points[i]!.at - first.at) / 60_000) : [],
    tempC: first ? kept.map((i) => points[i]!.highC) : [],
    humidity:
      moist.length === 0
        ? []
        : keptMoist.map((i) => ({ at: new Date(moist[i]!.at).toISOString(), rhPct: moist[i]!.rhPct })),
    sources: logs.map(({ seq, name, columns, instruments, trouble }) => ({
      ...(seq === undefined ? {} : { seq }),
      name,
      columns,
      instruments,
      ...(trouble === undefined ? {} : { trouble }),
    })),
    stages: (asked?.stages ?? []).map(({ hours, tempC, rhPct }) => ({
      hours,
      tempC,
      ...(rhPct === undefined ? {} : { rhPct }),
    })),
    targetPh: asked?.targetPh ?? PUBLISHED_PH,
    targetFrom: asked ? 'recipe' : 'published',
    countedToPh: PUBLISHED_PH,
    readings,
    systems: counted?.systems ?? [],
    ...(counted?.lastTempC === undefined ? {} : { lastTempC: counted.lastTempC }),
    ...(log
      ? {
          staph: staph({
            log: log.rows.map(({ hour, tempC, ph, proven }) => ({
              hour,
              tempC,
              ...(ph !== undefined && proven ? { ph } : {}),
            })),
            ...(waterPct === undefined || saltPct === undefined || waterPct <= 0 ? {} : { waterPct, saltPct }),
            targetPh: PUBLISHED_PH,
          }),
        }
      : {}),
    findings: withLive(mineOf(judgement.findings), counted?.findings ?? [], record.jurisdictions),
    doubts: own.doubts,
    notes: notesOf(own, logs, readings),
  }
}

function notesOf(
  { points, chain, beside, doubts }: OwnAir,
  logs: readonly ChamberLog[],
  readings: readonly PhReading[],
): string[] {
  const [first, last] = [points[0], points.at(-1)]
  const unplaced =
    first && last ? readings.filter((r) => Date.parse(r.taken) < first.at || Date.parse(r.taken) > last.at) : []
  const all = [
    ...logs.flatMap((l) => l.trouble ?? []),
    ...logs.filter((l) => chain.includes(l) || inTurn([l]).length === 0).flatMap((l) => l.notes),
    ...(beside ? ['two recorders ran at once: the warmer one is shown and counted'] : []),
    ...doubts,
    ...(unplaced.length > 0
      ? [
          `${unplaced.length} pH ${unplaced.length > 1 ? 'readings were' : 'reading was'} taken outside the chamber's log`,
        ]
      : []),
  ]
  return [...new Set(all)]
}
