import { z } from 'zod'
import { pct } from './schema.ts'

/** Slack on a sum of percents: food tables round each component to a tenth or a hundredth, and means are independent. */
const SUM_SLACK_PCT = 0.01

const parts = ['waterPct', 'proteinPct', 'fatPct', 'carbohydratePct', 'ashPct'] as const

/**
 * Proximate composition, percent by mass of the material as it stands. `saltPct` is part of ash and `collagenPct` part of
 * protein, so neither adds to the sum; the sum of the five parts may not exceed 100.
 */
export const compositionSchema = z
  .strictObject({
    waterPct: pct(),
    proteinPct: pct(),
    fatPct: pct(),
    carbohydratePct: pct().optional(),
    ashPct: pct().optional(),
    saltPct: pct().optional(),
    collagenPct: pct().optional(),
  })
  .superRefine((c, ctx) => {
    const sum = parts.reduce((s, k) => s + (c[k] ?? 0), 0) + Math.max(0, (c.saltPct ?? 0) - (c.ashPct ?? 0))
    if (sum > 100 + SUM_SLACK_PCT)
      ctx.addIssue({
        code: 'custom',
        message: `adds up to ${Number(sum.toFixed(3))} %; allowed: water + protein + fat + carbohydrate + ash (salt counts as ash) at most 100 %`,
      })
    if ((c.collagenPct ?? 0) > c.proteinPct + SUM_SLACK_PCT)
      ctx.addIssue({
        code: 'custom',
        path: ['collagenPct'],
        message: `is ${c.collagenPct}, more than proteinPct ${c.proteinPct}; allowed: at most the protein it is part of`,
      })
  })
export type Composition = z.infer<typeof compositionSchema>
