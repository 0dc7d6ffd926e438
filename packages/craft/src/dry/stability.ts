import { z } from 'zod'
import { findingSchema, workingSchema, type WorkingStep } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { isoDate, list, oneOf, pct, quantity } from '../schema.ts'

/** Names that published moisture-to-protein limits are for. */
export const namedProducts = ['jerky', 'pepperoni', 'dry-salami', 'genoa', 'summer-sausage'] as const
const places = ['US', 'EU', 'GB', 'CA'] as const

export const stabilityInput = z
  .strictObject({
    /** Measured in the product, the highest of the samples. */
    ph: quantity('pH', { min: 2, max: 9 }).optional(),
    aw: quantity('', { above: 0, max: 1 }).optional(),
    moistureToProtein: quantity('kg water per kg protein', { min: 0, max: 10 }).optional(),
    /** Salt and water by analysis, for limits on water-phase salt. */
    saltPct: pct().optional(),
    waterPct: quantity('% by mass', { above: 0, max: 100 }).optional(),
    shelfLifeDays: quantity('days', { min: 0, max: 3650 }).optional(),
    /** Largest error of the pH meter and of the water activity meter, ±. */
    phTolerance: quantity('pH', { min: 0, max: 1 }).optional(),
    awTolerance: quantity('', { min: 0, max: 0.1 }).optional(),
    /** Whether the pH meter was calibrated on the day of the reading. */
    phMeterCalibrated: z.boolean().optional(),
    /** False for a computed water activity: it can never give a pass. */
    awMeasured: z.boolean().optional(),
    storage: oneOf(['ambient', 'chilled']).optional(),
    named: oneOf(namedProducts).optional(),
    jurisdictions: list(oneOf(places), { min: 1, max: 4 }).optional(),
    on: isoDate().optional(),
  })
  .superRefine((i, ctx) => {
    if (i.saltPct !== undefined && i.waterPct !== undefined && i.saltPct + i.waterPct > 100.01)
      ctx.addIssue({
        code: 'custom',
        path: ['saltPct'],
        message: `and waterPct add up to ${i.saltPct + i.waterPct} %; allowed: at most 100 %`,
      })
  })

export const stabilityOutput = z.strictObject({
  /** By the published combinations of pH and water activity. */
  class: z.enum(['shelf-stable', 'perishable', 'very-perishable', 'cannot-tell']),
  /** What the class's source says of storage. */
  storage: z.string(),
  findings: z.array(findingSchema),
  warnings: z.array(z.string()),
  working: workingSchema,
})
export type StabilityInput = z.infer<typeof stabilityInput>
export type StabilityOutput = z.infer<typeof stabilityOutput>

export const stabilityMeasures = ['ph', 'aw', 'moistureToProtein', 'brinePct', 'shelfLifeDays'] as const
export type StabilityMeasure = (typeof stabilityMeasures)[number]

/** A figure with its error, and what keeps it from deciding. */
export type Stand = {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly unproven?: string
}

/** What the rulebook is asked about a finished product. */
export type StabilityQuestion = {
  readonly measures: { readonly [M in StabilityMeasure]?: Stand }
  readonly storage?: 'ambient' | 'chilled'
  readonly named?: (typeof namedProducts)[number]
  readonly jurisdictions?: readonly string[]
  readonly on?: string
}

/** The rulebook's classes from the most to the least stable, each by the rule that decides it. */
export type StabilityClasses = {
  readonly classes: readonly {
    readonly class: 'shelf-stable' | 'perishable'
    readonly rule: string
    readonly storage: string
  }[]
  readonly otherwise: string
}

/**
 * Shelf stability of a finished product by the published combinations of pH and water activity, with the growth limits of the organisms that
 * matter and the moisture to protein its name asks for.
 *
 * @param input measured pH and water activity with their errors; moisture to protein, salt and water, shelf life where known
 * @returns class, storage the class's source gives, a finding for each published limit
 * @source the rulebook, topic "stability"
 */
export function stability(input: StabilityInput): StabilityOutput {
  const { saltPct, waterPct, storage, named, jurisdictions, on } = input
  const brinePct = saltPct === undefined || waterPct === undefined ? undefined : (100 * saltPct) / (saltPct + waterPct)
  const stand = (value: number | undefined, error = 0, unproven?: string): Stand | undefined =>
    value === undefined
      ? undefined
      : { value, low: value - error, high: value + error, ...(unproven === undefined ? {} : { unproven }) }
  const given = {
    ph: stand(
      input.ph,
      input.phTolerance,
      input.phMeterCalibrated === false ? 'the pH meter was not calibrated that day' : undefined,
    ),
    aw: stand(
      input.aw,
      input.awTolerance,
      input.awMeasured === false ? 'the water activity is computed, not measured' : undefined,
    ),
    moistureToProtein: stand(input.moistureToProtein),
    brinePct: stand(brinePct),
    shelfLifeDays: stand(input.shelfLifeDays),
  }
  const measures = Object.fromEntries(Object.entries(given).filter(([, v]) => v !== undefined))
  const findings = judge('stability', {
    measures,
    ...(storage === undefined ? {} : { storage }),
    ...(named === undefined ? {} : { named }),
    ...(jurisdictions === undefined ? {} : { jurisdictions }),
    ...(on === undefined ? {} : { on }),
  })
  return { ...classOf(findings), findings, warnings: warningsOf(input), working: workingOf(input, brinePct) }
}

function classOf(findings: StabilityOutput['findings']): Pick<StabilityOutput, 'class' | 'storage'> {
  const { classes, otherwise } = figures('stabilityClasses')
  for (const { class: name, rule, storage } of classes) {
    const verdict = findings.find((f) => f.rule === rule)?.verdict
    if (verdict === 'pass') return { class: name, storage }
    if (verdict !== 'fail')
      return { class: 'cannot-tell', storage: 'keep it as the least stable class until it is known' }
  }
  return { class: 'very-perishable', storage: otherwise }
}

function warningsOf({ ph, aw, phTolerance, awTolerance, storage }: StabilityInput): string[] {
  return [
    'the class says nothing of what was in the product before: it does not stand in for the steps that kill',
    ...(ph !== undefined && phTolerance === undefined
      ? ['no error of the pH meter given: the reading is taken as exact']
      : []),
    ...(aw !== undefined && awTolerance === undefined
      ? ['no error of the water activity meter given: the reading is taken as exact']
      : []),
    ...(aw === undefined || ph === undefined
      ? [
          'pH and water activity hold one another up: a class that rests on one of them alone is the weaker, so measure both',
        ]
      : []),
    ...(storage === undefined
      ? ['storage is not said: limits that matter only without refrigeration are shown as advice']
      : []),
  ]
}

function workingOf(input: StabilityInput, brinePct: number | undefined): WorkingStep[] {
  return [
    ...(input.ph === undefined
      ? []
      : [{ step: 'pH', expression: `± ${input.phTolerance ?? 0}`, value: input.ph, unit: '' }]),
    ...(input.aw === undefined
      ? []
      : [{ step: 'water activity', expression: `± ${input.awTolerance ?? 0}`, value: input.aw, unit: '' }]),
    ...(brinePct === undefined
      ? []
      : [
          {
            step: 'water-phase salt',
            expression: `100 × ${input.saltPct} / (${input.saltPct} + ${input.waterPct})`,
            value: brinePct,
            unit: '%',
          },
        ]),
    ...(input.moistureToProtein === undefined
      ? []
      : [{ step: 'moisture to protein', expression: 'as given', value: input.moistureToProtein, unit: 'kg/kg' }]),
  ]
}
