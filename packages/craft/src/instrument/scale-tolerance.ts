import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { oneOf, quantity } from '../schema.ts'
import {
  IN_SERVICE,
  initialVerification,
  maintenanceClassIII,
  scaleClasses,
  type ScaleClass,
  type ToleranceStep,
} from './data/scale-classes.ts'

/** Float noise of load over division: 3 kg on 0.001 kg must be 3000 intervals, not a hair more. */
const HAIR = 1e-9

const largest = (scaleClass: ScaleClass): number => initialVerification[scaleClass].at(-1)!.upTo

export const scaleToleranceInput = z
  .strictObject({
    class: oneOf(scaleClasses),
    /** Verification scale interval e, marked on the scale's plate. */
    divisionG: quantity('g', { above: 0, max: 1_000_000 }),
    loadG: quantity('g', { min: 0, max: 1e9 }),
  })
  .superRefine((input, ctx) => {
    const n = input.loadG / input.divisionG
    const most = largest(input.class)
    if (n > most * (1 + HAIR))
      ctx.addIssue({
        code: 'custom',
        path: ['loadG'],
        message: `is ${Number(n.toPrecision(6))} scale intervals; allowed: at most ${most} intervals (${most * input.divisionG} g) on a scale of class ${input.class}`,
      })
  })
export type ScaleToleranceInput = z.infer<typeof scaleToleranceInput>

export const scaleToleranceOutput = z.strictObject({
  /** Largest error either way at first verification. */
  toleranceG: z.number(),
  /** Largest error either way of a scale in use. */
  inServiceG: z.number(),
  intervals: z.number(),
  /** Class III maintenance tolerance of the United States' handbook, from memory: for comparison, not to judge by. */
  usMaintenanceG: z.number().optional(),
  working: workingSchema,
})
export type ScaleToleranceOutput = z.infer<typeof scaleToleranceOutput>

const errorsAt = (steps: readonly ToleranceStep[], n: number): number =>
  steps.find((s) => n <= s.upTo * (1 + HAIR))?.errors ?? steps.at(-1)!.errors

/**
 * Maximum permissible error of a scale at a load, g either way, by accuracy class and load in scale intervals.
 * A load on the edge of two steps takes the smaller error, as the table's "≤" says.
 * @source OIML R 76-1:2006, Table 6
 */
export function scaleTolerance(input: ScaleToleranceInput): ScaleToleranceOutput {
  const n = input.loadG / input.divisionG
  const errors = errorsAt(initialVerification[input.class], n)
  const toleranceG = errors * input.divisionG
  return {
    toleranceG,
    inServiceG: IN_SERVICE * toleranceG,
    intervals: n,
    ...(input.class === 'III' && { usMaintenanceG: errorsAt(maintenanceClassIII, n) * input.divisionG }),
    working: [
      { step: 'load in scale intervals', expression: `${input.loadG} g / ${input.divisionG} g`, value: n, unit: 'e' },
      { step: 'error allowed', expression: `class ${input.class}, Table 6`, value: errors, unit: 'e' },
      { step: 'tolerance', expression: `${errors} e × ${input.divisionG} g`, value: toleranceG, unit: 'g' },
      {
        step: 'tolerance in service',
        expression: `${IN_SERVICE} × ${toleranceG} g`,
        value: IN_SERVICE * toleranceG,
        unit: 'g',
      },
    ],
  }
}
