import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { list, oneOf, pct, quantity } from '../schema.ts'
import { NACL_G_PER_MOL, NACL_SATURATED_MOL_PER_KG, osmoticCoefficient, saltWaterActivity } from './brine.ts'
import { soluteNames, soluteWaterActivity } from './solutes.ts'

export const waterActivityInput = z
  .strictObject({
    waterPct: quantity('% by mass', { above: 0, max: 100 }),
    saltPct: pct(),
    proteinPct: pct().optional(),
    fatPct: pct().optional(),
    /** Sugars and glycerol dissolved in the water. */
    solutes: list(z.strictObject({ name: oneOf(soluteNames as [string, ...string[]]), pct: pct() }), {
      max: 10,
    }).optional(),
    /** A measured water activity: it wins over anything computed. */
    measuredAw: quantity('', { above: 0, max: 1 }).optional(),
  })
  .superRefine((i, ctx) => {
    const sum =
      i.waterPct + i.saltPct + (i.proteinPct ?? 0) + (i.fatPct ?? 0) + (i.solutes ?? []).reduce((s, x) => s + x.pct, 0)
    if (sum > 100.01)
      ctx.addIssue({ code: 'custom', message: `adds up to ${Number(sum.toFixed(3))} %; allowed: at most 100 %` })
  })

export const waterActivityOutput = z.strictObject({
  aw: z.number(),
  /** Water-phase salt: 100 × salt / (salt + water). */
  brinePct: z.number(),
  /** `measured` where a measurement was given. */
  basis: z.enum(['measured', 'computed']),
  computedAw: z.number(),
  warnings: z.array(z.string()),
  working: workingSchema,
})

export type WaterActivityInput = z.infer<typeof waterActivityInput>
export type WaterActivityOutput = z.infer<typeof waterActivityOutput>

/**
 * Water activity of a meat product at 25 °C from its water and what is dissolved in it: salt by the Pitzer equation, sugars and
 * glycerol by Norrish, together by the product rule of Ross. Proteins and their bound water are left out, so a dry product's true
 * value lies lower.
 *
 * @source Pitzer & Mayorga 1973; Norrish 1966; Ross, Food Technol. 29 (1975) 26
 */
export function waterActivity(input: WaterActivityInput): WaterActivityOutput {
  const { waterPct, saltPct, solutes = [], measuredAw } = input
  const molality = (saltPct / NACL_G_PER_MOL / waterPct) * 1000
  const salt = saltWaterActivity(molality)
  const others = solutes.map((s) => ({
    ...s,
    aw: soluteWaterActivity(s.name as (typeof soluteNames)[number], s.pct, waterPct),
  }))
  const computedAw = others.reduce((product, s) => product * s.aw, salt)
  const brinePct = (100 * saltPct) / (saltPct + waterPct)
  const saturated = molality > NACL_SATURATED_MOL_PER_KG
  const counted = Math.min(molality, NACL_SATURATED_MOL_PER_KG)
  return {
    aw: measuredAw ?? computedAw,
    brinePct,
    basis: measuredAw === undefined ? 'computed' : 'measured',
    computedAw,
    warnings: [
      ...(saturated
        ? ['more salt than the water can dissolve: the brine is saturated and the rest lies as crystals']
        : []),
      ...(measuredAw === undefined
        ? ['computed, not measured: a limit is decided by a measurement with a checked meter']
        : []),
      ...(waterPct < 30
        ? ['below 30 % water the proteins hold part of it, and the true value lies lower than computed']
        : []),
    ],
    working: [
      {
        step: 'water-phase salt',
        expression: `100 × ${saltPct} / (${saltPct} + ${waterPct})`,
        value: brinePct,
        unit: '%',
      },
      {
        step: 'salt in the water',
        expression: `${saltPct} / ${NACL_G_PER_MOL} / ${waterPct} × 1000`,
        value: molality,
        unit: 'mol/kg',
      },
      {
        step: 'osmotic coefficient of NaCl',
        expression: 'Pitzer equation at 25 °C',
        value: osmoticCoefficient(counted),
        unit: '',
      },
      { step: 'water activity from salt', expression: 'exp(−2 × 0.018015 × m × φ)', value: salt, unit: '' },
      ...others.map((s) => ({
        step: `water activity from ${s.name}`,
        expression: 'x(water) × exp(K × x(solute)²), Norrish',
        value: s.aw,
        unit: '',
      })),
      { step: 'together', expression: 'product of the parts (Ross)', value: computedAw, unit: '' },
      ...(measuredAw === undefined
        ? []
        : [{ step: 'measured', expression: 'a measurement wins', value: measuredAw, unit: '' }]),
    ],
  }
}
