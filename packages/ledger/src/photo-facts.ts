import { z } from 'zod'
import { oneOf, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

/** Largest photograph, bytes: a JPEG of some 1600 px on its long side is well below. */
export const largestPhoto = 2_000_000

/** A photograph of something in the record; the file was put there before. */
export const photoAttached = z.strictObject({
  file: z.string().regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: 64 hex digits' }),
  of: oneOf(['batch', 'lot', 'pack', 'instrument', 'deviation']),
  id: code(),
  caption: text(400).optional(),
})
