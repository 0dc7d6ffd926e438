import { z } from 'zod'
import { isoDate, list, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

/** A hazard plan as a qualified person completed and signed it: the whole plan is a file of the record, by its hash. */
export const hazardSigned = z.strictObject({
  recipe: code(),
  version: z.int({ error: 'is not a version; allowed: a whole number from 1' }).min(1).max(100_000),
  /** SHA-256 of the plan as it stood, in canonical JSON, with what was completed. */
  file: z.string().regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: 64 hex digits' }),
  /** Who signs, by name, and what makes them qualified: training, its date, who gave it. */
  name: text(120),
  qualification: text(400),
  on: isoDate(),
  /** What the draft left open, and what was said of each. */
  completed: list(z.strictObject({ item: text(400), said: text(2000) }), { max: 60 }),
})
