import { InvalidInput } from '@forcemeat/craft/calculation'
import type { CourseInput, CourseOutput, DryingPiece } from '@forcemeat/craft/dry/course-schema'
import { LONGEST_DAYS } from '@forcemeat/craft/dry/course-schema'
import { courseInputAt } from '@forcemeat/craft/dry/outlook'
import { dayAfter } from '@forcemeat/craft/plan/day'
import { fermentDays, knownMix } from '@forcemeat/craft/plan/drying-piece'
import { hangingNow, type BatchFacts, type BatchRecord, type Ledger } from '@forcemeat/ledger'
import type { Feeds } from '../feed/store.ts'
import type { CountedSystem } from '../slow/degree-count.ts'
import { dryView, type DryView } from '../slow/dry-view.ts'
import { fermentView } from '../slow/ferment-view.ts'
import { chambers, type Chambers } from './chambers.ts'
import type { Reckoner } from './reckoner.ts'
import { waitsOf, type Reading } from './slow-waits.ts'

export const DAY_MS = 86_400_000

export type ReadyDates = {
  readonly early?: string
  readonly likely: string
  readonly late?: string
  /** What the date rests on. */
  readonly by: 'weighings' | 'published figures' | "the recipe's days"
}

/** A batch that ferments or dries, as it stands. */
export type SlowBatch = Pick<BatchFacts, 'batch' | 'recipe' | 'recipeName' | 'recipeKind' | 'on' | 'state'> & {
  /** As stuffed. */
  readonly mixKg: number
  readonly room?: { readonly room: string; readonly name: string; readonly since: string }
  readonly lastPh?: Reading
  readonly lastAw?: Reading
  readonly loss?: { readonly pct: number; readonly on: string; readonly pieces: number }
  readonly targetLossPct?: number
  readonly targetPh?: number
  readonly ready?: ReadyDates
  /** Why no date can be told, or none but the recipe's own days. */
  readonly unknown?: string
  readonly crustRiskOn?: string
  /** While it ferments and its chamber is logged: what is left of its degree-hours, at the last temperature. */
  readonly hoursLeft?: readonly Pick<CountedSystem, 'jurisdiction' | 'hoursLeft' | 'runsOutAt' | 'limit' | 'unit'>[]
  readonly waitsFor: readonly string[]
  readonly late: boolean
}

/** A slow batch with what its course is reckoned from. */
export type SlowWork = {
  readonly record: BatchRecord
  readonly dry: DryView
  readonly input?: CourseInput
  readonly startMs: number
  readonly view: SlowBatch
}

export const isSlow = (record: Pick<BatchRecord, 'recipeKind' | 'recipeBody'>): boolean =>
  record.recipeKind === 'fermented' ||
  record.recipeKind === 'dried' ||
  record.recipeBody.ferment !== undefined ||
  record.recipeBody.dry !== undefined

/** Lines as far as they are weighed, as planned where they are not. */
export const linesOf = (record: BatchRecord) =>
  record.lines.map(({ line, material, lot, targetKg }) => {
    const weighed = record.weighings.filter((w) => w.line === line)
    const from = weighed.find((w) => w.lot !== undefined)?.lot ?? lot
    const kg = weighed.length > 0 ? weighed.reduce((s, w) => s + w.kg, 0) : targetKg
    return { material, kg, ...(from === undefined ? {} : { lot: from }) }
  })

export const mixOf = (record: BatchRecord) => ({
  recipe: record.recipeBody,
  meatKg: record.meatKg,
  lines: linesOf(record),
  lots: record.lots.map((l) => ({
    lot: l.lot,
    material: l.material,
    ...(l.fatPct === undefined ? {} : { fatPct: l.fatPct }),
  })),
})

/** The mix a forecast takes; where a material is not known, one that says so. */
function computedOf(record: BatchRecord): { computed: ReturnType<typeof knownMix> } | { missing: string } {
  try {
    return { computed: knownMix(mixOf(record)) }
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return { missing: error.faults.map((f) => `${f.path} ${f.message}`).join('; ') }
  }
}

export type Kitchen = {
  readonly ledger: Ledger
  readonly reckoner: Reckoner
  readonly feeds: Feeds
  readonly nowMs: number
  readonly logs: Chambers
}

/** Everything slow batches are read with. */
export const kitchenAt = (ledger: Ledger, reckoner: Reckoner, feeds: Feeds) => {
  const logs = chambers(ledger)
  return (nowMs: number): Kitchen => ({ ledger, reckoner, feeds, nowMs, logs })
}

/** One slow batch: where it hangs, how far it is, when it is ready, what it waits for. */
export async function slowBatch(kitchen: Kitchen, record: BatchRecord): Promise<SlowWork> {
  const { nowMs } = kitchen
  const { recipeBody: recipe } = record
  const rooms = await kitchen.ledger.rooms()
  const mix = computedOf(record)
  const computed = 'computed' in mix ? mix.computed : ({ composition: {}, unknown: [] } as never)
  const dry = dryView({
    record,
    judgement: { findings: [], computed },
    logs: await kitchen.logs(record, ['ferment', 'dry']),
    rooms,
  })
  const startMs = Date.parse(dry.start)
  const input = inputOf(dry)
  const here = hangingNow((record.placements ?? []).map((p) => ({ ...p, batch: record.batch }))).get(record.batch)
  const room = here && rooms.find((r) => r.room === here.room)
  const [ph, aw] = [lastOf(dry.phs), lastOf(dry.aws)]
  const forecast = await readyOf(kitchen, record, dry, input, 'missing' in mix ? mix.missing : undefined)
  const fermenting = recipe.ferment !== undefined && (ph === undefined || ph.value > recipe.ferment.targetPh)
  const loss = dry.marked.losses.at(-1)
  const lossView = loss && {
    pct: loss.weightLossPct,
    on: dateAt(startMs, loss.day),
    pieces: loss.pieces.length,
  }
  const waitsFor =
    nowMs < startMs
      ? []
      : waitsOf(record, {
          fermenting,
          startMs,
          nowMs,
          ph,
          aw,
          weighed: dry.marked.starts.length > 0,
          loss: lossView,
          hung: here !== undefined,
        })
  const today = new Date(nowMs).toISOString().slice(0, 10)
  const hoursLeft = fermenting ? await hoursLeftOf(kitchen, record) : undefined
  const over = hoursLeft?.some((h) => h.runsOutAt !== undefined && Date.parse(h.runsOutAt) <= nowMs) === true
  const view: SlowBatch = {
    batch: record.batch,
    recipe: record.recipe,
    recipeName: record.recipeName,
    recipeKind: record.recipeKind,
    on: record.on,
    state: record.state,
    mixKg: linesOf(record).reduce((s, l) => s + l.kg, 0),
    ...(here && room ? { room: { room: room.room, name: room.name, since: here.since } } : {}),
    ...(ph ? { lastPh: ph } : {}),
    ...(aw ? { lastAw: aw } : {}),
    ...(lossView ? { loss: lossView } : {}),
    ...(recipe.dry ? { targetLossPct: recipe.dry.lossPct } : {}),
    ...(recipe.ferment ? { targetPh: recipe.ferment.targetPh } : {}),
    ...forecast,
    ...(hoursLeft ? { hoursLeft } : {}),
    waitsFor,
    late: over || (forecast.ready !== undefined && forecast.ready.likely < today) || waitsFor.some(isDue),
  }
  return { record, dry, ...(input ? { input } : {}), startMs, view }
}

const isDue = (wait: string): boolean => /\bdue\b|loss is reached/.test(wait)
const dateAt = (startMs: number, day: number): string => new Date(startMs + day * DAY_MS).toISOString().slice(0, 10)

const lastOf = (rows: DryView['phs']): Reading | undefined => {
  const last = rows.at(-1)
  return last && { value: last.value, taken: last.taken }
}

/** Numbers short enough that the same course asked again within a few minutes is the same question. */
function inputOf({ piece, target, planned, log, marked }: DryView): CourseInput | undefined {
  if (!piece || planned.length === 0) return undefined
  const drying: DryingPiece = { ...piece, target }
  const { input } = courseInputAt({ ...drying, planned, log, losses: marked.losses })
  const stages = input.stages.map((s) => ({ ...s, days: Math.max(0.001, Number(s.days.toFixed(3))) }))
  return stages.reduce((s, x) => s + x.days, 0) > LONGEST_DAYS ? undefined : { ...input, stages }
}

async function readyOf(
  { reckoner, nowMs }: Kitchen,
  { recipeBody: recipe, on }: BatchRecord,
  dry: DryView,
  input: CourseInput | undefined,
  missing: string | undefined,
): Promise<Pick<SlowBatch, 'ready' | 'unknown' | 'crustRiskOn'>> {
  const asked = recipe.dry
  if (!asked) return {}
  const byRecipe = (why: string): Pick<SlowBatch, 'ready' | 'unknown'> =>
    asked.days === undefined
      ? { unknown: why }
      : {
          ready: { likely: dayAfter(on, Math.ceil(asked.days + fermentDays(recipe))), by: "the recipe's days" },
          unknown: why,
        }
  if (missing !== undefined) return byRecipe(missing)
  if (!input) return byRecipe(dry.missing.length > 0 ? dry.missing.join('; ') : 'its course is too long to work out')
  let course: CourseOutput
  try {
    course = await reckoner.run<CourseOutput>('dry.course', input)
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return byRecipe(error.faults.map((f) => `${f.path} ${f.message}`).join('; '))
  }
  const startMs = Date.parse(dry.start)
  const risk = course.crustRisk.find((r) => startMs + r.day * DAY_MS >= nowMs - DAY_MS)
  const found = course.readyDay
  return {
    ...(found
      ? {
          ready: {
            early: dateAt(startMs, found.early),
            likely: dateAt(startMs, found.likely),
            ...(found.late === undefined ? {} : { late: dateAt(startMs, found.late) }),
            by: input.weighings ? ('weighings' as const) : ('published figures' as const),
          },
        }
      : byRecipe('in this air its targets are not met within two years')),
    ...(risk ? { crustRiskOn: dateAt(startMs, risk.day) } : {}),
  }
}

async function hoursLeftOf(
  { logs, feeds }: Kitchen,
  record: BatchRecord,
): Promise<NonNullable<SlowBatch['hoursLeft']> | undefined> {
  const feed = await feeds.feed(record.batch)
  const { feedLog } = await import('../slow/chamber.ts')
  const all = [...(await logs(record, ['ferment'])), ...(feed && feed.readings.length > 0 ? [feedLog(feed)] : [])]
  if (all.every((l) => l.points.length === 0)) return undefined
  const { systems } = fermentView({ record, judgement: { findings: [] } as never, logs: all })
  const left = systems.flatMap(({ jurisdiction, hoursLeft, runsOutAt, limit, unit }) =>
    hoursLeft === undefined
      ? []
      : [{ jurisdiction, hoursLeft, limit, unit, ...(runsOutAt === undefined ? {} : { runsOutAt }) }],
  )
  return left.length > 0 ? left : undefined
}

const openStates = ['planned', 'weighing', 'made', 'held', 'released'] as const

/** Every slow batch that is not packed, late ones first, then by the day it is ready. */
export async function slowBatches(kitchen: Kitchen): Promise<SlowWork[]> {
  const { ledger } = kitchen
  const [placements, open] = await Promise.all([ledger.placements(), ledger.batches({ state: openStates, limit: 500 })])
  const hanging = hangingNow(placements)
  const found: SlowWork[] = []
  for (const { batch, state } of open) {
    const record = await ledger.batch(batch)
    if (!record || !isSlow(record)) continue
    if (state === 'planned' && !hanging.has(batch)) continue
    found.push(await slowBatch(kitchen, record))
  }
  const rank = ({ view }: SlowWork): string => `${view.late ? 0 : 1} ${view.ready?.likely ?? '9999'}`
  return found.toSorted((a, b) => rank(a).localeCompare(rank(b)))
}
