import { z } from 'zod'
import { allergens } from '@forcemeat/craft/materials/schema'
import { isoDate, isoInstant, list, massKg, oneOf, pct, tempC, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

const note = () => text(2000).optional()

/** Part of a lot taken off as a lot of its own: another place, another freezer, another hand. */
export const lotSplit = z.strictObject({
  from: code(),
  lot: code(),
  kg: massKg(),
  on: isoDate(),
  place: text(80).optional(),
  note: note(),
})

/** What of a batch goes back into the kitchen as a lot: rework. It carries its batch with it in every trace. */
export const lotRework = z.strictObject({
  lot: code(),
  batch: code(),
  /** What it counts as in a recipe. */
  material: text(60),
  kg: massKg(),
  on: isoDate(),
  useBy: isoDate().optional(),
  fatPct: pct().optional(),
  /** Every allergen of the batch it comes from, whatever the material itself has. */
  allergens: list(oneOf(allergens), { max: 15 }).optional(),
  place: text(80).optional(),
  note: note(),
})

/** A whole lot put somewhere else. */
export const lotMove = z.strictObject({
  lot: code(),
  place: text(80),
  on: isoDate(),
  tempC: tempC().optional(),
  note: note(),
})

/** A firm the kitchen buys from or sells to, by the name its lots and shipments carry. */
export const business = z.strictObject({
  business: code(),
  name: text(120),
  address: text(300).optional(),
  contact: text(200).optional(),
  as: list(oneOf(['supplier', 'customer', 'carrier']), { min: 1, max: 3 }),
  /** Number of its approval or registration. */
  approval: text(60).optional(),
})

/** A recall tried out, or done: when it began and ended, and how much was found. */
export const drill = z.strictObject({
  drill: code(),
  subject: oneOf(['lot', 'pack', 'batch']),
  of: code(),
  /** A trial, or a recall in earnest. */
  trial: z.boolean(),
  began: isoInstant(),
  ended: isoInstant(),
  packs: z.int({ error: 'is not a count; allowed: a whole number from 0' }).min(0),
  accounted: z.int({ error: 'is not a count; allowed: a whole number from 0' }).min(0),
  note: note(),
})
