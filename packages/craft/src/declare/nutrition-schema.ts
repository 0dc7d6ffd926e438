import { z } from 'zod'
import { findingSchema, workingSchema } from '../finding.ts'
import { findMaterial } from '../materials/materials.ts'
import { isoDate, list, massG, massKg, massKgOrNone, oneOf, pct, quantity, text } from '../schema.ts'
import { labelPlaces } from './allergens.ts'

const mg = () => quantity('mg per 100 g', { min: 0, max: 100_000 })

/** Minor nutrients per 100 g, beside the percents of a composition. */
const minor = {
  cholesterolMg: mg().optional(),
  potassiumMg: mg().optional(),
  calciumMg: mg().optional(),
  ironMg: mg().optional(),
  vitaminDUg: quantity('µg per 100 g', { min: 0, max: 100_000 }).optional(),
  vitaminAIu: quantity('IU per 100 g', { min: 0, max: 10_000_000 }).optional(),
  vitaminCMg: mg().optional(),
}

/** What a part is made of. An absent field is unknown, never zero. */
export const nutrientComposition = z
  .strictObject({
    waterPct: pct().optional(),
    proteinPct: pct().optional(),
    fatPct: pct().optional(),
    saturatedPct: pct().optional(),
    transPct: pct().optional(),
    carbohydratePct: pct().optional(),
    /** Whether `carbohydratePct` counts the fibre in (by difference) or leaves it out (available carbohydrate). */
    carbohydrateIncludesFibre: z.boolean().optional(),
    sugarsPct: pct().optional(),
    addedSugarsPct: pct().optional(),
    polyolsPct: pct().optional(),
    fibrePct: pct().optional(),
    ashPct: pct().optional(),
    /** All sodium as sodium chloride. */
    saltPct: pct().optional(),
    sodiumPct: pct().optional(),
    alcoholPct: pct().optional(),
    organicAcidsPct: pct().optional(),
    collagenPct: pct().optional(),
    ...minor,
  })
  .superRefine((c, ctx) => {
    const sum =
      (c.waterPct ?? 0) +
      (c.proteinPct ?? 0) +
      (c.fatPct ?? 0) +
      (c.carbohydratePct ?? 0) +
      (c.alcoholPct ?? 0) +
      Math.max(c.ashPct ?? 0, c.saltPct ?? 0, c.sodiumPct ?? 0)
    if (sum > 102)
      ctx.addIssue({
        code: 'custom',
        message: `adds up to ${Number(sum.toFixed(2))} %; allowed: at most 100 %, or 102 % of rounded table values`,
      })
    if (c.saturatedPct !== undefined && c.fatPct !== undefined && c.saturatedPct > c.fatPct + 0.01)
      ctx.addIssue({
        code: 'custom',
        path: ['saturatedPct'],
        message: `is ${c.saturatedPct}, more than fatPct ${c.fatPct}; allowed: at most the fat it is part of`,
      })
  })
export type NutrientComposition = z.infer<typeof nutrientComposition>

const part = z
  .strictObject({
    kg: massKg(),
    name: text(120).optional(),
    /** Id of a material of the table; its composition is used where none is given. */
    material: text(60).optional(),
    composition: nutrientComposition.optional(),
    /** Where a given composition comes from: "supplier's specification of …". */
    source: text(200).optional(),
  })
  .superRefine((p, ctx) => {
    if (p.composition === undefined && p.material === undefined)
      ctx.addIssue({ code: 'custom', message: 'names no material and gives no composition; allowed: one of the two' })
    if (p.composition === undefined && p.material !== undefined && !findMaterial(p.material))
      ctx.addIssue({
        code: 'custom',
        path: ['material'],
        message: `is "${p.material.slice(0, 40)}", which the table does not hold; allowed: an id of the materials table, or a composition beside it`,
      })
  })

const g = () => quantity('g per 100 g', { min: 0, max: 100 })

/** Figures for 100 g of the product as sold. Carbohydrate is as the place's label defines it: with fibre in the US, without elsewhere. */
const per100g = z
  .strictObject({
    fatG: g().optional(),
    saturatedG: g().optional(),
    transG: g().optional(),
    carbohydrateG: g().optional(),
    sugarsG: g().optional(),
    addedSugarsG: g().optional(),
    polyolsG: g().optional(),
    fibreG: g().optional(),
    proteinG: g().optional(),
    saltG: g().optional(),
    sodiumMg: mg().optional(),
    alcoholG: g().optional(),
    organicAcidsG: g().optional(),
    ...minor,
  })
  .superRefine((p, ctx) => {
    if (p.saltG !== undefined && p.sodiumMg !== undefined)
      ctx.addIssue({ code: 'custom', path: ['saltG'], message: 'stands beside sodiumMg; allowed: one of the two' })
    const over = (part: number | undefined, whole: number | undefined) =>
      part !== undefined && whole !== undefined && part > whole + 0.05
    if (over(p.saturatedG, p.fatG))
      ctx.addIssue({ code: 'custom', path: ['saturatedG'], message: 'is more than fatG; allowed: at most the fat' })
    if (over(p.sugarsG, p.carbohydrateG))
      ctx.addIssue({ code: 'custom', path: ['sugarsG'], message: 'is more than carbohydrateG; allowed: at most that' })
    const sum = (p.fatG ?? 0) + (p.carbohydrateG ?? 0) + (p.proteinG ?? 0) + (p.saltG ?? 0)
    if (sum > 102)
      ctx.addIssue({ code: 'custom', message: `adds up to ${Number(sum.toFixed(2))} g; allowed: at most 100 g` })
  })

/** Places whose panel is drawn for a serving, alone or beside 100 g. */
export const asksServing: readonly string[] = ['US', 'CA', 'AU-NZ']

export const nutritionInput = z
  .strictObject({
    jurisdiction: oneOf(labelPlaces),
    /** The US panel since the rule of 2016 (default), or the format 9 CFR 317.309 still holds. */
    format: oneOf(['us-2016', 'us-1993']).optional(),
    /** Everything that goes into the bowl. */
    parts: list(part, { min: 1, max: 200 }).optional(),
    /** Figures for 100 g as sold, by analysis; each stands in place of the computed one. */
    per100g: per100g.optional(),
    per100gSource: text(200).optional(),
    servingG: massG().optional(),
    packG: massG().optional(),
    /** Class of the US table of reference amounts, and whether it is sold uncooked. */
    referenceClass: oneOf([
      'bacon',
      'breakfast-strips',
      'dried-sausage',
      'snack-stick',
      'luncheon-meat',
      'sausage',
      'topper',
    ]).optional(),
    uncooked: z.boolean().optional(),
    /** Weight after cooking or drying. */
    finishedKg: massKg().optional(),
    /** The same as percent lost of what went in. */
    lossPct: quantity('% of the mix', { min: 0, max: 95 }).optional(),
    /** Fat that ran off, kg; the rest of the loss is water. */
    fatLossKg: massKgOrNone().optional(),
    on: isoDate().optional(),
  })
  .superRefine((i, ctx) => {
    const issue = (path: string, message: string) => ctx.addIssue({ code: 'custom', path: [path], message })
    if (i.parts === undefined && i.per100g === undefined)
      ctx.addIssue({ code: 'custom', message: 'holds neither parts nor per100g; allowed: one of the two, or both' })
    if (i.finishedKg !== undefined && i.lossPct !== undefined)
      issue('lossPct', 'stands beside finishedKg; allowed: one of the two')
    const loses = i.finishedKg !== undefined || i.lossPct !== undefined
    if (i.fatLossKg !== undefined && !loses)
      issue('fatLossKg', 'stands without finishedKg or lossPct; allowed: with one')
    if (loses && i.parts === undefined) issue('parts', 'is missing; allowed: the parts that lose weight')
    const total = (i.parts ?? []).reduce((s, p) => s + p.kg, 0)
    if (i.finishedKg !== undefined && i.parts !== undefined && i.finishedKg > total * (1 + 1e-9))
      issue(
        'finishedKg',
        `is ${i.finishedKg}, more than the parts together (${Number(total.toFixed(6))}); allowed: at most that`,
      )
    const lost = i.finishedKg === undefined ? (total * (i.lossPct ?? 0)) / 100 : total - i.finishedKg
    if (i.fatLossKg !== undefined && loses && i.fatLossKg > lost + 1e-9)
      issue(
        'fatLossKg',
        `is ${i.fatLossKg}, more than the whole loss (${Number(lost.toFixed(6))}); allowed: at most that`,
      )
    if (asksServing.includes(i.jurisdiction) && i.servingG === undefined)
      issue('servingG', `is missing; allowed: the serving in g, which the panel of ${i.jurisdiction} is drawn for`)
    if (i.jurisdiction !== 'US' && i.format !== undefined)
      issue('format', 'is a US format; allowed: none outside the US')
  })

const row = z.strictObject({
  key: z.string(),
  label: z.string(),
  unit: z.string(),
  mandatory: z.boolean(),
  /** Unrounded, per 100 g; absent where it is not known. */
  per100g: z.number().optional(),
  per100gLow: z.number(),
  per100gHigh: z.number(),
  perServing: z.number().optional(),
  /** As printed; absent where what is not known could change it. */
  declaredPer100g: z.string().optional(),
  declaredPerServing: z.string().optional(),
  dvPct: z.number().optional(),
  declaredDv: z.string().optional(),
  from: z.array(z.string()),
  /** Parts whose figure no source gives. */
  missing: z.array(z.string()),
  /** Where a control analysis may lie, per 100 g or per serving as the panel is drawn, and how the rule was read. */
  tolerance: z.strictObject({ low: z.number().optional(), high: z.number().optional(), mark: z.string() }).optional(),
  /** Set where the rounding rule or daily value of the row was not read in its source. */
  caution: z.string().optional(),
})

export const nutritionOutput = z.strictObject({
  jurisdiction: z.string(),
  format: z.string(),
  /** What the declared column is for. */
  basis: z.enum(['per 100 g', 'per serving']),
  /** Columns the place wants, in their order. */
  columns: z.array(z.enum(['per serving', 'per 100 g'])),
  complete: z.boolean(),
  panel: z.array(row),
  servingsPerContainer: z.string().optional(),
  /** Words of the place for the number and the size of servings. */
  servingWords: z.strictObject({ number: z.string(), size: z.string() }).optional(),
  /** Lines that stand under the table with the percents of daily values. */
  footnotes: z.array(z.string()),
  /** Reference amount of the class, and how it was read. */
  reference: z.strictObject({ g: z.number(), mark: z.string() }).optional(),
  finishedKg: z.number().optional(),
  waterLossKg: z.number().optional(),
  fatLossKg: z.number().optional(),
  notes: z.array(z.string()),
  findings: z.array(findingSchema),
  working: workingSchema,
})

export type NutritionInput = z.infer<typeof nutritionInput>
export type NutritionOutput = z.infer<typeof nutritionOutput>
export type NutritionRow = z.infer<typeof row>
