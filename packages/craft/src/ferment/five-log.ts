import { z } from 'zod'
import { findingSchema, overall, workingSchema } from '../finding.ts'
import { judge } from '../rules.ts'
import { hours, list, quantity, tempC } from '../schema.ts'

export const fiveLogInput = z.strictObject({
  /** Lowest chamber temperature held through the fermentation. */
  chamberC: tempC(),
  /** Measured at the end of the fermentation. */
  endPh: quantity('pH', { min: 3.5, max: 7 }),
  /** Diameter as stuffed. */
  casingMm: quantity('mm', { min: 10, max: 200 }),
  /** What followed, in order: temperature held and for how long; `core` where it was measured inside. */
  heat: list(z.strictObject({ tempC: tempC(), hours: hours(), core: z.boolean().optional() }), { max: 20 }).optional(),
  phTolerance: quantity('pH', { min: 0, max: 1 }).optional(),
  /** Largest error of the thermometer, ± °C. */
  toleranceC: quantity('°C', { min: 0, max: 20 }).optional(),
  phMeterCalibrated: z.boolean().optional(),
})

export const fiveLogOutput = z.strictObject({
  /** True where one published combination was followed throughout; absent otherwise, since not following one proves nothing. */
  followed: z.boolean().optional(),
  findings: z.array(findingSchema),
  warnings: z.array(z.string()),
  working: workingSchema,
})
export type FiveLogInput = z.infer<typeof fiveLogInput>
export type FiveLogOutput = z.infer<typeof fiveLogOutput>

/** What the rulebook is asked: a fermentation and what followed it. */
export type FiveLogQuestion = {
  readonly chamberC: number
  readonly endPh: number
  readonly casingMm: number
  readonly heat: readonly { readonly tempC: number; readonly hours: number; readonly core?: boolean | undefined }[]
  readonly phTolerance: number
  readonly toleranceC: number
  readonly phCounts: boolean
}

/**
 * Whether a fermentation and the heat after it follow one of the published combinations shown to take five tenfolds of E. coli O157:H7 from a
 * sausage. Each holds for its own product and size.
 *
 * @source the rulebook, topic "fermentation": CFIA Annex K, option 2, and the studies named with each row
 */
export function fiveLog(input: FiveLogInput): FiveLogOutput {
  const { heat = [], phTolerance = 0, toleranceC = 0, phMeterCalibrated, ...rest } = input
  const findings = judge('fiveLog', { ...rest, heat, phTolerance, toleranceC, phCounts: phMeterCalibrated !== false })
  const followed = overall(findings.map((f) => ({ verdict: f.verdict, anyOf: 'any' }))) === 'pass'
  return {
    ...(followed ? { followed } : {}),
    findings,
    warnings: [
      'a combination holds for the product, casing and culture of its study: another product needs its own',
      'E. coli only: Listeria, and Salmonella where the study did not look for it, are not covered',
      ...(input.phTolerance === undefined ? ['the error of the pH meter is not given and counts as none'] : []),
      ...(followed
        ? []
        : [
            'no published combination was followed throughout: a study of this process, or tests of finished lots, would settle it',
          ]),
    ],
    working: [
      { step: 'chamber', expression: 'lowest through the fermentation', value: input.chamberC, unit: '°C' },
      { step: 'pH at the end', expression: `± ${phTolerance}`, value: input.endPh, unit: '' },
      { step: 'diameter as stuffed', expression: 'as given', value: input.casingMm, unit: 'mm' },
      ...heat.map((h) => ({
        step: `held at ${h.tempC} °C${h.core ? ' inside' : ''}`,
        expression: 'as given',
        value: h.hours,
        unit: 'h',
      })),
    ],
  }
}
