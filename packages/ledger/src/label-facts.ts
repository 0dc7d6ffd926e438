import { z } from 'zod'
import { labelPack } from '@forcemeat/craft/declare/label/pack'
import { labelPlacesHeld } from '@forcemeat/craft/declare/label/schema'
import { list, oneOf, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

/** A label as a person approved it for a place: what stood on it, by hash, and what the pack was said to be, so that it prints again. */
export const labelApproved = z.strictObject({
  label: code(),
  recipe: code(),
  version: z.int({ error: 'is not a version; allowed: a whole number from 1' }).min(1).max(100_000),
  /** The batch it was drawn from, where it was one. */
  batch: code().optional(),
  place: oneOf(labelPlacesHeld),
  pack: labelPack,
  /** SHA-256 over the fields that do not vary from batch to batch. */
  contentHash: z.string().regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: 64 hex digits' }),
  fields: list(z.strictObject({ field: text(40), text: text(4000), varies: z.boolean().optional() }), {
    min: 1,
    max: 60,
  }),
  /** Allergens it declares. */
  allergens: list(text(40), { max: 15 }),
  /** What could not be told by the program and the approver answers for. */
  settled: list(z.strictObject({ id: text(200), how: text(400) }), { max: 60 }).optional(),
  reasons: list(text(400), { min: 1, max: 20 }),
})
