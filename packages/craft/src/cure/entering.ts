import { z } from 'zod'
import { massKg, oneOf, quantity } from '../schema.ts'

export const routes = ['comminuted', 'pumped', 'immersed', 'dry-rubbed'] as const
export type Route = (typeof routes)[number]

export const routeSchema = oneOf(routes)

const gain = () => quantity('% of the green weight', { above: 0, max: 200 })

/** The whole pickle, and how much of it the meat takes up. `pumpPct` and `pickUpPct` are percent of the green weight. */
export const pickleSchema = z.strictObject({
  totalKg: massKg(),
  pumpPct: gain().optional(),
  pickUpPct: gain().optional(),
})
export type Pickle = z.infer<typeof pickleSchema>

type Case = { readonly route: Route; readonly pickle?: Pickle | undefined }

/** Faults of a route and its pickle as [field, message] pairs; none where they fit together. */
export function pickleFaults({ route, pickle }: Case): [string, string][] {
  const wanted = route === 'pumped' || route === 'immersed'
  if (!wanted)
    return pickle
      ? [['pickle', `is given for the ${route} route; allowed: no pickle, since the agent goes straight on the meat`]]
      : []
  if (!pickle)
    return [
      [
        'pickle',
        `is missing; allowed: totalKg and ${route === 'pumped' ? 'pumpPct' : 'pickUpPct (or none, for an equilibrium pickle)'}`,
      ],
    ]
  if (route === 'pumped') {
    if (pickle.pumpPct === undefined)
      return [['pickle.pumpPct', 'is missing; allowed: the pump as % of the green weight, more than 0']]
    if (pickle.pickUpPct !== undefined)
      return [['pickle.pickUpPct', 'is given for the pumped route; allowed: pumpPct alone']]
  }
  if (route === 'immersed' && pickle.pumpPct !== undefined)
    return [
      ['pickle.pumpPct', 'is given for the immersed route; allowed: pickUpPct, or neither for an equilibrium pickle'],
    ]
  return []
}

export type Entering = {
  /** Part of what the whole pickle (or the rub, or the mix) holds that counts as entering `basisKg` of meat, by mass. */
  readonly fraction: number
  /** Mass the entering agent is divided by, kg. */
  readonly perKg: number
  readonly convention: string
}

/**
 * How much of the agent counts as entering the meat, and what it is divided by, by route. The formulae are those of FSIS Directive
 * 7620.3, Processing Inspectors' Calculations Handbook (rev. 1995), chapter 3: comminuted and dry-cured on the green weight;
 * pumped, agent × pump / pickle; immersed with a known pick-up likewise (method 1); immersed to equilibrium, meat and pickle
 * as one system (method 2).
 */
export function entering(route: Route, basisKg: number, pickle?: Pickle): Entering {
  const gainPct = route === 'pumped' ? pickle?.pumpPct : pickle?.pickUpPct
  if (pickle && gainPct !== undefined) {
    const taken = (basisKg * gainPct) / 100
    const convention =
      route === 'pumped'
        ? 'pumped: the agents are those of the whole pickle; what enters is pickle strength × pump % of the green weight'
        : 'immersed, pick-up known (method 1): what enters is pickle strength × pick-up % of the green weight'
    return { fraction: taken / pickle.totalKg, perKg: basisKg, convention }
  }
  if (pickle)
    return {
      fraction: 1,
      perKg: basisKg + pickle.totalKg,
      convention:
        'immersed to equilibrium (method 2): meat and pickle count as one system, agent / (green weight + pickle)',
    }
  const convention =
    route === 'dry-rubbed'
      ? 'dry-rubbed: all agent applied counts as entering, on the green weight (rub that falls off is still counted)'
      : 'comminuted: all agent counts as entering, on the green weight of the meat block'
  return { fraction: 1, perKg: basisKg, convention }
}
