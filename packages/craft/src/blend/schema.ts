import { z } from 'zod'
import { compositionSchema } from '../composition.ts'
import { list, massKg, massKgOrNone, pct, quantity, text } from '../schema.ts'

/**
 * What a limit may be on, besides the id of a material or the name of a species. A measure comes first where a material has its name:
 * such a material is limited by its own minPct and maxPct.
 */
export const measures = [
  'fat',
  'protein',
  'water',
  'collagen',
  'addedWater',
  'salt',
  'fatPlusAddedWater',
  'collagenInProtein',
] as const
export type MeasureName = (typeof measures)[number]

const ordered = (l: { minPct?: number | undefined; maxPct?: number | undefined }): boolean =>
  l.minPct === undefined || l.maxPct === undefined || l.minPct <= l.maxPct
const orderedMessage = { message: 'has minPct above maxPct; allowed: minPct at most maxPct' }

export const blendMaterialSchema = z
  .strictObject({
    id: text(80),
    composition: compositionSchema,
    /** Standard deviation of this lot's fat about its stated figure, points of percent. */
    fatSdPct: pct().optional(),
    costPerKg: quantity('money per kg', { min: -1e6, max: 1e6 }),
    availableKg: massKgOrNone().optional(),
    /** Least and most of it, percent of the batch. */
    minPct: pct().optional(),
    maxPct: pct().optional(),
    /** Used in whole boxes of this mass only. */
    wholeUnitsKg: massKg().optional(),
    species: text(40).optional(),
    /**
     * `meat` protein counts in full towards the water that belongs to it; `other` (soy, milk, gluten, plasma, extracted protein) only up
     * to one point of the batch, as 9 CFR 318.22 has it. Without it: meat.
     */
    protein: z.enum(['meat', 'other'], { error: 'is not known; allowed: one of meat, other' }).optional(),
  })
  .refine(ordered, orderedMessage)
export type BlendMaterial = z.infer<typeof blendMaterialSchema>

export const blendLimitSchema = z
  .strictObject({ of: text(80), minPct: signedPct().optional(), maxPct: signedPct().optional() })
  .refine(ordered, orderedMessage)
  .refine((l) => l.minPct !== undefined || l.maxPct !== undefined, {
    message: 'has neither minPct nor maxPct; allowed: at least one of them',
  })
  .superRefine((l, ctx) => {
    if (l.of === 'addedWater' || l.of === 'fatPlusAddedWater') return
    for (const side of ['minPct', 'maxPct'] as const) {
      const v = l[side]
      if (v !== undefined && (v < 0 || v > 100))
        ctx.addIssue({
          code: 'custom',
          path: [side],
          message: `is ${v}; allowed: a number in % by mass, at least 0 and at most 100`,
        })
    }
  })
export type BlendLimit = z.infer<typeof blendLimitSchema>

/** Added water may be below zero: lean meat holds less than four times its protein. */
function signedPct() {
  return quantity('% by mass', { min: -400, max: 400 })
}

/** Fat limits hold with this probability; below 50 % a limit would be looser than the mean, which nobody means. */
export const confidence = () => quantity('% probability', { min: 50, max: 99.9999 })

const materials = () =>
  list(blendMaterialSchema, { min: 1, max: 500 }).superRefine((items, ctx) => {
    const seen = new Set<string>()
    items.forEach((m, i) => {
      if (seen.has(m.id))
        ctx.addIssue({
          code: 'custom',
          path: [i, 'id'],
          message: `is ${JSON.stringify(m.id)} a second time; allowed: each material once`,
        })
      seen.add(m.id)
    })
  })

export const blendInputSchema = z.strictObject({
  batchKg: massKg(),
  materials: materials(),
  limits: list(blendLimitSchema, { max: 500 }),
  confidencePct: confidence().optional(),
  /** How far the batch may come out from batchKg, for whole boxes; nothing without it. */
  batchTolerancePct: quantity('% of the batch', { min: 0, max: 50 }).optional(),
})
export type BlendInput = z.infer<typeof blendInputSchema>

export const sharedInputSchema = z
  .strictObject({
    materials: materials(),
    batches: list(
      z.strictObject({
        id: text(80),
        batchKg: massKg(),
        /** Ids of the materials this batch may take; without it, all. */
        materials: list(text(80), { min: 1, max: 500 }).optional(),
        limits: list(blendLimitSchema, { max: 200 }),
        confidencePct: confidence().optional(),
      }),
      { min: 1, max: 50 },
    ),
  })
  .superRefine(({ batches }, ctx) => {
    const ids = batches.map((b) => b.id)
    ids.forEach((id, i) => {
      if (ids.indexOf(id) !== i)
        ctx.addIssue({
          code: 'custom',
          path: ['batches', i, 'id'],
          message: `is ${JSON.stringify(id)} a second time; allowed: each batch once`,
        })
    })
  })
export type SharedInput = z.infer<typeof sharedInputSchema>

const lineSchema = z.strictObject({ id: z.string(), kg: z.number(), pct: z.number(), units: z.number().optional() })

export const compositionOutSchema = z.strictObject({
  waterPct: z.number().optional(),
  proteinPct: z.number().optional(),
  fatPct: z.number().optional(),
  carbohydratePct: z.number().optional(),
  ashPct: z.number().optional(),
  saltPct: z.number().optional(),
  collagenPct: z.number().optional(),
})

const requirementOutSchema = z.strictObject({
  of: z.string(),
  side: z.enum(['min', 'max', 'available', 'whole']),
  value: z.number(),
  unit: z.enum(['%', 'kg', 'money per kg']),
  batch: z.string().optional(),
  text: z.string(),
})
export const conflictSchema = z.array(requirementOutSchema)
const changeSchema = requirementOutSchema.extend({ to: z.number() })
export const relaxSchema = z.strictObject({
  /** Each of the clashing limits, where moving it alone frees the blend: how far it has to move. */
  alone: z.array(changeSchema),
  /** The set of moves with the fewest points moved in all. */
  together: z.array(changeSchema),
})
export type Relax = z.infer<typeof relaxSchema>

export const priceSchema = z.strictObject({
  of: z.string(),
  side: z.enum(['min', 'max', 'available', 'batch']),
  /**
   * Money saved: per kg more of a lot that has run out; per point a limit is loosened and kg of batch made. For `batch`: what one more kg
   * of the batch costs.
   */
  worthPerKg: z.number(),
  unit: z.enum(['money per kg of the lot', 'money per point and kg of the batch', 'money per kg of the batch']),
  batch: z.string().optional(),
})
export type Price = z.infer<typeof priceSchema>

export const checkedSchema = z.strictObject({
  /** Largest breach of any limit found when each was computed again from the weights, points; at most 1e-6. */
  worstBreachPct: z.number(),
  massGapKg: z.number(),
  /** Cost less the value of all limits at their prices, money per kg: 0 proves the blend the cheapest there is. Absent with whole units. */
  dualGapPerKg: z.number().optional(),
})

export const confidenceOutSchema = z.strictObject({
  probabilityPct: z.number(),
  /** Standard deviations the mean fat is held away from its limit; of several limits the most. */
  z: z.number(),
  marginPct: z.number(),
  /** Money per kg that holding the limit with this probability costs over holding it on average. */
  costPerKg: z.number(),
})

const blendResult = {
  /** `unsolved`: a search for whole boxes ended (ten seconds) without an answer that is proved; never given as a guess. */
  status: z.enum(['optimal', 'infeasible', 'unsolved']),
  because: z.string(),
  prices: z.array(priceSchema),
  conflict: conflictSchema.optional(),
  relax: relaxSchema.optional(),
  checked: checkedSchema.optional(),
}

export const blendOutputSchema = z.strictObject({
  ...blendResult,
  lines: z.array(lineSchema),
  totalKg: z.number().optional(),
  costPerKg: z.number().optional(),
  composition: compositionOutSchema.optional(),
  addedWaterPct: z.number().optional(),
  fatSdPct: z.number().optional(),
  confidence: confidenceOutSchema.optional(),
  unknown: z.array(z.strictObject({ component: z.string(), materials: z.array(z.string()) })).optional(),
})
export type BlendOutput = z.infer<typeof blendOutputSchema>

export const sharedOutputSchema = z.strictObject({
  ...blendResult,
  batches: z.array(
    blendOutputSchema
      .pick({
        lines: true,
        costPerKg: true,
        composition: true,
        addedWaterPct: true,
        fatSdPct: true,
        confidence: true,
        unknown: true,
      })
      .extend({
        id: z.string(),
        batchKg: z.number(),
      }),
  ),
  totalCost: z.number().optional(),
  left: z.array(z.strictObject({ id: z.string(), kg: z.number() })),
})
export type SharedOutput = z.infer<typeof sharedOutputSchema>
