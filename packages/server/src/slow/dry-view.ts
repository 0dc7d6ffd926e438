import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import type { DryingPiece, DryingStage } from '@forcemeat/craft/dry/course-schema'
import { markedPieces, type MarkedPieces } from '@forcemeat/craft/dry/marked-pieces'
import { targetsLeft, type MeasuredEnd, type TargetMet } from '@forcemeat/craft/dry/targets-left'
import type { Finding } from '@forcemeat/craft/finding'
import type { BatchRecord, RoomFacts } from '@forcemeat/ledger'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { findRule } from '@forcemeat/rulebook/catalogue'
import { inTurn, pointsOf, type ChamberLog } from './chamber.ts'
import { stuffedMix, type StuffedMix } from './mix.ts'
import { plannedAir } from './planned-air.ts'

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
  /** Targets no measured figure has met yet: what a forecast is still asked for; and those one has. */
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
  readonly judgement: Pick<BatchJudgement, 'findings' | 'computed'>
  /** Logs of the air while it fermented and dried. */
  readonly logs: readonly ChamberLog[]
  readonly rooms: readonly RoomFacts[]
}

const DAY = 86_400_000
const HOUR = 3_600_000
/** A first weight or hanging later than this after the day began misses a loss. */
const LATE_START = 2 * DAY
/** A room logged less often than this is taken to have a hole. */
const HOLE_HOURS = 6

/** Day 0: the first weight of a marked piece, else when it was first hung, else noon of the day it was made. */
function startOf({ measures, placements = [], on }: BatchRecord): { start: number; startFrom: string } {
  const weighed = measures
    .filter((m) => m.what === 'weight' && m.piece !== undefined)
    .map((m) => Date.parse(m.taken))
    .toSorted((a, b) => a - b)[0]
  const hung = placements.find((p) => p.room !== undefined)
  const at = [weighed, hung && Date.parse(hung.at)].filter((x): x is number => x !== undefined)
  if (at.length === 0)
    return { start: Date.parse(`${on}T12:00:00Z`), startFrom: 'the day it was made, at noon: nothing says the hour' }
  const start = Math.min(...at)
  return { start, startFrom: start === weighed ? 'the first weight of a marked piece' : 'when it was first hung' }
}

/** The air by the hour: means of what was logged, so that a log of seconds travels as a log of weeks. */
function byTheHour(logs: readonly ChamberLog[], start: number): AirReading[] {
  const chain = inTurn(logs)[0] ?? []
  const hours = Map.groupBy(
    pointsOf(chain).filter((p) => p.at >= start),
    (p) => Math.floor((p.at - start) / HOUR),
  )
  const mean = (xs: readonly (number | null)[]): number | null => {
    const seen = xs.filter((x): x is number => x !== null)
    return seen.length === 0 ? null : Number((seen.reduce((s, x) => s + x, 0) / seen.length).toFixed(3))
  }
  const inOrder = [...hours.keys()].toSorted((a, b) => a - b)
  return inOrder.flatMap((h, i) => {
    const read = hours.get(h)!
    const row = {
      day: Number((h / 24).toFixed(5)),
      tempC: mean(read.map((p) => p.meanC)),
      rhPct: mean(read.map((p) => p.rhPct)),
    }
    // Hours nobody logged are a hole, not a line from one side to the other.
    return (inOrder[i + 1] ?? h) > h + HOLE_HOURS
      ? [row, { day: Number(((h + 1) / 24).toFixed(5)), tempC: null, rhPct: null }]
      : [row]
  })
}

function pieceOf(record: BatchRecord, { composition, unknown }: StuffedMix) {
  const { waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct } = composition
  const diameterMm = record.recipeBody.casing?.calibreMm
  const missing = [
    ...(diameterMm === undefined ? ['the diameter: the recipe names no calibre of its casing'] : []),
    ...(waterPct === undefined || proteinPct === undefined || fatPct === undefined
      ? [`the composition: ${unknown.join('; ') || 'it is not known'}`]
      : []),
  ]
  if (diameterMm === undefined || waterPct === undefined || proteinPct === undefined || fatPct === undefined)
    return { missing }
  return {
    missing,
    piece: {
      diameterMm,
      composition: {
        waterPct,
        proteinPct,
        fatPct,
        ...(carbohydratePct === undefined ? {} : { carbohydratePct }),
        ...(ashPct === undefined ? {} : { ashPct }),
        ...(saltPct === undefined ? {} : { saltPct }),
      },
    },
  }
}

const topics = ['stability', 'drying']
const mineOf = (findings: readonly Finding[]): Finding[] =>
  findings.filter(
    (f) => topics.includes(findRule(f.rule)?.topic ?? '') || /\b(dry|drying|moisture-protein)\b/.test(f.rule),
  )

const targetOf = (asked: BatchRecord['recipeBody']['dry']): DryingPiece['target'] =>
  asked
    ? {
        ...(asked.lossPct > 0 ? { weightLossPct: asked.lossPct } : {}),
        ...(asked.targetAw === undefined ? {} : { aw: asked.targetAw }),
        ...(asked.targetMoistureToProtein === undefined ? {} : { moistureToProtein: asked.targetMoistureToProtein }),
      }
    : {}

/** The last figure measured of each kind. */
function lastMeasured(
  { losses }: MarkedPieces,
  aws: readonly ProductReading[],
  analyses: readonly ProductReading[],
): MeasuredEnd {
  const [loss, aw, moisture] = [losses.at(-1)?.weightLossPct, aws.at(-1)?.value, analyses.at(-1)?.value]
  return {
    ...(loss === undefined ? {} : { weightLossPct: loss }),
    ...(aw === undefined ? {} : { aw }),
    ...(moisture === undefined ? {} : { moistureToProtein: moisture }),
  }
}

/** Everything the page and the paper of a drying show, made anew from the record, its files and the rulebook. */
export function dryView({ record, judgement, logs, rooms }: DrySeen): DryView {
  const { start, startFrom } = startOf(record)
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
    return piece === undefined ? [] : [{ ...w, piece, g: unit === 'kg' ? 1000 * value : value }]
  })
  const log = byTheHour(logs, start)
  const [aws, analyses, marked] = [readings('aw'), readings('moisture-protein'), markedPieces(weights)]
  const asked = record.recipeBody.dry
  const target = targetOf(asked)
  const air = plannedAir(record, rooms, log)
  const mix = stuffedMix(record, judgement.computed)
  const { piece, missing } = pieceOf(record, mix)
  return {
    batch: record.batch,
    recipe: record.recipe,
    recipeName: record.recipeName,
    kind: record.recipeKind,
    on: record.on,
    start: new Date(start).toISOString(),
    startFrom,
    ...(piece ? { piece } : {}),
    missing,
    target,
    ...targetsLeft(target, lastMeasured(marked, aws, analyses)),
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
      ...mix.notes,
      ...(start - Date.parse(`${record.on}T00:00:00Z`) > LATE_START
        ? [`day 0 lies days after ${record.on}, when it was made: what it lost before is not known and not counted`]
        : []),
      ...logs.flatMap((l) => l.trouble ?? []),
      ...logs.flatMap((l) => l.notes),
      ...(asked ? [] : ['the recipe names no target for its drying, so no ready day is given']),
    ],
  }
}
