import { z } from 'zod'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { agentCompositionSchema } from '../materials/schema.ts'
import { massKg, massKgOrNone } from '../schema.ts'
import { describeAgent, strengthOf, type Strength } from './agent.ts'
import { step } from './working.ts'

/** Nitrate figures closer than this share of one another are the same but for rounding; where there was none, none may come. */
const SAME_NITRATE_SHARE = 1e-6

export const swapInput = z.strictObject({
  basisKg: massKg(),
  from: z.strictObject({ kg: massKg(), composition: agentCompositionSchema }),
  to: z.strictObject({ composition: agentCompositionSchema }),
  /** All salt the recipe is to hold, that of the cure included. */
  totalSaltKg: massKgOrNone().optional(),
})
export type SwapInput = z.infer<typeof swapInput>

export const swapOutput = z.strictObject({
  possible: z.boolean(),
  because: z.string(),
  /** Null where the swap is not possible: there is no amount to weigh. */
  toKg: z.number().nullable(),
  /** Change of the plain salt to weigh: below zero, that much less. */
  saltAdjustKg: z.number().nullable(),
  nitritePpm: z.number(),
  nitratePpm: z.number(),
  working: workingSchema,
})
export type Swap = z.infer<typeof swapOutput>

const shown = (x: number): string => String(Number(x.toPrecision(4)))

type Need = { readonly toKg: number } | { readonly refused: string }

/** The mass of the new agent that carries the same nitrite (or, for a nitrate-only cure, the same nitrate). */
function equalDose(kg: number, from: Strength, to: Strength): Need {
  if (from.nitrite === 0 && from.nitrate === 0)
    return { refused: 'the agent to be replaced holds neither nitrite nor nitrate: there is no cure to match' }
  if (from.nitrite > 0)
    return to.nitrite > 0 ? { toKg: (kg * from.nitrite) / to.nitrite } : { refused: 'the new agent holds no nitrite' }
  if (to.nitrite > 0)
    return {
      refused:
        'the new agent brings nitrite where the old one had none; nitrate and nitrite are not exchanged for one another',
    }
  return to.nitrate > 0 ? { toKg: (kg * from.nitrate) / to.nitrate } : { refused: 'the new agent holds no nitrate' }
}

/**
 * Replace one curing agent by another at the same ingoing nitrite (as sodium nitrite). Impossible where the new one brings nitrate that
 * was not there, lacks nitrate that was, or carries more salt than the recipe has room for.
 */
export function swap({ basisKg, from, to, totalSaltKg }: SwapInput): Swap {
  const was = strengthOf(from.composition)
  const is = strengthOf(to.composition)
  const ppmOf = (kg: number, part: number): number => (kg * part * 1e6) / basisKg
  const before = { nitrite: ppmOf(from.kg, was.nitrite), nitrate: ppmOf(from.kg, was.nitrate) }
  const working: WorkingStep[] = [
    step(
      `nitrite of the old agent, as NaNO2 (${describeAgent(from.composition)})`,
      `${from.kg} kg × ${shown(was.nitrite)} × 1 000 000 / ${basisKg} kg`,
      before.nitrite,
      'mg/kg',
    ),
    step(
      'nitrate of the old agent, as NaNO3',
      `${from.kg} kg × ${shown(was.nitrate)} × 1 000 000 / ${basisKg} kg`,
      before.nitrate,
      'mg/kg',
    ),
  ]
  const refuse = (because: string): Swap => ({
    possible: false,
    because,
    toKg: null,
    saltAdjustKg: null,
    nitritePpm: before.nitrite,
    nitratePpm: before.nitrate,
    working,
  })
  const need = equalDose(from.kg, was, is)
  if ('refused' in need) return refuse(need.refused)
  const { toKg } = need
  const nitrite = ppmOf(toKg, is.nitrite)
  const nitrate = ppmOf(toKg, is.nitrate)
  const saltKg = toKg * is.salt
  working.push(
    step(
      `new agent for the same dose (${describeAgent(to.composition)})`,
      'old agent × its strength / the new strength',
      toKg,
      'kg',
    ),
    step(
      'nitrate of the new agent, as NaNO3',
      `${shown(toKg)} kg × ${shown(is.nitrate)} × 1 000 000 / ${basisKg} kg`,
      nitrate,
      'mg/kg',
    ),
    step('salt in the old agent', `${from.kg} kg × ${shown(was.salt)}`, from.kg * was.salt, 'kg'),
    step('salt in the new agent', `${shown(toKg)} kg × ${shown(is.salt)}`, saltKg, 'kg'),
  )
  if (nitrate > before.nitrate * (1 + SAME_NITRATE_SHARE))
    return refuse(
      `the new agent would bring ${shown(nitrate)} mg/kg of nitrate where there were ${shown(before.nitrate)}`,
    )
  if (nitrate < before.nitrate * (1 - SAME_NITRATE_SHARE))
    return refuse(
      `the new agent would leave ${shown(nitrate)} mg/kg of nitrate where the recipe had ${shown(before.nitrate)}, which a long cure lives on`,
    )
  if (totalSaltKg !== undefined && saltKg > totalSaltKg * (1 + 1e-9))
    return refuse(
      `the new agent carries ${shown(saltKg)} kg of salt, more than the ${shown(totalSaltKg)} kg the recipe is to hold in all`,
    )
  const saltAdjustKg = from.kg * was.salt - saltKg
  working.push(step('change of the plain salt to weigh', 'salt in the old agent − salt in the new', saltAdjustKg, 'kg'))
  const salt =
    saltAdjustKg === 0
      ? 'the plain salt stays as it is'
      : saltAdjustKg > 0
        ? `weigh ${shown(saltAdjustKg)} kg more plain salt`
        : `weigh ${shown(-saltAdjustKg)} kg less plain salt`
  const room =
    totalSaltKg === undefined && saltAdjustKg < 0
      ? '; whether the recipe has that much plain salt was not checked, totalSaltKg is not given'
      : ''
  const sugar =
    Math.abs(toKg * is.sugar - from.kg * was.sugar) > 1e-9
      ? `; sugar changes by ${shown(toKg * is.sugar - from.kg * was.sugar)} kg`
      : ''
  const dose = [
    ...(nitrite > 0 ? [`${shown(nitrite)} mg/kg of nitrite`] : []),
    ...(nitrate > 0 ? [`${shown(nitrate)} mg/kg of nitrate`] : []),
  ].join(' and ')
  return {
    possible: true,
    because: `the same ${dose} from ${shown(toKg)} kg; ${salt}${room}${sugar}`,
    toKg,
    saltAdjustKg,
    nitritePpm: nitrite,
    nitratePpm: nitrate,
    working,
  }
}
