import { z } from 'zod'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { oneOf, pct, quantity } from '../schema.ts'
import { nitrogenFactors, ruskNitrogenPerCarbohydrate } from './data/nitrogen-factors.ts'

const kinds = Object.keys(nitrogenFactors) as [keyof typeof nitrogenFactors, ...(keyof typeof nitrogenFactors)[]]

export const meatAnalysisInput = z
  .strictObject({
    /** Total nitrogen by analysis. */
    nitrogenPct: quantity('% by mass', { min: 0, max: 20 }),
    fatPct: pct(),
    /** Meat the factor is taken for. */
    meat: oneOf(kinds).optional(),
    /** Percent nitrogen of the fat-free meat, in place of a published factor. */
    nitrogenFactor: quantity('% nitrogen of fat-free meat', { min: 2.5, max: 5 }).optional(),
    /** Nitrogen that is not of meat: milk, soya, rusk. */
    extraneousNitrogenPct: quantity('% by mass', { min: 0, max: 20 }).optional(),
    /** Carbohydrate of rusk or flour, from which that nitrogen is estimated where it is not given. */
    carbohydratePct: pct().optional(),
  })
  .superRefine((i, ctx) => {
    const issue = (path: string, message: string) => ctx.addIssue({ code: 'custom', path: [path], message })
    if ((i.meat === undefined) === (i.nitrogenFactor === undefined))
      issue('meat', 'and nitrogenFactor are both given or both missing; allowed: one of the two')
    if (i.extraneousNitrogenPct !== undefined && i.carbohydratePct !== undefined)
      issue('carbohydratePct', 'stands beside extraneousNitrogenPct; allowed: one of the two')
    if ((i.extraneousNitrogenPct ?? 0) > i.nitrogenPct)
      issue('extraneousNitrogenPct', `is more than nitrogenPct ${i.nitrogenPct}; allowed: at most that`)
  })

export const meatAnalysisOutput = z.strictObject({
  fatFreeMeatPct: z.number(),
  /** Fat-free meat and fat: the meat the product appears to hold. Over 100 it lost water. */
  apparentMeatPct: z.number(),
  nitrogenFactor: z.number(),
  notes: z.array(z.string()),
  working: workingSchema,
})
export type MeatAnalysisInput = z.infer<typeof meatAnalysisInput>
export type MeatAnalysisOutput = z.infer<typeof meatAnalysisOutput>

/**
 * Apparent meat content from an analysis of nitrogen and fat (Stubbs and More): fat-free meat = 100 × nitrogen of meat / factor, and the fat.
 *
 * @source Analytical Methods Committee, Analyst 1991, 116, 761 and 1993, 118, 1217; AMC Technical Brief 63 (2014), doi 10.1039/c4ay90043j
 */
export function meatAnalysis(input: MeatAnalysisInput): MeatAnalysisOutput {
  const { nitrogenPct, fatPct, carbohydratePct } = input
  const nitrogenFactor = input.nitrogenFactor ?? nitrogenFactors[input.meat!].factor
  const estimated = input.extraneousNitrogenPct === undefined && (carbohydratePct ?? 0) > 0
  const foreign = input.extraneousNitrogenPct ?? ruskNitrogenPerCarbohydrate * (carbohydratePct ?? 0)
  const ofMeat = Math.max(0, nitrogenPct - foreign)
  const fatFreeMeatPct = (100 * ofMeat) / nitrogenFactor
  const step = (name: string, expression: string, value: number): WorkingStep => ({
    step: name,
    expression,
    value,
    unit: '%',
  })
  return {
    fatFreeMeatPct,
    apparentMeatPct: fatFreeMeatPct + fatPct,
    nitrogenFactor,
    notes: [
      ...(estimated
        ? [
            `nitrogen of rusk taken as ${ruskNitrogenPerCarbohydrate} × carbohydrate: from memory of the trade's correction, not read in a source`,
          ]
        : []),
      ...(input.meat === undefined ? [] : [`factor: ${nitrogenFactors[input.meat].source.document}`]),
    ],
    working: [
      step('nitrogen not of meat', estimated ? `${ruskNitrogenPerCarbohydrate} × carbohydrate` : 'as given', foreign),
      step('nitrogen of meat', `${nitrogenPct} − ${Number(foreign.toFixed(6))}`, ofMeat),
      step('fat-free meat', `100 × nitrogen of meat / ${nitrogenFactor}`, fatFreeMeatPct),
      step('apparent meat', 'fat-free meat + fat', fatFreeMeatPct + fatPct),
    ],
  }
}
