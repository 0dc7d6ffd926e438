import { z } from 'zod'
import { defineCalculation } from '../calculation.ts'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { pct } from '../schema.ts'
import type { Source } from '../source.ts'

/** Water that a kilogram of meat protein brings with it, kg/kg; the multiplier of 9 CFR 318.22(b). */
const WATER_PER_PROTEIN = 4
/** Points of protein from Group 2 ingredients that still count as meat protein; 9 CFR 318.22(b). */
const GROUP_2_LEFT_IN_PCT = 1

export const addedWaterInput = z
  .strictObject({
    /** Of the finished cooked sausage, by analysis. */
    waterPct: pct(),
    proteinPct: pct(),
    /** Protein in the product that comes from Group 2 ingredients (hydrolysed, extracted, dried or non-meat protein), by formula. */
    group2ProteinPct: pct().optional(),
  })
  .superRefine((p, ctx) => {
    if (p.waterPct + p.proteinPct > 100.01)
      ctx.addIssue({
        code: 'custom',
        message: `adds up to ${p.waterPct + p.proteinPct} %; allowed: water + protein at most 100 %`,
      })
    if ((p.group2ProteinPct ?? 0) > p.proteinPct)
      ctx.addIssue({
        code: 'custom',
        path: ['group2ProteinPct'],
        message: `is ${p.group2ProteinPct}, more than proteinPct ${p.proteinPct}; allowed: at most the protein it is part of`,
      })
  })
export type AddedWaterInput = z.infer<typeof addedWaterInput>

export const addedWaterOutput = z.strictObject({
  addedWaterPct: z.number(),
  meatProteinPct: z.number(),
  working: workingSchema,
})
export type AddedWater = z.infer<typeof addedWaterOutput>

export const addedWaterSource: Source = {
  document: '9 CFR 318.22, Determination of added water in cooked sausages',
  section: '318.22(b)',
  edition: 'eCFR copy read, no earlier than 2018',
  url: 'https://www.ecfr.gov/current/title-9/section-318.22',
  mark: 'seen',
}

/**
 * Added water of a cooked sausage: water − 4 × (protein − max(Group 2 protein − 1, 0)), percent of the finished product. The text leaves the first
 * point of Group 2 protein in; that less than one point leaves all of it in is our reading. Below zero, the product lost more water than it was given.
 */
export function addedWater({ waterPct, proteinPct, group2ProteinPct = 0 }: AddedWaterInput): AddedWater {
  const taken = Math.max(group2ProteinPct - GROUP_2_LEFT_IN_PCT, 0)
  const meatProteinPct = proteinPct - taken
  const addedWaterPct = waterPct - WATER_PER_PROTEIN * meatProteinPct
  const working: WorkingStep[] = [
    { step: 'Group 2 protein taken out', expression: `max(${group2ProteinPct} − 1, 0)`, value: taken, unit: '%' },
    { step: 'protein that counts as meat', expression: `${proteinPct} − ${taken}`, value: meatProteinPct, unit: '%' },
    { step: 'added water', expression: `${waterPct} − 4 × ${meatProteinPct}`, value: addedWaterPct, unit: '%' },
  ]
  return { addedWaterPct, meatProteinPct, working }
}

export const addedWaterCalculation = defineCalculation({
  name: 'recipe.added-water',
  title: 'Added water of a cooked sausage',
  summary:
    'Water beyond four times the meat protein, with protein of Group 2 ingredients beyond one point taken out, as 9 CFR 318.22 reckons it.',
  input: addedWaterInput,
  output: addedWaterOutput,
  sources: [addedWaterSource],
  example: { waterPct: 56, proteinPct: 13, group2ProteinPct: 1.8 },
  compute: addedWater,
})
