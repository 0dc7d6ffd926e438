import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { workingSchema } from '../finding.ts'
import { agentCompositionSchema } from '../materials/schema.ts'
import { massKg, ppm } from '../schema.ts'
import { describeAgent, strengthOf } from './agent.ts'
import { nitriteCaution } from './caution.ts'
import { entering, pickleFaults, pickleSchema, routeSchema } from './entering.ts'
import { step } from './working.ts'

export const amountInput = z
  .strictObject({
    route: routeSchema,
    basisKg: massKg(),
    /** As sodium nitrite, mg per kg of the green weight. */
    targetNitritePpm: ppm(),
    agent: z.strictObject({ composition: agentCompositionSchema }),
    pickle: pickleSchema.optional(),
  })
  .superRefine((input, ctx) => {
    for (const [field, message] of pickleFaults(input))
      ctx.addIssue({ code: 'custom', path: field.split('.'), message })
  })
export type AmountInput = z.infer<typeof amountInput>

export const amountOutput = z.strictObject({
  /** Of the whole batch, or of the whole pickle. */
  agentKg: z.number(),
  /** Salt that agent carries, to be taken out of the recipe's salt. */
  saltKg: z.number(),
  nitratePpm: z.number(),
  cautions: z.array(z.string()),
  working: workingSchema,
})
export type Amount = z.infer<typeof amountOutput>

/**
 * How much of an agent gives a target of ingoing nitrite, the inverse of `ingoing`. With a pickle, the amount the whole pickle is
 * to hold. @throws InvalidInput where the agent holds no nitrite, the route and the pickle do not fit, or the pickle cannot hold that much.
 */
export function amount(input: AmountInput): Amount {
  const faults = pickleFaults(input).map(([path, message]) => ({ path, message }))
  if (faults.length > 0) throw new InvalidInput(faults)
  const s = strengthOf(input.agent.composition)
  if (s.nitrite === 0)
    throw new InvalidInput([
      {
        path: 'agent.composition',
        message: `holds no nitrite (${describeAgent(input.agent.composition)}); allowed: an agent with sodiumNitritePct or potassiumNitritePct above 0`,
      },
    ])
  const { fraction, perKg, convention } = entering(input.route, input.basisKg, input.pickle)
  const nitriteKg = (input.targetNitritePpm * perKg) / 1e6
  const agentKg = nitriteKg / (s.nitrite * fraction)
  if (input.pickle && agentKg > input.pickle.totalKg)
    throw new InvalidInput([
      {
        path: 'pickle.totalKg',
        message: `is ${input.pickle.totalKg} kg, less than the ${Number(agentKg.toPrecision(4))} kg of agent the target asks for; allowed: a pickle heavy enough to hold it, a lower target or a stronger agent`,
      },
    ])
  const nitratePpm = (agentKg * fraction * s.nitrate * 1e6) / perKg
  return {
    agentKg,
    saltKg: agentKg * s.salt,
    nitratePpm,
    cautions: agentKg > 0 ? [nitriteCaution] : [],
    working: [
      step('nitrite to enter, as NaNO2', `${input.targetNitritePpm} mg/kg × ${perKg} kg / 1 000 000`, nitriteKg, 'kg'),
      step(
        `share of the agent that enters (${convention})`,
        fraction === 1 ? 'all of it' : 'green weight × % / pickle',
        fraction,
        'kg/kg',
      ),
      step(
        `nitrite in the agent, as NaNO2 (${describeAgent(input.agent.composition)})`,
        'sodium form as it is, potassium form × 68.995 / 85.103',
        s.nitrite,
        'kg/kg',
      ),
      step('agent to weigh', 'nitrite / (share that enters × nitrite in the agent)', agentKg, 'kg'),
      step('salt it carries', `agent × ${Number((s.salt * 100).toPrecision(6))} %`, agentKg * s.salt, 'kg'),
      step('nitrate it brings, as NaNO3', 'agent entering × nitrate in the agent / basis', nitratePpm, 'mg/kg'),
    ],
  }
}
