import { z } from 'zod'
import {
  blendLimitSchema,
  checkedSchema,
  confidence,
  conflictSchema,
  priceSchema,
  relaxSchema,
} from '../blend/schema.ts'
import { list, quantity, text } from '../schema.ts'
import { recipeComputeInput, recipeComputeOutput } from './compute-schema.ts'
import { recipeSchema } from './schema.ts'

const share = () => quantity('% of the meat block', { min: 0, max: 1000 })

const allowed = z
  .strictObject({ material: text(60), minPct: share().optional(), maxPct: share().optional() })
  .refine((a) => a.minPct === undefined || a.maxPct === undefined || a.minPct <= a.maxPct, {
    message: 'has minPct above maxPct; allowed: minPct at most maxPct',
  })

export const formulateInput = z.strictObject({
  ...recipeComputeInput.omit({ lines: true, pickle: true, on: true, jurisdictions: true }).shape,
  /** What the finished product must hold, percent of the product after the loss the recipe states; `meat` is of the raw mix. */
  targets: list(blendLimitSchema, { min: 1, max: 60 }),
  /** What may be changed, and how far, percent of the meat block. All else keeps its share of the meat block. */
  allow: list(allowed, { min: 1, max: 60 }),
  confidencePct: confidence().optional(),
  /** Highest cost of the raw mix, money per kg. */
  maxCostPerKg: quantity('money per kg', { min: 0, max: 1e6 }).optional(),
})
export type FormulateInput = z.infer<typeof formulateInput>

export const formulateOutput = z.strictObject({
  status: z.enum(['optimal', 'infeasible', 'unsolved']),
  because: z.string(),
  recipe: recipeSchema.optional(),
  changes: z.array(z.strictObject({ material: z.string(), beforePct: z.number(), afterPct: z.number() })),
  computed: recipeComputeOutput.optional(),
  costPerKg: z.number().optional(),
  prices: z.array(priceSchema),
  conflict: conflictSchema.optional(),
  relax: relaxSchema.optional(),
  checked: checkedSchema.optional(),
})
export type Formulated = z.infer<typeof formulateOutput>
