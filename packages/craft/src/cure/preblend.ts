import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { workingSchema } from '../finding.ts'
import { agentCompositionSchema } from '../materials/schema.ts'
import { massKg, quantity } from '../schema.ts'
import { describeAgent, strengthOf } from './agent.ts'
import { nitriteCaution } from './caution.ts'
import { ratioInterval } from './dose-interval.ts'
import { scaleSchema } from './scale-error.ts'
import { bandSchema } from './weighing.ts'
import { step } from './working.ts'

export const preblendInput = z.strictObject({
  /** Meat block of one batch. */
  basisKg: massKg(),
  targetNitritePpm: quantity('mg/kg', { above: 0, max: 1_000_000 }),
  agent: z.strictObject({ composition: agentCompositionSchema }),
  /** All salt the recipe holds for one batch, that of the cure included. */
  totalSaltKg: massKg(),
  /** Batches the blend is to serve. */
  batches: quantity('batches', { min: 1, max: 1000 }),
  /** What cure and salt are weighed on when the blend is made. */
  blendScale: scaleSchema,
  /** What the blend is weighed on for each batch. */
  batchScale: scaleSchema,
  target: bandSchema,
})
export type PreblendInput = z.infer<typeof preblendInput>

export const preblendOutput = z.strictObject({
  agentKg: z.number(),
  saltKg: z.number(),
  blendKg: z.number(),
  /** Blend to weigh for one batch: it carries the batch's whole salt and cure. */
  perBatchKg: z.number(),
  blendNitritePct: z.number(),
  nitritePpm: z.number(),
  lowPpm: z.number(),
  highPpm: z.number(),
  verdict: z.enum(['fit', 'unfit']),
  sheet: z.array(z.strictObject({ line: z.string(), kg: z.number() })),
  advice: z.array(z.string()),
  cautions: z.array(z.string()),
  working: workingSchema,
})
export type Preblend = z.infer<typeof preblendOutput>

const shown = (x: number): string => String(Number(x.toPrecision(4)))

/**
 * Cure diluted in the recipe's own salt, for many batches at once: amounts, the sheet, and the interval of ingoing nitrite. The interval adds
 * the 95 % intervals of the two weighings (the blend's strength and the portion) end to end, so it is a bound that holds at least 90 % and
 * in practice far more; it says nothing of how evenly the blend was mixed.
 * @throws InvalidInput where the agent holds no nitrite, carries more salt than the recipe holds, or `batches` is not whole.
 */
export function preblend(input: PreblendInput): Preblend {
  const s = strengthOf(input.agent.composition)
  if (s.nitrite === 0)
    throw new InvalidInput([
      {
        path: 'agent.composition',
        message: `holds no nitrite (${describeAgent(input.agent.composition)}); allowed: an agent with nitrite`,
      },
    ])
  if (!Number.isInteger(input.batches))
    throw new InvalidInput([
      { path: 'batches', message: `is ${input.batches}; allowed: a whole number of batches, 1 to 1000` },
    ])
  const agentPerBatch = (input.targetNitritePpm * input.basisKg) / 1e6 / s.nitrite
  const saltPerBatch = input.totalSaltKg - agentPerBatch * s.salt
  if (saltPerBatch < 0)
    throw new InvalidInput([
      {
        path: 'totalSaltKg',
        message: `is ${input.totalSaltKg} kg, less than the ${shown(agentPerBatch * s.salt)} kg of salt the agent carries; allowed: at least that`,
      },
    ])
  const agentKg = agentPerBatch * input.batches
  const saltKg = saltPerBatch * input.batches
  const blendKg = agentKg + saltKg
  const perBatchKg = blendKg / input.batches
  const strength = ratioInterval({
    agentG: agentKg * 1000,
    basisG: blendKg * 1000,
    scale: input.blendScale,
    basisScale: input.blendScale,
  })
  const portion = ratioInterval({ agentG: perBatchKg * 1000, basisG: input.basisKg * 1000, scale: input.batchScale })
  const lowPpm = strength.low * portion.low * s.nitrite * 1e6
  const highPpm = strength.high * portion.high * s.nitrite * 1e6
  const fits = lowPpm >= input.target.lowPpm && highPpm <= input.target.highPpm
  return {
    agentKg,
    saltKg,
    blendKg,
    perBatchKg,
    blendNitritePct: ((agentKg * s.nitrite) / blendKg) * 100,
    nitritePpm: input.targetNitritePpm,
    lowPpm,
    highPpm,
    verdict: fits ? 'fit' : 'unfit',
    sheet: [
      { line: `cure (${describeAgent(input.agent.composition)})`, kg: agentKg },
      { line: 'salt, same grain as the cure', kg: saltKg },
    ],
    advice: [
      `The blend holds all the salt of ${input.batches} batches: add no other salt or cure to them.`,
      'Stir the cure with as much salt, then add as much again each time until all is in; then turn the closed drum end over end. Salt and cure of different grain part again in transport.',
      'Mark it with its nitrite content, date and maker; it is a cure itself now, and stays locked with the cures. Mix again before each use.',
      ...(fits
        ? []
        : [
            `With these scales the nitrite lies between ${shown(lowPpm)} and ${shown(highPpm)} mg/kg; wanted: ${input.target.lowPpm} to ${input.target.highPpm}. More batches in one blend, or a finer scale for the portion, narrow it.`,
          ]),
    ],
    cautions: [nitriteCaution],
    working: [
      step(
        'cure for one batch',
        `${input.targetNitritePpm} mg/kg × ${input.basisKg} kg / 1 000 000 / ${shown(s.nitrite)}`,
        agentPerBatch,
        'kg',
      ),
      step('plain salt for one batch', "recipe's salt − salt in the cure", saltPerBatch, 'kg'),
      step('cure in the blend', `× ${input.batches} batches`, agentKg, 'kg'),
      step('salt in the blend', `× ${input.batches} batches`, saltKg, 'kg'),
      step('blend for one batch', 'blend / batches', perBatchKg, 'kg'),
      step('lower end', 'low strength × low portion', lowPpm, 'mg/kg'),
      step('upper end', 'high strength × high portion', highPpm, 'mg/kg'),
    ],
  }
}
