import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { quantity } from '../schema.ts'
import type { Source } from '../source.ts'

const share = () => quantity('% of the batter', { min: 0, max: 10 })

export const acidInput = z.strictObject({
  /** pH of the batter as stuffed. */
  startPh: quantity('pH', { min: 4, max: 7.5 }),
  dextrosePct: share().optional(),
  sucrosePct: share().optional(),
  /** As anhydrous lactose; slow, and not every culture takes it. */
  lactosePct: share().optional(),
  /** Glucono-delta-lactone. */
  gdlPct: quantity('% of the batter', { min: 0, max: 3 }).optional(),
  /** Lean meat in the batter. */
  leanPct: quantity('% of the batter', { min: 10, max: 100 }),
  /** Whether a starter culture is added; true unless said. */
  culture: z.boolean().optional(),
  /** pH the batter has to fall to; 5.3 unless said. */
  targetPh: quantity('pH', { min: 4, max: 6 }).optional(),
})

export const acidOutput = z.strictObject({
  endPh: z.strictObject({ low: z.number(), likely: z.number(), high: z.number() }),
  targetPh: z.number(),
  /** Whether the whole band, none of it, or part of it lies at or below the target. */
  reaches: z.enum(['yes', 'no', 'not-sure']),
  evidence: z.array(
    z.strictObject({
      says: z.string(),
      source: z.string(),
      mark: z.enum(['seen', 'quoted', 'computed', 'common-practice', 'from-memory']),
    }),
  ),
  warnings: z.array(z.string()),
  working: workingSchema,
})
export type AcidInput = z.infer<typeof acidInput>
export type AcidOutput = z.infer<typeof acidOutput>

export const acidSources: readonly Source[] = [
  {
    document: 'Toldrá, Dry-Cured Meat Products',
    section: 'p. 93, sugar and pH',
    edition: '2002, as quoted',
    mark: 'quoted',
  },
  {
    document: 'Puolanne & Kivikari, Determination of the buffering capacity of postrigor meat, Meat Sci. 56:7',
    section: 'buffering of lean between pH 5 and 6',
    edition: '2000',
    mark: 'from-memory',
  },
  {
    document: 'Stoichiometry of lactic and gluconic acid',
    section: '2 mol lactic acid a mol hexose',
    edition: 'none',
    mark: 'computed',
  },
]
