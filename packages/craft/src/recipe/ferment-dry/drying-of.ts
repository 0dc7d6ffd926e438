import { z } from 'zod'
import { courseInput } from '../../dry/course-schema.ts'
import { isothermOf } from '../../dry/sorption.ts'
import type { Part } from '../lines.ts'
import type { Recipe } from '../schema.ts'
import { dryingPieceOf, missingWords } from './drying-piece.ts'
import { recipeAir } from './planned-air.ts'

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

/**
 * The drying a recipe plans, as the course of a piece: composition of its parts, calibre of its casing, its stages and targets, as it
 * comes from the cook where there is one; with what the stated loss leaves, so that targets that do not agree are seen before anything is made.
 */
export function dryingOf(recipe: Recipe, parts: readonly Part[]): DryingOf | undefined {
  const { dry } = recipe
  if (dry === undefined)
    return recipe.kind === 'dried'
      ? unknown('the recipe does not say how far it is dried', 'a loss of weight, and the stages of the drying')
      : undefined
  const { piece, missing, notes: left } = dryingPieceOf(recipe, parts)
  if (piece === undefined) return unknown(missingWords(missing), missing.map((m) => m.settle).join('; '))
  if ((dry.stages ?? []).length === 0)
    return unknown('the recipe has no drying stages', 'stages with days, temperature and humidity')
  const { waterPct, proteinPct } = piece.composition
  const isotherm = isothermOf(piece.composition)
  const solid = 100 - waterPct
  const { stages, fermentDays, notes } = recipeAir(recipe)
  const course = courseInput.safeParse({
    ...piece,
    ...(recipe.ferment?.startPh === undefined ? {} : { startPh: recipe.ferment.startPh }),
    stages,
  })
  if (!course.success) {
    const { path, message } = course.error.issues[0]!
    return unknown(`${path.join('.')} ${message}`, 'figures within what the model was made for')
  }
  const lossAt = (water: number): number => waterPct - water * solid
  return {
    known: true,
    course: course.data,
    fermentDays,
    notes: [...notes, ...left],
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
