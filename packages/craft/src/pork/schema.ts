import { z } from 'zod'
import { findingSchema, workingSchema } from '../finding.ts'
import { hours, isoDate, lengthMm, list, oneOf, quantity, tempC } from '../schema.ts'

/** Meats that may carry Trichinella. Kinds found in game survive freezing. */
export const porkSpecies = ['pork', 'wild-boar', 'bear', 'horse'] as const

export const centreLogSchema = list(z.strictObject({ hour: hours(), centreC: tempC().nullable() }), {
  min: 2,
  max: 500_000,
}).superRefine((log, ctx) => {
  const at = log.findIndex((r, i) => i > 0 && r.hour <= log[i - 1]!.hour)
  if (at > 0)
    ctx.addIssue({
      code: 'custom',
      path: [at, 'hour'],
      message: `is ${log[at]!.hour}, not after ${log[at - 1]!.hour} of the reading before it; allowed: hours strictly ascending`,
    })
})

export const freezingInput = z.strictObject({
  /** Smallest dimension of the piece or of the layer of meat in its container, mm. */
  thicknessMm: lengthMm(),
  /** Temperature the freezer room was held at or below, °C. */
  storageC: tempC().optional(),
  /** Days held at `storageC`, counted from when the room reached it. */
  days: quantity('days', { min: 0, max: 3660 }).optional(),
  /** Temperature at the centre of the thickest piece. */
  log: centreLogSchema.optional(),
  species: oneOf(porkSpecies).optional(),
  /** Largest error of the thermometer, ± °C. */
  toleranceC: quantity('°C', { min: 0, max: 20 }).optional(),
  jurisdictions: list(oneOf(['US', 'EU']), { min: 1, max: 2 }).optional(),
  on: isoDate().optional(),
})

export const freezingOutput = z.strictObject({
  /** Days the room schedule asks for at this thickness and storage temperature; absent where no row covers them. */
  requiredDays: z.number().optional(),
  /** Whether one of the schedules asked about is met; absent where it cannot be told. */
  achieved: z.boolean().optional(),
  /** Longest unbroken time at or below each centre temperature the schedules name, hours. */
  stretches: z.array(z.strictObject({ atOrBelowC: z.number(), hours: z.number() })),
  findings: z.array(findingSchema),
  working: workingSchema,
})

export type FreezingInput = z.infer<typeof freezingInput>
export type FreezingOutput = z.infer<typeof freezingOutput>
