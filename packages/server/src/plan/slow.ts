import { InvalidInput } from '@forcemeat/craft/calculation'
import type { CourseInput, CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { dayAfter } from '@forcemeat/craft/plan/day'
import { fermentDays } from '@forcemeat/craft/recipe/ferment-dry/planned-air'
import { hangingNow, zoneOf, type BatchFacts, type BatchRecord, type Ledger } from '@forcemeat/ledger'
import type { Feeds } from '../feed/store.ts'
import type { CountedSystem } from '../slow/degree-count.ts'
import { dryView, type DryView } from '../slow/dry-view.ts'
import { feedLogs } from '../slow/feed-log.ts'
import { fermentView } from '../slow/ferment-view.ts'
import { stuffedKg } from '../slow/mix.ts'
import { courseInputOf, dateAt, datesOf, DAY_MS, metOn } from '../slow/ready.ts'
import { chambers, type Chambers } from './chambers.ts'
import type { Reckoner } from './reckoner.ts'
import { waitsOf, type Reading } from './slow-waits.ts'

export type ReadyDates = {
  readonly early?: string
  readonly likely: string
  readonly late?: string
  /** What the date rests on. */
  readonly by: 'what was measured' | 'weighings' | 'published figures' | "the recipe's days"
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
  /** What keeps those hours from being believed. */
  readonly hoursDoubts?: readonly string[]
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
  const dry = dryView({
    record,
    judgement: { findings: [] },
    logs: [...(await kitchen.logs(record, ['ferment', 'dry'])), ...feedLogs(await kitchen.feeds.feed(record.batch))],
    rooms,
    timeZone: zoneOf(await kitchen.ledger.kitchen()),
  })
  const startMs = Date.parse(dry.start)
  const input = courseInputOf(dry)
  const here = hangingNow((record.placements ?? []).map((p) => ({ ...p, batch: record.batch }))).get(record.batch)
  const room = here && rooms.find((r) => r.room === here.room)
  const [ph, aw] = [lastOf(dry.phs), lastOf(dry.aws)]
  const forecast = await readyOf(kitchen, record, dry, input)
  const fermenting = recipe.ferment !== undefined && (ph === undefined || ph.value > recipe.ferment.targetPh)
  const loss = dry.marked.losses.at(-1)
  const lossView = loss && {
    pct: loss.weightLossPct,
    on: dateAt(dry, loss.day),
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
  const { hoursLeft, hoursDoubts } = (fermenting ? await hoursLeftOf(kitchen, record) : undefined) ?? {}
  const over = hoursLeft?.some((h) => h.runsOutAt !== undefined && Date.parse(h.runsOutAt) <= nowMs) === true
  const view: SlowBatch = {
    batch: record.batch,
    recipe: record.recipe,
    recipeName: record.recipeName,
    recipeKind: record.recipeKind,
    on: record.on,
    state: record.state,
    mixKg: stuffedKg(record),
    ...(here && room ? { room: { room: room.room, name: room.name, since: here.since } } : {}),
    ...(ph ? { lastPh: ph } : {}),
    ...(aw ? { lastAw: aw } : {}),
    ...(lossView ? { loss: lossView } : {}),
    ...(recipe.dry ? { targetLossPct: recipe.dry.lossPct } : {}),
    ...(recipe.ferment ? { targetPh: recipe.ferment.targetPh } : {}),
    ...forecast,
    ...(hoursLeft ? { hoursLeft } : {}),
    ...(hoursDoubts ? { hoursDoubts } : {}),
    waitsFor,
    late: over || (forecast.ready !== undefined && forecast.ready.likely < today) || waitsFor.some(isDue),
  }
  return { record, dry, ...(input ? { input } : {}), startMs, view }
}

const isDue = (wait: string): boolean => /\bdue\b|loss is reached/.test(wait)

const lastOf = (rows: DryView['phs']): Reading | undefined => {
  const last = rows.at(-1)
  return last && { value: last.value, taken: last.taken }
}

async function readyOf(
  { reckoner, nowMs }: Kitchen,
  { recipeBody: recipe, on }: BatchRecord,
  dry: DryView,
  input: CourseInput | undefined,
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
  const met = metOn(dry)
  if (met !== undefined) return { ready: { likely: met, by: 'what was measured' } }
  if (!input) return byRecipe(dry.missing.join('; '))
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
            ...datesOf(dry, found),
            by: input.weighings ? ('weighings' as const) : ('published figures' as const),
          },
        }
      : byRecipe('in this air its targets are not met within two years')),
    ...(risk ? { crustRiskOn: dateAt(dry, risk.day) } : {}),
  }
}

async function hoursLeftOf(
  { ledger, logs, feeds }: Kitchen,
  record: BatchRecord,
): Promise<Pick<SlowBatch, 'hoursLeft' | 'hoursDoubts'> | undefined> {
  const all = [...(await logs(record, ['ferment'])), ...feedLogs(await feeds.feed(record.batch))]
  if (all.every((l) => l.points.length === 0)) return undefined
  const { systems, doubts } = fermentView({
    record,
    judgement: { findings: [] },
    logs: all,
    later: await logs(record, ['dry']),
    timeZone: zoneOf(await ledger.kitchen()),
  })
  const left = systems.flatMap(({ jurisdiction, hoursLeft, runsOutAt, limit, unit }) =>
    hoursLeft === undefined
      ? []
      : [{ jurisdiction, hoursLeft, limit, unit, ...(runsOutAt === undefined ? {} : { runsOutAt }) }],
  )
  return {
    ...(left.length > 0 ? { hoursLeft: left } : {}),
    ...(doubts.length > 0 ? { hoursDoubts: doubts } : {}),
  }
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
