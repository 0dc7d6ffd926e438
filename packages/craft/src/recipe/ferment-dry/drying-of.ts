import { z } from 'zod'
import { courseInput, type CourseInput } from '../../dry/course-schema.ts'
import { isothermOf } from '../../dry/sorption.ts'
import { componentMeasure } from '../measures.ts'
import type { Part } from '../lines.ts'
import type { Recipe } from '../schema.ts'

const standing = z.strictObject({
  lossPct: z.number(),
  waterPct: z.number(),
  moistureToProtein: z.number(),
  aw: z.number(),
})

export const dryingOfOutput = z.union([
  z.strictObject({
    known: z.literal(true),
    /** As `dry.course` takes it: the fermentation's air first, then the drying's. */
    course: courseInput,
    /** Days of the course before the drying stages; none where the product is cooked between the two. */
    fermentDays: z.number(),
    notes: z.array(z.string()),
    /** What the stated loss leaves; water activity computed, on the wet side. */
    atLoss: standing,
    /** Losses at which the other targets are met, percent of the weight the course begins with. */
    lossForAw: z.number().optional(),
    lossForMoistureToProtein: z.number().optional(),
  }),
  z.strictObject({ known: z.literal(false), because: z.string(), settle: z.string() }),
])
export type DryingOf = z.infer<typeof dryingOfOutput>

const unknown = (because: string, settle: string): DryingOf => ({ known: false, because, settle })

const components = ['waterPct', 'proteinPct', 'fatPct', 'carbohydratePct', 'ashPct', 'saltPct'] as const
type Components = { -readonly [K in (typeof components)[number]]?: number }

/** The mix as stuffed, as far as its parts say; a sum of tables a little over 100 is shared back. */
function asStuffed(parts: readonly Part[]): Components {
  const out: Components = {}
  for (const c of components) {
    const m = componentMeasure(parts, c)
    if ('value' in m) out[c] = m.value
  }
  const ash = Math.max(out.ashPct ?? 0, out.saltPct ?? 0)
  const sum = (out.waterPct ?? 0) + (out.proteinPct ?? 0) + (out.fatPct ?? 0) + (out.carbohydratePct ?? 0) + ash
  if (sum > 100) for (const c of components) if (out[c] !== undefined) out[c] = (out[c] * 100) / sum
  return out
}

/** The mix after a cook that took water alone, percent of its weight. */
function afterCook(c: Components, lossPct: number): Components {
  const left = 1 - lossPct / 100
  return Object.fromEntries(
    Object.entries(c).map(([k, v]) => [k, (k === 'waterPct' ? Math.max(0, v - lossPct) : v) / left]),
  )
}

/** Air that takes nothing from the mix: where a fermentation's humidity is not said, no loss is counted in it. */
const stillAir = (aw: number): number => 100 * aw

function stagesOf(
  { ferment, dry, cook }: Recipe,
  aw: number,
): { stages: CourseInput['stages']; days: number; notes: string[] } {
  // What is cooked between the two is dried as it comes from the cook.
  const before = cook === undefined ? (ferment?.stages ?? []) : []
  const warm = before.map((s) => ({
    days: s.hours / 24,
    tempC: s.tempC,
    rhPct: s.rhPct ?? stillAir(aw),
  }))
  return {
    stages: [...warm, ...(dry?.stages ?? [])],
    days: warm.reduce((s, x) => s + x.days, 0),
    notes: [
      ...(before.some((s) => s.rhPct === undefined)
        ? ['a fermentation stage has no humidity: no loss of weight is counted in it, so the date errs late']
        : []),
      ...(cook === undefined
        ? []
        : [
            `the course begins after the cook${cook.lossPct === undefined ? ', whose loss is not said and is taken as none' : ''}; the loss in drying is of the cooked weight`,
          ]),
    ],
  }
}

/**
 * The drying a recipe plans, as the course of a piece: composition of its parts, calibre of its casing, its stages and targets; with what the
 * stated loss leaves, so that targets that do not agree are seen before anything is made.
 */
export function dryingOf(recipe: Recipe, parts: readonly Part[]): DryingOf | undefined {
  const { dry, casing } = recipe
  if (dry === undefined)
    return recipe.kind === 'dried'
      ? unknown('the recipe does not say how far it is dried', 'a loss of weight, and the stages of the drying')
      : undefined
  const cookLossPct = recipe.cook?.lossPct ?? 0
  const { waterPct, proteinPct, fatPct, ...rest } = afterCook(asStuffed(parts), cookLossPct)
  if (waterPct === undefined || proteinPct === undefined || fatPct === undefined)
    return unknown(
      'water, protein or fat of some part is not known',
      'the composition of every part that weighs, from a specification or an analysis',
    )
  const composition = { waterPct, proteinPct, fatPct, ...rest }
  if (rest.saltPct === undefined) return unknown('the salt of some part is not known', 'its salt, from a specification')
  if (casing === undefined) return unknown('the recipe names no casing', 'the calibre of the casing')
  if ((dry.stages ?? []).length === 0)
    return unknown('the recipe has no drying stages', 'stages with days, temperature and humidity')
  const isotherm = isothermOf(composition)
  const solid = 100 - waterPct
  const { stages, days, notes } = stagesOf(recipe, isotherm.aw(waterPct / solid))
  const course = courseInput.safeParse({
    // Water weighs about what the mix does: the section shrinks as the weight does.
    diameterMm: casing.calibreMm * Math.sqrt(1 - cookLossPct / 100),
    composition,
    ...(recipe.ferment?.startPh === undefined ? {} : { startPh: recipe.ferment.startPh }),
    stages,
    target: {
      ...(dry.lossPct > 0 ? { weightLossPct: dry.lossPct } : {}),
      ...(dry.targetAw === undefined ? {} : { aw: dry.targetAw }),
      ...(dry.targetMoistureToProtein === undefined ? {} : { moistureToProtein: dry.targetMoistureToProtein }),
    },
  })
  if (!course.success) {
    const { path, message } = course.error.issues[0]!
    return unknown(`${path.join('.')} ${message}`, 'figures within what the model was made for')
  }
  const lossAt = (water: number): number => waterPct - water * solid
  return {
    known: true,
    course: course.data,
    fermentDays: days,
    notes,
    atLoss: {
      lossPct: dry.lossPct,
      waterPct: (100 * (waterPct - dry.lossPct)) / (100 - dry.lossPct),
      moistureToProtein: (waterPct - dry.lossPct) / proteinPct,
      aw: isotherm.aw((waterPct - dry.lossPct) / solid),
    },
    ...(dry.targetAw === undefined ? {} : { lossForAw: lossAt(isotherm.water(dry.targetAw)) }),
    ...(dry.targetMoistureToProtein === undefined
      ? {}
      : { lossForMoistureToProtein: waterPct - dry.targetMoistureToProtein * proteinPct }),
  }
}
