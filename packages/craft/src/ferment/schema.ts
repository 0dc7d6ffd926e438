import { z } from 'zod'
import { findingSchema, workingSchema } from '../finding.ts'
import { hours, isoDate, list, oneOf, quantity, tempC, text } from '../schema.ts'

const ph = () => quantity('pH', { min: 2, max: 9 })

/** Refuses a log that starts without a temperature or whose hours fall. */
function ascending<T extends z.ZodType<{ hour: number; tempC: number | null }[]>>(log: T): T {
  return log.superRefine((rows, ctx) => {
    if (rows[0]?.tempC === null)
      ctx.addIssue({
        code: 'custom',
        path: [0, 'tempC'],
        message: 'is null; allowed: a first reading with a temperature',
      })
    const at = rows.findIndex((r, i) => i > 0 && r.hour < rows[i - 1]!.hour)
    if (at > 0)
      ctx.addIssue({
        code: 'custom',
        path: [at, 'hour'],
        message: `is ${rows[at]!.hour}, before ${rows[at - 1]!.hour} of the reading before it; allowed: hours that never fall`,
      })
  })
}

/** Temperature by the hour with the pH and water activity of the product where they were measured. */
export const chamberLog = () =>
  ascending(
    list(
      z.strictObject({
        hour: hours(),
        tempC: tempC().nullable(),
        ph: ph().optional(),
        aw: quantity('', { above: 0, max: 1 }).optional(),
      }),
      { min: 2, max: 500_000 },
    ),
  )

export const degreeHourSystems = ['CA', 'US'] as const

export const degreeHoursInput = z.strictObject({
  /** Chamber temperature by the hour, with the pH of the product where it was measured. Two readings at one hour are a step. */
  log: ascending(
    list(
      z.strictObject({
        hour: hours(),
        tempC: tempC().nullable(),
        ph: ph().optional(),
        /** The marked piece the pH was read of; one that lags holds the count until it is read again. */
        piece: text(40).optional(),
        /** Step the pH was read at; of a drying, a pH that rises three days later reopens nothing. */
        step: oneOf(['ferment', 'dry', 'pack']).optional(),
        /** Whether the meter of this pH was calibrated that day; not given, as `phMeterCalibrated` says. */
        phCounts: z.boolean().optional(),
      }),
      { min: 2, max: 500_000 },
    ),
  ),
  /** pH that ends the count; 5.3 in both published systems. */
  targetPh: ph().optional(),
  /** The system `degreeHours`, `unit` and `limit` are given in; findings come for both. */
  system: oneOf(degreeHourSystems).optional(),
  /** Largest error of the thermometer, ± °C. */
  toleranceC: quantity('°C', { min: 0, max: 20 }).optional(),
  /** Largest error of the pH meter, ± pH; not given, it counts as none and the findings say so. */
  phTolerance: quantity('pH', { min: 0, max: 1 }).optional(),
  /** Whether the pH meter was calibrated on the day of the readings; false leaves every pH unproven. */
  phMeterCalibrated: z.boolean().optional(),
  on: isoDate().optional(),
})

export const degreeHoursOutput = z.strictObject({
  degreeHours: z.number(),
  unit: z.string(),
  /** Hours from the start to the measured pH at or below the target that no later one reopens, the meter's error included; absent where there is none. */
  hoursToTarget: z.number().optional(),
  highestC: z.number(),
  limit: z.number(),
  /** Hours left at the last temperature before the limit is used up; absent once the target is reached or below the base. */
  hoursLeft: z.number().optional(),
  findings: z.array(findingSchema),
  working: workingSchema,
})

export type DegreeHoursInput = z.infer<typeof degreeHoursInput>
export type DegreeHoursOutput = z.infer<typeof degreeHoursOutput>
