import { z } from 'zod'
import { compositionOutSchema } from '../blend/schema.ts'
import { pickleSchema } from '../cure/entering.ts'
import { workingSchema } from '../finding.ts'
import { materialSchema } from '../materials/schema.ts'
import { isoDate, list, massKg, massKgOrNone, oneOf, pct, quantity, text } from '../schema.ts'
import { jurisdictions, recipeSchema } from './schema.ts'

/** What a lot in hand says of itself, in place of the table's figure for its material. */
export const lotSchema = z.strictObject({
  lot: text(80),
  material: text(60),
  /** Fat by analysis; the rest of the composition is then scaled as fat-free tissue. */
  fatPct: pct().optional(),
  /** Fat it was sold as. Shown against the analysis, never reckoned with. */
  soldFatPct: pct().optional(),
  fatSdPct: pct().optional(),
  /** Collagen by specification or analysis; the table's, or not known, where it is left out. */
  collagenPct: pct().optional(),
  costPerKg: quantity('money per kg', { min: 0, max: 1e6 }).optional(),
  availableKg: massKgOrNone().optional(),
})
export type Lot = z.infer<typeof lotSchema>

const priceSchema = z.strictObject({ material: text(60), costPerKg: quantity('money per kg', { min: 0, max: 1e6 }) })

export const recipeComputeInput = z.strictObject({
  recipe: recipeSchema,
  meatKg: massKg(),
  /** The kitchen's own materials; one with the id of a table's material stands in its place. */
  materials: list(materialSchema, { max: 300 }).optional(),
  lots: list(lotSchema, { max: 200 }).optional(),
  /** Price of a material where no lot of it says one. */
  prices: list(priceSchema, { max: 300 }).optional(),
  /** Weights as weighed, in place of the recipe's shares. */
  lines: list(z.strictObject({ material: text(60), lot: text(80).optional(), kg: massKgOrNone() }), {
    min: 1,
    max: 200,
  }).optional(),
  /** The whole pickle, for the pumped and immersed routes: `agents` of the recipe are what it holds. */
  pickle: pickleSchema.optional(),
  on: isoDate().optional(),
  jurisdictions: list(oneOf(jurisdictions), { max: 10 }).optional(),
})
export type RecipeComputeInput = z.infer<typeof recipeComputeInput>

export const recipeLineSchema = z.strictObject({
  material: z.string(),
  name: z.string(),
  category: z.string(),
  lot: z.string().optional(),
  role: z.enum(['meat', 'addition']),
  pctOfMeat: z.number(),
  pctOfTotal: z.number(),
  kg: z.number(),
  fatPct: z.number().optional(),
  costPerKg: z.number().optional(),
  cost: z.number().optional(),
})
export type RecipeLine = z.infer<typeof recipeLineSchema>

export const measureSchema = z.union([
  z.strictObject({
    value: z.number(),
    low: z.number().optional(),
    high: z.number().optional(),
    settle: z.string().optional(),
  }),
  z.strictObject({ missing: z.string(), settle: z.string().optional() }),
])
export type MeasureOut = z.infer<typeof measureSchema>

export const recipeComputeOutput = z.strictObject({
  lines: z.array(recipeLineSchema),
  totals: z.strictObject({
    meatKg: z.number(),
    totalKg: z.number(),
    /** Loss in cooking and drying that the recipe states, percent of the mix; absent where it states none. */
    lossPct: z.number().optional(),
    finishedKg: z.number().optional(),
  }),
  /** Of the raw mix. A component some material lacks is absent and the material named in `unknown`. */
  composition: compositionOutSchema,
  unknown: z.array(z.strictObject({ component: z.string(), materials: z.array(z.string()) })),
  fatSdPct: z.number().optional(),
  cure: z.strictObject({
    known: z.boolean(),
    because: z.string(),
    nitritePpm: z.number().optional(),
    nitratePpm: z.number().optional(),
    nitriteIonPpm: z.number().optional(),
    nitrateIonPpm: z.number().optional(),
    erythorbatePpm: z.number().optional(),
    ascorbatePpm: z.number().optional(),
    /** Salt the cures carry, kg, and all salt weighed in (salt and cures), percent of the meat block and of the mix. */
    saltFromCureKg: z.number(),
    addedSaltKg: z.number(),
    addedSaltPctOfMeat: z.number(),
    addedSaltPctOfTotal: z.number(),
    cautions: z.array(z.string()),
    working: workingSchema,
  }),
  addedWaterPct: z.number().optional(),
  binderPct: z.number(),
  phosphatePct: z.number(),
  spicePct: z.number(),
  cost: z.strictObject({
    total: z.number().optional(),
    perKgRaw: z.number().optional(),
    perKgFinished: z.number().optional(),
    /** Sum of the lines that have a price, and the materials that have none. */
    knownTotal: z.number(),
    unpriced: z.array(z.string()),
  }),
  measures: z.record(z.string(), measureSchema),
  facts: z.record(z.string(), z.union([z.string(), z.boolean()])),
  notes: z.array(z.string()),
  on: z.string().optional(),
  jurisdictions: z.array(z.string()).optional(),
})
export type RecipeComputed = z.infer<typeof recipeComputeOutput>
