import { z } from 'zod'
import { compositionSchema } from '../composition.ts'
import { workingSchema } from '../finding.ts'
import { list, quantity } from '../schema.ts'

/** Longest course that is followed, days. */
export const LONGEST_DAYS = 730

export const dryingStage = z.strictObject({
  days: quantity('days', { above: 0, max: LONGEST_DAYS }),
  tempC: quantity('°C', { min: 0, max: 45 }),
  rhPct: quantity('%', { min: 10, max: 100 }),
  /** Air past the pieces; 0.2 m/s where none is given. */
  airSpeedMPerS: quantity('m/s', { min: 0, max: 10 }).optional(),
})

export const dryingTarget = z.strictObject({
  weightLossPct: quantity('% of the start weight', { above: 0, max: 70 }).optional(),
  /** Water activity of the whole, as a minced slice would show it. */
  aw: quantity('', { min: 0.6, max: 0.99 }).optional(),
  moistureToProtein: quantity('kg water per kg protein', { min: 0.3, max: 6 }).optional(),
})

const weighing = z.strictObject({
  day: quantity('days', { min: 0, max: LONGEST_DAYS }),
  weightLossPct: quantity('% of the start weight', { min: -5, max: 75 }),
})

export const dryingPiece = {
  diameterMm: quantity('mm', { min: 10, max: 200 }),
  /** As stuffed. */
  composition: compositionSchema.superRefine((c, ctx) => {
    const refuse = (path: string, message: string) => ctx.addIssue({ code: 'custom', path: [path], message })
    if (c.waterPct < 20 || c.waterPct > 90)
      refuse('waterPct', `is ${c.waterPct}; allowed: 20 to 90 % for a drying course`)
    if (c.proteinPct < 2) refuse('proteinPct', `is ${c.proteinPct}; allowed: at least 2 % for a drying course`)
  }),
  target: dryingTarget,
} as const

type Piece = { readonly composition: { readonly waterPct: number }; readonly target: z.infer<typeof dryingTarget> }

function lossWithinWater({ composition, target: { weightLossPct: loss } }: Piece, ctx: z.RefinementCtx): void {
  if (loss !== undefined && loss >= composition.waterPct)
    ctx.addIssue({
      code: 'custom',
      path: ['target', 'weightLossPct'],
      message: `is ${loss}, but the product holds only ${composition.waterPct} % water; allowed: less than that`,
    })
}

/** A piece to be dried, without its air. */
export const pieceInput = z.strictObject(dryingPiece).superRefine(lossWithinWater)

export const courseInput = z
  .strictObject({
    ...dryingPiece,
    /** Kept for the record; drying is not made to depend on it. */
    startPh: quantity('pH', { min: 3, max: 8 }).optional(),
    /** One after the other from the day of stuffing; after the last one its air is taken to go on. */
    stages: list(dryingStage, { min: 1, max: 2000 }),
    /** Mean loss of the marked pieces; days ascending. */
    weighings: list(weighing, { min: 1, max: 200 })
      .superRefine((rows, ctx) => {
        const at = rows.findIndex((r, i) => i > 0 && r.day <= rows[i - 1]!.day)
        if (at > 0)
          ctx.addIssue({
            code: 'custom',
            path: [at, 'day'],
            message: `is ${rows[at]!.day}, not after ${rows[at - 1]!.day} of the weighing before it; allowed: days that ascend`,
          })
      })
      .optional(),
  })
  .superRefine((i, ctx) => {
    const total = i.stages.reduce((s, x) => s + x.days, 0)
    if (total > LONGEST_DAYS)
      ctx.addIssue({
        code: 'custom',
        path: ['stages'],
        message: `last ${total} days together; allowed: at most ${LONGEST_DAYS}`,
      })
    lossWithinWater(i, ctx)
  })

const estimate = z.strictObject({ low: z.number(), likely: z.number(), high: z.number() })

export const courseOutput = z.strictObject({
  series: z.array(
    z.strictObject({
      day: z.number(),
      weightLossPct: z.number(),
      /** Of the whole, minced. */
      aw: z.number(),
      coreAw: z.number(),
      rimAw: z.number(),
      coreWaterPct: z.number(),
      surfaceWaterPct: z.number(),
      moistureToProtein: z.number(),
      lossPctPerDay: z.number(),
      diameterMm: z.number(),
    }),
  ),
  /** Days after stuffing; 9 in 10 batches would fall from early to late if the assumed spreads hold; of published ones 4 in 10 did (docs/method/dry.md). `late` is missing where it might never be reached. */
  readyDay: z.strictObject({ early: z.number(), likely: z.number(), late: z.number().optional() }).optional(),
  crustRisk: z.array(
    z.strictObject({
      day: z.number(),
      rhPct: z.number(),
      aw: z.number(),
      rimAw: z.number(),
      /** `watch` past the usual 5 points between product and rim, `high` past 10. */
      level: z.enum(['watch', 'high']),
      /** Driest air that would take no more than the core can feed. */
      safeRhPct: z.number(),
      because: z.string(),
    }),
  ),
  /** Factors on the published diffusivity and on the film with casing, 90 % intervals; from the weighings where given. */
  factors: z.strictObject({
    fitted: z.boolean(),
    diffusivity: estimate,
    film: estimate,
    rmsPct: z.number().optional(),
  }),
  warnings: z.array(z.string()),
  working: workingSchema,
})

export type CourseInput = z.infer<typeof courseInput>
export type CourseOutput = z.infer<typeof courseOutput>
export type DryingStage = z.infer<typeof dryingStage>
export type DryingPiece = Pick<CourseInput, 'diameterMm' | 'composition' | 'target'>
