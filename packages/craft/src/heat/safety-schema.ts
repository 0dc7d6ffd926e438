import { z } from 'zod'
import { findingSchema, workingSchema } from '../finding.ts'
import { minutes, oneOf, pct, ppm, quantity, tempC, text } from '../schema.ts'
import type { Chill, ChillInput } from './chill.ts'
import { deathSets, organisms } from './data/death.ts'
import type { Lethality, LethalityInput } from './lethality.ts'
import { coreLogSchema } from './reading.ts'

const flag = (what: string) => z.boolean({ error: `allowed: true or false, ${what}` })

const measuring = {
  log: coreLogSchema(),
  toleranceC: quantity('K, the thermometer is right within it', { min: 0, max: 10 }).optional(),
  checkOverdue: flag('whether the thermometer is past its check').optional(),
  maxGapMinutes: quantity('minutes between readings that may be joined', { above: 0, max: 1440 }).optional(),
  acceptFalls: flag('whether sudden falls are the core itself').optional(),
}

const rate = z.strictObject({
  referenceC: tempC(),
  dMinutes: quantity('minutes', { above: 0, max: 1e6 }),
  zC: quantity('K', { above: 0, max: 100 }),
  lowestC: tempC().optional(),
  highestC: tempC().optional(),
})

const setsOf = (organism: string) => deathSets.filter((s) => s.organism === organism).map((s) => s.id)

// Optional fields are absent or set, never undefined, in what JSON can carry: the cast says what the parser gives.
export const lethalityInputSchema = z
  .strictObject({
    ...measuring,
    organism: oneOf(organisms),
    basis: text(80).optional(),
    custom: rate.optional(),
    product: z
      .strictObject({
        species: oneOf(['meat', 'chicken', 'turkey', 'other-poultry']).optional(),
        fatPct: pct().optional(),
        target: oneOf(['5-log', '6.5-log', '7-log', 'patties']).optional(),
        fermented: flag('whether it was fermented before the cook').optional(),
      })
      .optional(),
    humidity: z
      .strictObject({
        exempt: oneOf([
          'immersed',
          'impermeable-bag',
          'moisture-holding-casing',
          'large-piece-hot-oven',
          'direct-heat',
          'patty',
        ]).optional(),
        option: z.literal([1, 2, 3, 4], { error: 'allowed: one of 1, 2, 3, 4' }).optional(),
        cookMinutes: minutes().optional(),
        heldMinutes: minutes().optional(),
      })
      .optional(),
  })
  .superRefine(({ organism, basis, custom }, ctx) => {
    const allowed = setsOf(organism)
    if (basis !== undefined && !allowed.includes(basis))
      ctx.addIssue({
        code: 'custom',
        path: ['basis'],
        message: `is ${JSON.stringify(basis)}; allowed for ${organism}: ${allowed.join(', ')}`,
      })
    if (basis !== undefined && custom !== undefined)
      ctx.addIssue({ code: 'custom', path: ['custom'], message: 'is given beside basis; allowed: one of the two' })
  }) as unknown as z.ZodType<LethalityInput>

export const lethalityOutputSchema: z.ZodType<Lethality> = z.strictObject({
  logReduction: z.number(),
  equivalentMinutes: z.number(),
  referenceC: z.number(),
  peakC: z.number(),
  basis: z.string(),
  estimates: z.array(
    z.strictObject({
      basis: z.string(),
      matrix: z.string(),
      logReduction: z.number(),
      equivalentMinutes: z.number(),
      referenceC: z.number(),
    }),
  ),
  findings: z.array(findingSchema),
  caution: z.string(),
  working: workingSchema,
})

export const chillInputSchema = z.strictObject({
  ...measuring,
  chillStartMinute: minutes().optional(),
  product: z.strictObject({
    cured: flag('whether the product is cured'),
    nitritePpm: ppm().optional(),
    erythorbatePpm: ppm().optional(),
    saltPct: pct().optional(),
    waterPct: pct().optional(),
    ph: quantity('pH', { min: 0, max: 14 }).optional(),
    aw: quantity('', { min: 0, max: 1 }).optional(),
    intact: flag('whether the muscle is whole and not tenderised').optional(),
    largeMassNonIntact: flag('whether it is a large-mass non-intact product').optional(),
    retail: flag('whether it is made at retail').optional(),
  }),
}) as unknown as z.ZodType<ChillInput>

export const chillOutputSchema = z.strictObject({
  findings: z.array(findingSchema),
  notApplicable: z.array(z.strictObject({ rule: z.string(), title: z.string(), because: z.string() })),
  stabilization: findingSchema,
  summary: z.strictObject({
    verdict: z.enum(['pass', 'fail', 'cannot-tell']),
    met: z.array(z.string()),
    because: z.string(),
    settle: z.string().optional(),
  }),
  chillStartMinute: z.number(),
  perfringens: z.strictObject({
    logGrowth: z.number(),
    conservative: z.literal(true),
    source: z.string(),
    note: z.string(),
  }),
  caution: z.string(),
  working: workingSchema,
}) as unknown as z.ZodType<Chill>
