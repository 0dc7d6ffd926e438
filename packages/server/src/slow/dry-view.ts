import { gramsOf } from '@forcemeat/rulebook/batch/grams'
import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import type { DryingPiece, DryingStage } from '@forcemeat/craft/dry/course-schema'
import { markedPieces, type MarkedPieces } from '@forcemeat/craft/dry/marked-pieces'
import { targetsLeft, type MeasuredEnd, type TargetMet } from '@forcemeat/craft/dry/targets-left'
import type { Finding } from '@forcemeat/craft/finding'
import { dryingPieceFrom } from '@forcemeat/craft/recipe/ferment-dry/drying-piece'
import { batchAir, daysBeforeCourse } from '@forcemeat/craft/recipe/ferment-dry/planned-air'
import type { BatchRecord, RoomFacts } from '@forcemeat/ledger'
import { endMeasured } from '@forcemeat/rulebook/batch/dry'
import { endOfDrying } from '@forcemeat/rulebook/batch/end-of-process'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { findRule } from '@forcemeat/rulebook/catalogue'
import type { ChamberLog } from './chamber.ts'
import { hourlyAir } from './hourly-air.ts'
import { mixOf } from './mix.ts'

type Taken = { readonly seq: number; readonly day: number; readonly taken: string; readonly by: string }

export type PieceWeighed = Taken & {
  readonly piece: string
  readonly g: number
  readonly instrument?: string
  readonly note?: string
}

/** A figure of the product by a meter or by analysis. */
export type ProductReading = Taken & {
  readonly value: number
  readonly instrument?: string
  readonly piece?: string
  readonly note?: string
}

export type DryView = {
  readonly batch: string
  readonly recipe: string
  readonly recipeName: string
  readonly kind: BatchRecord['recipeKind']
  readonly on: string
  /** Day 0, and what it was taken from. */
  readonly start: string
  readonly startFrom: string
  /** The piece and its targets; absent where something it needs is not known, as `missing` says. */
  readonly piece?: Pick<DryingPiece, 'diameterMm' | 'composition'>
  readonly target: DryingPiece['target']
  /** Targets that no measured figure that counts has met yet: what a forecast is still asked for; and those one has. */
  readonly left: DryingPiece['target']
  readonly met: readonly TargetMet[]
  readonly missing: readonly string[]
  readonly planned: readonly DryingStage[]
  /** The room's air by the hour, days after stuffing. */
  readonly log: readonly AirReading[]
  readonly weights: readonly PieceWeighed[]
  readonly marked: MarkedPieces
  readonly aws: readonly ProductReading[]
  readonly moistureToProtein: readonly ProductReading[]
  readonly phs: readonly ProductReading[]
  readonly placements: readonly {
    readonly seq: number
    readonly at: string
    readonly room?: string
    readonly roomName?: string
  }[]
  readonly findings: readonly Finding[]
  /** What is assumed where nothing was recorded, and what stands in the way of the logs. */
  readonly notes: readonly string[]
}

export type DrySeen = {
  readonly record: BatchRecord
  readonly judgement: Pick<BatchJudgement, 'findings'>
  /** Logs of the air while it fermented and dried, those of readings that still come in among them. */
  readonly logs: readonly ChamberLog[]
  readonly rooms: readonly RoomFacts[]
  /** The zone the kitchen's days are told in; absent, UTC. */
  readonly timeZone?: string
}

const DAY = 86_400_000
/** A first weight or hanging later than this after the day began misses a loss. */
const LATE_START = 2 * DAY

/**
 * Day 0: the first weight of a marked piece, else when it was first hung, else noon of the day it was made. What is cooked between souring and
 * drying begins after the cook: a hanging counts only in a room that dries, and the days of its fermentation lie before.
 */
function startOf({ measures, placements = [], on, recipeBody }: BatchRecord): {
  start: number
  startFrom: string
  /** Whether anything recorded says it. */
  known: boolean
} {
  const weighed = measures
    .filter((m) => m.what === 'weight' && m.piece !== undefined)
    .map((m) => Date.parse(m.taken))
    .toSorted((a, b) => a - b)[0]
  const cooked = recipeBody.cook !== undefined
  const hung = placements.find((p) => (cooked ? p.purpose === 'dry' : p.room !== undefined))
  const at = [weighed, hung && Date.parse(hung.at)].filter((x): x is number => x !== undefined)
  if (at.length === 0)
    return {
      start: Date.parse(`${on}T12:00:00Z`) + daysBeforeCourse(recipeBody) * DAY,
      startFrom: `the day it was made${daysBeforeCourse(recipeBody) > 0 ? ' and its fermentation after it' : ''}, at noon: nothing says the hour`,
      known: false,
    }
  // What was weighed as it came from the cook stands, whatever it hung in before.
  const start = cooked ? at[0]! : Math.min(...at)
  return {
    start,
    startFrom: start === weighed ? 'the first weight of a marked piece' : 'when it was first hung',
    known: true,
  }
}

/** Readings that still come in are the air of its drying; of what is cooked first, once it is weighed or hung to dry: until then it may be the cook's. */
const ofTheDrying = (logs: readonly ChamberLog[], { recipeBody }: BatchRecord, known: boolean): ChamberLog[] =>
  logs.filter((l) => l.seq !== undefined || known || recipeBody.cook === undefined)

const topics = ['stability', 'drying']
const mineOf = (findings: readonly Finding[]): Finding[] =>
  findings.filter(
    (f) => topics.includes(findRule(f.rule)?.topic ?? '') || /\b(dry|drying|moisture-protein)\b/.test(f.rule),
  )

/** The figures a target is held met by: the last loss of the pieces, and what the batch's judgement counts of the end product. */
function measuredEnd(
  { losses }: MarkedPieces,
  record: BatchRecord,
  logs: readonly ChamberLog[],
  timeZone: string | undefined,
): MeasuredEnd {
  const drying = new Set(record.curves.filter((c) => c.purpose === 'dry').map((c) => c.seq))
  const ends = logs.flatMap((l) => (l.seq !== undefined && drying.has(l.seq) ? (l.points.at(-1)?.at ?? []) : []))
  const facts = timeZone === undefined ? record : { ...record, timeZone }
  const dryEndsAt = endOfDrying(facts, ends.length === 0 ? undefined : Math.max(...ends) / 1000)
  const loss = losses.at(-1)?.weightLossPct
  return { ...(loss === undefined ? {} : { weightLossPct: loss }), ...endMeasured(facts, dryEndsAt) }
}

/** Pieces left out of a weighing, for they cannot have lost that beside the others. */
const strangeWords = ({ losses }: MarkedPieces): string[] =>
  losses.flatMap((l) =>
    (l.strange ?? []).map(
      (p) =>
        `day ${l.day.toFixed(0)}: ${p.piece} would have lost ${p.weightLossPct.toFixed(1)} %, the others ${l.weightLossPct.toFixed(1)} %: it is left out; correct the weight or say what became of the piece`,
    ),
  )

/** Everything the page and the paper of a drying show, made anew from the record, its files and the rulebook. */
export function dryView({ record, judgement, logs: given, rooms, timeZone }: DrySeen): DryView {
  const { start, startFrom, known } = startOf(record)
  const logs = ofTheDrying(given, record, known)
  const dayOf = (taken: string): number => Number(((Date.parse(taken) - start) / DAY).toFixed(4))
  const nameOf = (room: string) => rooms.find((r) => r.room === room)?.name
  const inTime = record.measures.toSorted((a, b) => Date.parse(a.taken) - Date.parse(b.taken))
  const readings = (what: string): ProductReading[] =>
    inTime.flatMap((m) =>
      m.what !== what || m.value === undefined
        ? []
        : [
            {
              seq: m.seq,
              day: dayOf(m.taken),
              taken: m.taken,
              by: m.by,
              value: m.value,
              ...(m.instrument === undefined ? {} : { instrument: m.instrument }),
              ...(m.piece === undefined ? {} : { piece: m.piece }),
              ...(m.note === undefined ? {} : { note: m.note }),
            },
          ],
    )
  const weights = readings('weight').flatMap(({ value, piece, ...w }) => {
    const unit = record.measures.find((m) => m.seq === w.seq)?.unit
    const g = gramsOf(value, unit)
    return piece === undefined || g === undefined ? [] : [{ ...w, piece, g }]
  })
  const log = hourlyAir(logs, start)
  const [aws, analyses, marked] = [readings('aw'), readings('moisture-protein'), markedPieces(weights)]
  const asked = record.recipeBody.dry
  const room = rooms.find((r) => r.room === record.placements?.at(-1)?.room && r.purpose === 'dry')
  const air = batchAir(record.recipeBody, { log, ...(room ? { room } : {}) })
  const { piece, target, missing, notes } = dryingPieceFrom(mixOf(record))
  return {
    batch: record.batch,
    recipe: record.recipe,
    recipeName: record.recipeName,
    kind: record.recipeKind,
    on: record.on,
    start: new Date(start).toISOString(),
    startFrom,
    ...(piece ? { piece: { diameterMm: piece.diameterMm, composition: piece.composition } } : {}),
    missing: missing.map((m) => m.because),
    target,
    ...targetsLeft(target, measuredEnd(marked, record, logs, timeZone)),
    planned: air.stages,
    log,
    weights,
    marked,
    aws,
    moistureToProtein: analyses,
    phs: readings('ph'),
    placements: (record.placements ?? []).map(({ seq, at, room }) => {
      const roomName = room === undefined ? undefined : nameOf(room)
      return { seq, at, ...(room === undefined ? {} : { room }), ...(roomName === undefined ? {} : { roomName }) }
    }),
    findings: mineOf(judgement.findings),
    notes: [
      ...air.notes,
      ...notes,
      ...(start - Date.parse(`${record.on}T00:00:00Z`) - daysBeforeCourse(record.recipeBody) * DAY > LATE_START
        ? [`day 0 lies days after ${record.on}, when it was made: what it lost before is not known and not counted`]
        : []),
      ...strangeWords(marked),
      ...logs.flatMap((l) => l.trouble ?? []),
      ...logs.flatMap((l) => l.notes),
      ...(logs.some((l) => l.seq === undefined && l.points.length > 0)
        ? [
            'readings that still come in are counted with; the drying record has them once they are closed into the record',
          ]
        : []),
      ...(asked ? [] : ['the recipe names no target for its drying, so no ready day is given']),
    ],
  }
}
