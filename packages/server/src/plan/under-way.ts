import type { CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { dayAfter } from '@forcemeat/craft/plan/day'
import { dryingPieceFrom } from '@forcemeat/craft/recipe/ferment-dry/drying-piece'
import { daysBeforeCourse, fermentDays, recipeAir } from '@forcemeat/craft/recipe/ferment-dry/planned-air'
import { lossOf } from '@forcemeat/craft/recipe/measures'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { hangingNow, type BatchRecord } from '@forcemeat/ledger'
import { failsOf } from './failing.ts'
import type { Reckoner } from './reckoner.ts'
import { stuffedKg } from '../slow/mix.ts'
import { isSlow, slowBatch, type Kitchen } from './slow.ts'

export type Lead = { readonly days: number; readonly dryFrom: number; readonly because: string }

/** Days from starting a batch to its being ready, on which of them it dries, and where that comes from. */
export async function leadOf(reckoner: Reckoner, recipe: Recipe): Promise<Lead> {
  const ferments = Math.ceil(fermentDays(recipe))
  const { dry } = recipe
  if (dry?.days !== undefined)
    return {
      days: Math.max(1, Math.ceil(ferments + dry.days)),
      dryFrom: ferments,
      because: `${ferments > 0 ? `${ferments} days of fermenting and ` : ''}the recipe's ${dry.days} days of drying`,
    }
  if (dry) {
    const { piece } = dryingPieceFrom({ recipe, meatKg: 100 })
    if (piece && (dry.stages ?? []).length > 0) {
      const course = await reckoner.run<CourseOutput>('dry.course', { ...piece, stages: recipeAir(recipe).stages })
      if (course.readyDay)
        return {
          days: Math.ceil(daysBeforeCourse(recipe) + (course.readyDay.late ?? course.readyDay.likely)),
          dryFrom: ferments,
          because: "the latest day of the drying course in the recipe's air",
        }
    }
    return { days: 30, dryFrom: ferments, because: 'taken as 30 days: the recipe says no days and no air to dry in' }
  }
  if (ferments > 0)
    return { days: ferments + 1, dryFrom: ferments, because: `${ferments} days of fermenting, and a day to finish` }
  if (recipe.kind === 'cooked') return { days: 1, dryFrom: 0, because: 'cooked and chilled, packed the next day' }
  if (recipe.kind === 'fresh') return { days: 0, dryFrom: 0, because: 'fresh: packed the same day' }
  return { days: 30, dryFrom: 0, because: 'taken as 30 days: the recipe says nothing of fermenting or drying' }
}

/** Finished weight from the mix, percent; and whether anybody stated the loss. */
export function yieldOf(recipe: Recipe): { readonly pct: number; readonly stated: boolean } {
  const loss = lossOf(recipe)
  return { pct: loss === undefined ? 100 : 100 - loss, stated: loss !== undefined || recipe.kind === 'fresh' }
}

/** A batch that is begun or planned: what it will give, when, and until when it hangs. */
export type UnderWay = {
  readonly batch: string
  readonly recipe: string
  readonly recipeName: string
  readonly state: string
  readonly on: string
  readonly mixKg: number
  /** Finished weight to come; 0 for what is on hold or fails a limit. */
  readonly finishedKg: number
  /** Titles of the limits it fails as it stands; absent where it fails none. */
  readonly fails?: readonly string[]
  /** The day it comes out by its own forecast, as Today and the calendar of its room have it; absent where no forecast can be made. */
  readonly comesOut?: string
  /** The day it is counted on from: the latest of its forecast, for an order is promised on it. */
  readonly ready: string
  readonly lead: Lead
  readonly record: BatchRecord
}

/** Batches not yet packed and released, with what they will give. A batch on hold, or one that fails a limit, is counted on by nobody. */
export async function underWay(kitchen: Kitchen): Promise<UnderWay[]> {
  const { ledger, reckoner, nowMs } = kitchen
  const today = new Date(nowMs).toISOString().slice(0, 10)
  const [placements, open] = await Promise.all([
    ledger.placements(),
    ledger.batches({ state: ['planned', 'weighing', 'made', 'held', 'released'], limit: 500 }),
  ])
  const hanging = hangingNow(placements)
  const found: UnderWay[] = []
  for (const { batch, state } of open) {
    const record = await ledger.batch(batch)
    if (!record) continue
    const recipe = record.recipeBody
    const lead = await leadOf(reckoner, recipe)
    const mixKg = stuffedKg(record)
    const slow = isSlow(record) && (state !== 'planned' || hanging.has(batch))
    const dated = slow ? (await slowBatch(kitchen, record)).view.ready : undefined
    const ready = dated?.late ?? dated?.likely ?? dayAfter(record.on, lead.days)
    const packed = record.packs.reduce((s, p) => s + (p.totalKg * p.hereCount) / p.count, 0)
    const fails = await failsOf(ledger, record)
    const finished = record.packs.length > 0 ? packed : (mixKg * yieldOf(recipe).pct) / 100
    found.push({
      batch,
      recipe: record.recipe,
      recipeName: record.recipeName,
      state,
      on: record.on,
      mixKg,
      finishedKg: state === 'held' || fails.length > 0 ? 0 : finished,
      ...(fails.length > 0 ? { fails } : {}),
      ...(dated ? { comesOut: dated.likely } : {}),
      ready: ready < today ? today : ready,
      lead,
      record,
    })
  }
  return found
}
