import { z } from 'zod'
import { findingSchema, workingSchema } from '../finding.ts'
import { isoDate, list, oneOf, quantity } from '../schema.ts'
import { labelPlaces } from './allergens.ts'

const packG = () => quantity('g', { above: 0, max: 100_000 })

export const netWeightInput = z
  .strictObject({
    /** Quantity printed on the pack, g. */
    nominalG: packG(),
    /** Weights of the packs of one sample, g: net, or gross with `tareG` or `taresG`. */
    weightsG: list(quantity('g', { min: 0, max: 100_000 }), { min: 2, max: 20_000 }),
    /** Weight of an empty pack, taken off each weight. */
    tareG: quantity('g', { min: 0, max: 100_000 }).optional(),
    /** Weights of the empty packs one by one, in the order of `weightsG`. */
    taresG: list(quantity('g', { min: 0, max: 100_000 }), { min: 2, max: 20_000 }).optional(),
    /** Packs in the batch the sample was drawn from. */
    batchSize: z
      .int({ error: 'is not a whole number of packs; allowed: 1 to 10000000' })
      .min(1, { error: 'is below 1; allowed: 1 to 10000000 packs' })
      .max(10_000_000, { error: 'is too large; allowed: 1 to 10000000 packs' })
      .optional(),
    /** True where packs are opened to be weighed. */
    destructive: z.boolean().optional(),
    /** Largest error of the scale, ± g. */
    scaleErrorG: quantity('g', { min: 0, max: 10_000 }).optional(),
    jurisdictions: list(oneOf(labelPlaces), { min: 1, max: 5 }).optional(),
    on: isoDate().optional(),
  })
  .superRefine((i, ctx) => {
    if (i.tareG !== undefined && i.taresG !== undefined)
      ctx.addIssue({ code: 'custom', path: ['taresG'], message: 'stands beside tareG; allowed: one of the two' })
    if (i.taresG !== undefined && i.taresG.length !== i.weightsG.length)
      ctx.addIssue({
        code: 'custom',
        path: ['taresG'],
        message: `has ${i.taresG.length} items; allowed: as many as weightsG (${i.weightsG.length})`,
      })
    i.weightsG.forEach((w, at) => {
      const tare = i.taresG?.[at] ?? i.tareG ?? 0
      if (w < tare)
        ctx.addIssue({
          code: 'custom',
          path: ['weightsG', at],
          message: `is ${w}, less than its tare ${tare}; allowed: at least the tare`,
        })
    })
    if (i.batchSize !== undefined && i.batchSize < i.weightsG.length)
      ctx.addIssue({
        code: 'custom',
        path: ['batchSize'],
        message: `is ${i.batchSize}, fewer than the ${i.weightsG.length} packs weighed; allowed: at least that`,
      })
  })

const target = z.strictObject({
  fillG: z.number(),
  giveawayG: z.number(),
  giveawayPct: z.number(),
  /** The rule that sets the target. */
  boundBy: z.enum(['average', 'T1', 'T2', 'MAV']),
})

export const netWeightOutput = z.strictObject({
  n: z.int(),
  averageG: z.number(),
  sdG: z.number(),
  /** Limits of the mean of the whole batch, 95 %; the mean itself where every pack was weighed. */
  averageLowG: z.number(),
  averageHighG: z.number(),
  /** Upper limit of the standard deviation, 95 %. */
  sdHighG: z.number(),
  /** Tolerable negative error, g; absent where no table covers the quantity. */
  tneG: z.number().optional(),
  /** A pack under this is short by more than the tolerable error. */
  t1G: z.number().optional(),
  /** A pack under this is short by more than twice that. */
  t2G: z.number().optional(),
  belowT1: z.int().optional(),
  belowT2: z.int().optional(),
  giveawayPct: z.number(),
  /** Packs to be expected under T1 and T2 at the mean and spread found, percent, where packs spread normally. */
  expectedBelowT1Pct: z.number().optional(),
  expectedBelowT2Pct: z.number().optional(),
  /** Maximum allowable variation of the United States, and the least mean fill that keeps it; from memory of the table. */
  mavG: z.number().optional(),
  targetUs: target.optional(),
  /** Least mean fill that keeps the packers' rules with the spread found. */
  target: target.optional(),
  /** The same with the largest spread the sample leaves open. */
  cautiousTarget: target.optional(),
  /** Largest standard deviation at which a mean fill equal to the nominal quantity keeps every rule, g. */
  sdForNominalG: z.number().optional(),
  findings: z.array(findingSchema),
  working: workingSchema,
})

export type NetWeightInput = z.infer<typeof netWeightInput>
export type NetWeightOutput = z.infer<typeof netWeightOutput>
export type TargetFill = z.infer<typeof target>

/** What the rulebook gives the core to work with. */
export type NetWeightRules = {
  readonly fromG: number
  /** By nominal quantity, ascending: percent of it, or grams. */
  readonly tolerable: readonly { readonly upToG: number; readonly pct?: number; readonly g?: number }[]
  /** Largest share of packs under T1, percent. */
  readonly t1SharePct: number
  /** Share of packs under T2 that a target is set to keep, percent: none, in practice. */
  readonly t2SharePct: number
  /** Maximum allowable variations for packs of meat and poultry in the United States, by nominal quantity, ascending. */
  readonly allowable: readonly { readonly upToG: number; readonly pct?: number; readonly g?: number }[]
}

/** What the rulebook is asked about a sample of packs. */
export type NetWeightQuestion = {
  readonly jurisdictions: readonly string[]
  readonly on?: string
  readonly nominalG: number
  readonly n: number
  readonly averageG: number
  readonly averageLowG: number
  readonly averageHighG: number
  readonly sdG: number
  readonly batchSize?: number
  readonly destructive?: boolean
  readonly allWeighed: boolean
  readonly tneG?: number
  /** Maximum allowable variation, and packs short by more than that. */
  readonly mavG?: number
  readonly belowMav?: number
  readonly belowT1?: number
  readonly belowT2?: number
  readonly lightestG: number
  readonly scaleErrorG?: number
  /** Student's t at a probability for this sample, over the root of its size. */
  readonly tOverRootN: (probability: number) => number
}
