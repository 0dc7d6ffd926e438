import { z } from 'zod'
import { list, quantity } from '@forcemeat/craft/schema'
import { code } from './code.ts'

/** Of a recipe: the least that is packed of what was weighed in, and the lowest and the highest mean weight of its links. */
const ofRecipe = z
  .strictObject({
    recipe: code(),
    yieldMinPct: quantity('%', { min: 0, max: 200 }).optional(),
    linkMinG: quantity('g', { above: 0, max: 20_000 }).optional(),
    linkMaxG: quantity('g', { above: 0, max: 20_000 }).optional(),
  })
  .superRefine(({ yieldMinPct, linkMinG, linkMaxG }, ctx) => {
    if (yieldMinPct === undefined && linkMinG === undefined && linkMaxG === undefined)
      ctx.addIssue({
        code: 'custom',
        message: 'sets no limit; allowed: one of yieldMinPct, linkMinG, linkMaxG or more',
      })
    if (linkMinG !== undefined && linkMaxG !== undefined && linkMinG > linkMaxG)
      ctx.addIssue({
        code: 'custom',
        path: ['linkMaxG'],
        message: `is ${linkMaxG} g, under the lightest of ${linkMinG} g; allowed: ${linkMinG} g or more`,
      })
  })

/** Limits the kitchen sets itself, beside the law: how warm chilled meat may come in, how much rework a batch may take, and how old; and by recipe. */
export const ownLimits = z.strictObject({
  arrivalMaxC: quantity('°C', { min: -30, max: 15 }).optional(),
  reworkMaxPct: quantity('%', { min: 0, max: 100 }).optional(),
  reworkMaxDays: quantity('days', { min: 0, max: 365 }).optional(),
  byRecipe: list(ofRecipe, { max: 500 })
    .superRefine((all, ctx) => {
      const at = all.findIndex((one, i) => all.findIndex((o) => o.recipe === one.recipe) < i)
      if (at > 0)
        ctx.addIssue({
          code: 'custom',
          path: [at, 'recipe'],
          message: `is ${all[at]!.recipe}, which has its limits already; allowed: each recipe once`,
        })
    })
    .optional(),
})
