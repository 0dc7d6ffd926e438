import { z } from 'zod'
import { recipeKinds } from '@forcemeat/craft/recipe/schema'
import { isoDate, list, massKg, money, oneOf, quantity, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

const note = () => text(2000).optional()

/** What a customer has ordered, by finished weight, and when it is to leave. */
export const orderTaken = z.strictObject({
  order: code(),
  customer: text(120),
  on: isoDate(),
  due: isoDate(),
  lines: list(z.strictObject({ recipe: code(), kg: massKg(), note: text(400).optional() }), { min: 1, max: 60 }),
  note: note(),
})

export const orderClosed = z.strictObject({
  order: code(),
  outcome: oneOf(['delivered', 'cancelled']),
  on: isoDate(),
  note: note(),
})

/** What a material costs from a day on, by a price list; a supplier's own where one is named. */
export const priceSet = z.strictObject({
  material: text(60),
  supplier: text(120).optional(),
  costPerKg: money(),
  from: isoDate(),
  /** As it is sold: a pack of so many kg, and what the seller calls it. */
  packKg: massKg().optional(),
  unit: text(40).optional(),
  note: note(),
})

/** What a kilogram of a recipe's product sells at from a day on. */
export const priceSold = z.strictObject({
  recipe: code(),
  pricePerKg: money(),
  from: isoDate(),
  note: note(),
})

/** A thing of the kitchen that a day's work takes room of: a mixer, a smokehouse, hands. Drying rooms have a fact of their own. */
export const planResource = z.strictObject({
  resource: code(),
  name: text(120),
  /** What there is of it on a working day, in its unit. */
  perDay: quantity('units a day', { min: 0, max: 1e6 }),
  /** kg, hours, trolleys… */
  unit: text(20),
  /** What a kilogram of mix takes of it: the line for the recipe, else the one for its kind, else the one for all. */
  takes: list(
    z.strictObject({
      of: oneOf(['all', ...recipeKinds, 'recipe']),
      recipe: code().optional(),
      perKg: quantity("the resource's unit per kg of mix", { min: 0, max: 1e4 }),
      /** Day after the start on which it is first taken, and on how many days. */
      fromDay: quantity('days', { min: 0, max: 365 }).optional(),
      forDays: quantity('days', { min: 1, max: 365 }).optional(),
    }),
    { min: 1, max: 60 },
  ),
  retired: z.boolean().optional(),
  note: note(),
})
