import { z } from 'zod'
import { list, oneOf, pct, text } from '../schema.ts'

/** What a curing agent or seasoning carries that a rule may limit, percent by mass of the agent as weighed. */
export const agentCompositionSchema = z
  .strictObject({
    sodiumNitritePct: pct().optional(),
    potassiumNitritePct: pct().optional(),
    sodiumNitratePct: pct().optional(),
    potassiumNitratePct: pct().optional(),
    saltPct: pct().optional(),
    sugarPct: pct().optional(),
    sodiumErythorbatePct: pct().optional(),
    sodiumAscorbatePct: pct().optional(),
    ascorbicAcidPct: pct().optional(),
    erythorbicAcidPct: pct().optional(),
  })
  .superRefine((agent, ctx) => {
    const sum = Object.values(agent).reduce<number>((s, v) => s + (v ?? 0), 0)
    if (sum > 100.01)
      ctx.addIssue({ code: 'custom', message: `adds up to ${Number(sum.toFixed(3))} %; allowed: at most 100 %` })
  })
export type AgentComposition = z.infer<typeof agentCompositionSchema>

export const allergens = [
  'wheat',
  'gluten-cereal',
  'crustacean',
  'egg',
  'fish',
  'peanut',
  'soy',
  'milk',
  'tree-nut',
  'celery',
  'mustard',
  'sesame',
  'sulphite',
  'lupin',
  'mollusc',
] as const

export const materialCategories = [
  'pork',
  'beef',
  'veal',
  'lamb',
  'goat',
  'chicken',
  'turkey',
  'duck',
  'game',
  'offal',
  'blood',
  'fat',
  'rind',
  'cure',
  'salt',
  'water',
  'sugar',
  'spice',
  'herb',
  'vegetable',
  'fruit',
  'cereal',
  'starch',
  'protein',
  'dairy',
  'egg',
  'acid',
  'phosphate',
  'culture',
  'smoke',
  'alcohol',
  'nut',
  'other',
] as const

/** A raw material as the kitchen's table holds it. A component that no source gives is absent, never zero. */
export const materialSchema = z.strictObject({
  id: text(60),
  name: text(120),
  category: oneOf(materialCategories),
  /** Animal the material is of, where it is of one. Counts towards species limits and the meat block. */
  species: oneOf([
    'pork',
    'beef',
    'veal',
    'lamb',
    'goat',
    'chicken',
    'turkey',
    'duck',
    'venison',
    'wild-boar',
    'rabbit',
    'other',
  ]).optional(),
  /** True where the material is meat, fat or by-product of the animal and so of the meat block (the basis of ingoing cure). */
  meatBlock: z.boolean(),
  composition: z.strictObject({
    waterPct: pct().optional(),
    proteinPct: pct().optional(),
    fatPct: pct().optional(),
    carbohydratePct: pct().optional(),
    sugarsPct: pct().optional(),
    fibrePct: pct().optional(),
    saturatedPct: pct().optional(),
    ashPct: pct().optional(),
    saltPct: pct().optional(),
    sodiumPct: pct().optional(),
    collagenPct: pct().optional(),
    alcoholPct: pct().optional(),
  }),
  /** Standard deviation of fat between lots or animals, points of percent. */
  fatSdPct: pct().optional(),
  /** Present where the material is weighed as a cure or carries an accelerator. */
  agent: agentCompositionSchema.optional(),
  allergens: list(oneOf(allergens), { max: 15 }),
  /** Source ids, each found by `findSource` with how it was read. */
  sources: list(text(80), { max: 10 }),
  /** How sure the composition is as a whole: of samples, computed from them, by what the material is, practice, or none found. */
  sure: oneOf(['measured', 'computed', 'declared', 'common-practice', 'none']).optional(),
  note: text(400).optional(),
})
export type Material = z.infer<typeof materialSchema>
