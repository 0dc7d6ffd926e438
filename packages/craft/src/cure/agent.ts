import type { AgentComposition } from '../materials/schema.ts'
import { moleForMole } from './molar.ts'

/** What a kilogram of agent brings, as fractions by mass: each family expressed as its sodium salt, mole for mole. */
export type Strength = {
  /** Nitrite of sodium and potassium, as sodium nitrite. */
  readonly nitrite: number
  /** Nitrate of sodium and potassium, as sodium nitrate. */
  readonly nitrate: number
  /** Erythorbate and erythorbic acid, as sodium erythorbate (anhydrous). */
  readonly erythorbate: number
  /** Ascorbate and ascorbic acid, as sodium ascorbate. */
  readonly ascorbate: number
  readonly salt: number
  readonly sugar: number
}

const fraction = (pct: number | undefined): number => (pct ?? 0) / 100

/** The strength of an agent by its composition. */
export function strengthOf(agent: AgentComposition): Strength {
  return {
    nitrite:
      fraction(agent.sodiumNitritePct) +
      fraction(agent.potassiumNitritePct) * moleForMole('potassiumNitrite', 'sodiumNitrite'),
    nitrate:
      fraction(agent.sodiumNitratePct) +
      fraction(agent.potassiumNitratePct) * moleForMole('potassiumNitrate', 'sodiumNitrate'),
    erythorbate:
      fraction(agent.sodiumErythorbatePct) +
      fraction(agent.erythorbicAcidPct) * moleForMole('erythorbicAcid', 'sodiumErythorbate'),
    ascorbate:
      fraction(agent.sodiumAscorbatePct) +
      fraction(agent.ascorbicAcidPct) * moleForMole('ascorbicAcid', 'sodiumAscorbate'),
    salt: fraction(agent.saltPct),
    sugar: fraction(agent.sugarPct),
  }
}

const names: Readonly<Record<keyof AgentComposition, string>> = {
  sodiumNitritePct: 'sodium nitrite',
  potassiumNitritePct: 'potassium nitrite',
  sodiumNitratePct: 'sodium nitrate',
  potassiumNitratePct: 'potassium nitrate',
  saltPct: 'salt',
  sugarPct: 'sugar',
  sodiumErythorbatePct: 'sodium erythorbate',
  sodiumAscorbatePct: 'sodium ascorbate',
  ascorbicAcidPct: 'ascorbic acid',
  erythorbicAcidPct: 'erythorbic acid',
}

/** An agent in words by what it holds, e.g. "6.25 % sodium nitrite, 93.75 % salt". */
export function describeAgent(agent: AgentComposition): string {
  const parts = Object.entries(names).flatMap(([key, name]) => {
    const pct = agent[key as keyof AgentComposition]
    return pct ? [`${Number(pct.toPrecision(6))} % ${name}`] : []
  })
  return parts.length > 0 ? parts.join(', ') : 'nothing a cure is made of'
}
