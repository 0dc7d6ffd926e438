import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { agentCompositionSchema } from '../materials/schema.ts'
import { list, massKg, massKgOrNone, text } from '../schema.ts'
import { describeAgent, strengthOf } from './agent.ts'
import { acceleratorCaution, nitriteCaution } from './caution.ts'
import { entering, pickleFaults, pickleSchema, routeSchema } from './entering.ts'
import { asNitrateIon, asNitriteIon, moleForMole } from './molar.ts'
import { step } from './working.ts'

export const ingoingInput = z
  .strictObject({
    route: routeSchema,
    /** Green weight of the meat block. */
    basisKg: massKg(),
    agents: list(
      z.strictObject({ name: text(120).optional(), kg: massKgOrNone(), composition: agentCompositionSchema }),
      { min: 1, max: 50 },
    ),
    pickle: pickleSchema.optional(),
  })
  .superRefine((input, ctx) => {
    for (const [field, message] of pickleFaults(input))
      ctx.addIssue({ code: 'custom', path: field.split('.'), message })
    const held = input.agents.reduce((sum, a) => sum + a.kg, 0)
    if (input.pickle && held > input.pickle.totalKg * (1 + 1e-9))
      ctx.addIssue({
        code: 'custom',
        path: ['pickle', 'totalKg'],
        message: `is ${input.pickle.totalKg} kg, less than the ${Number(held.toPrecision(6))} kg of agents in it; allowed: the weight of the whole pickle, agents included`,
      })
  })
export type IngoingInput = z.infer<typeof ingoingInput>

export const ingoingOutput = z.strictObject({
  nitritePpm: z.number(),
  nitratePpm: z.number(),
  nitriteIonPpm: z.number(),
  nitrateIonPpm: z.number(),
  erythorbatePpm: z.number(),
  ascorbatePpm: z.number(),
  saltPct: z.number(),
  sugarPct: z.number(),
  /** Nitrite as sodium nitrite if every nitrate were reduced to nitrite, mole for mole: an upper bound, not a forecast. */
  nitriteWithAllNitrateReducedPpm: z.number(),
  /** Nitrite and nitrate salts as weighed, sodium and potassium alike: what a weight limit on the salt counts. */
  nitriteSaltsPpm: z.number(),
  nitrateSaltsPpm: z.number(),
  /** Accelerators as they were added, each against its own limit: salts and acids have different ones. */
  acceleratorSaltsPpm: z.number(),
  acceleratorAcidsPpm: z.number(),
  cautions: z.array(z.string()),
  working: workingSchema,
})
export type Ingoing = z.infer<typeof ingoingOutput>

const pct = (x: number | undefined): number => (x ?? 0) / 100

/**
 * Ingoing nitrite, nitrate, accelerators and salt of a batch, mg per kg of `basisKg` (the green weight of the meat block; with an
 * equilibrium pickle, of meat and pickle together). Nitrite is expressed as sodium nitrite, nitrate as sodium nitrate,
 * potassium forms mole for mole. Agents add up. @throws InvalidInput where the route and the pickle do not fit.
 */
export function ingoing(input: IngoingInput): Ingoing {
  const faults = pickleFaults(input).map(([path, message]) => ({ path, message }))
  if (faults.length > 0) throw new InvalidInput(faults)
  const { fraction, perKg, convention } = entering(input.route, input.basisKg, input.pickle)
  const working: WorkingStep[] = [
    step(`share of the agents that enters (${convention})`, fractionText(input), fraction, 'kg/kg'),
    step('divided by', perKg === input.basisKg ? 'green weight' : 'green weight + pickle', perKg, 'kg'),
  ]
  const sum = {
    nitrite: 0,
    nitrate: 0,
    erythorbate: 0,
    ascorbate: 0,
    salt: 0,
    sugar: 0,
    salts: 0,
    acids: 0,
    nitrites: 0,
    nitrates: 0,
  }
  for (const [i, agent] of input.agents.entries()) {
    const s = strengthOf(agent.composition)
    const name = agent.name ?? `agent ${i + 1}`
    working.push(
      step(
        `${name} entering (${describeAgent(agent.composition)})`,
        `${short(agent.kg)} kg × ${short(fraction)}`,
        agent.kg * fraction,
        'kg',
      ),
    )
    if (s.nitrite > 0)
      working.push(
        step(
          `${name}: nitrite as NaNO2`,
          `${short(agent.kg * fraction)} kg × ${short(s.nitrite)}`,
          agent.kg * fraction * s.nitrite * 1e6,
          'mg',
        ),
      )
    if (s.nitrate > 0)
      working.push(
        step(
          `${name}: nitrate as NaNO3`,
          `${short(agent.kg * fraction)} kg × ${short(s.nitrate)}`,
          agent.kg * fraction * s.nitrate * 1e6,
          'mg',
        ),
      )
    for (const key of ['nitrite', 'nitrate', 'erythorbate', 'ascorbate', 'salt', 'sugar'] as const)
      sum[key] += agent.kg * s[key]
    const c = agent.composition
    sum.nitrites += agent.kg * (pct(c.sodiumNitritePct) + pct(c.potassiumNitritePct))
    sum.nitrates += agent.kg * (pct(c.sodiumNitratePct) + pct(c.potassiumNitratePct))
    sum.salts += agent.kg * (pct(c.sodiumErythorbatePct) + pct(c.sodiumAscorbatePct))
    sum.acids += agent.kg * (pct(c.erythorbicAcidPct) + pct(c.ascorbicAcidPct))
  }
  const perMillion = (kg: number): number => (kg * fraction * 1e6) / perKg
  const nitritePpm = perMillion(sum.nitrite)
  const nitratePpm = perMillion(sum.nitrate)
  const nitriteIonPpm = asNitriteIon(nitritePpm)
  const nitrateIonPpm = asNitrateIon(nitratePpm)
  working.push(
    step('ingoing nitrite, as NaNO2', `sum of nitrite / ${short(perKg)} kg`, nitritePpm, 'mg/kg'),
    step('as nitrite ion', `${short(nitritePpm)} × 46.005 / 68.995`, nitriteIonPpm, 'mg/kg'),
    step('ingoing nitrate, as NaNO3', `sum of nitrate / ${short(perKg)} kg`, nitratePpm, 'mg/kg'),
    step('as nitrate ion', `${short(nitratePpm)} × 62.004 / 84.994`, nitrateIonPpm, 'mg/kg'),
  )
  const erythorbatePpm = perMillion(sum.erythorbate)
  const ascorbatePpm = perMillion(sum.ascorbate)
  const together = input.agents.some(({ composition }) => {
    const s = strengthOf(composition)
    return s.nitrite > 0 && s.erythorbate + s.ascorbate > 0
  })
  return {
    nitritePpm,
    nitratePpm,
    nitriteIonPpm,
    nitrateIonPpm,
    erythorbatePpm,
    ascorbatePpm,
    saltPct: perMillion(sum.salt) / 1e4,
    sugarPct: perMillion(sum.sugar) / 1e4,
    nitriteWithAllNitrateReducedPpm: nitritePpm + nitratePpm * moleForMole('sodiumNitrate', 'sodiumNitrite'),
    nitriteSaltsPpm: perMillion(sum.nitrites),
    nitrateSaltsPpm: perMillion(sum.nitrates),
    acceleratorSaltsPpm: perMillion(sum.salts),
    acceleratorAcidsPpm: perMillion(sum.acids),
    cautions: [
      ...(nitritePpm + nitratePpm > 0 ? [nitriteCaution] : []),
      ...(together ? [acceleratorCaution] : []),
      ...shortPickle(input),
    ],
    working,
  }
}

const short = (x: number): string => String(Number(x.toPrecision(7)))

function fractionText({ route, basisKg, pickle }: IngoingInput): string {
  const gainPct = route === 'pumped' ? pickle?.pumpPct : pickle?.pickUpPct
  return pickle && gainPct !== undefined
    ? `${short(basisKg)} kg × ${short(gainPct)} % / ${short(pickle.totalKg)} kg of pickle`
    : 'all of it'
}

/** A pickle that is taken up to the last drop and more: its strength still holds, but there is not enough of it. */
function shortPickle({ route, basisKg, pickle }: IngoingInput): string[] {
  const gainPct = route === 'pumped' ? pickle?.pumpPct : pickle?.pickUpPct
  const taken = (basisKg * (gainPct ?? 0)) / 100
  if (!pickle || taken <= pickle.totalKg) return []
  return [
    `The meat takes up ${short(taken)} kg of pickle and there are ${pickle.totalKg} kg: make more of the same strength.`,
  ]
}
