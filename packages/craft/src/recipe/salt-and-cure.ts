import { ingoing } from '../cure/ingoing.ts'
import { pickleFaults } from '../cure/entering.ts'
import { strengthOf } from '../cure/agent.ts'
import type { RecipeComputed, RecipeComputeInput } from './compute-schema.ts'
import type { Part } from './lines.ts'

export type CureOf = RecipeComputed['cure'] & {
  readonly acceleratorSaltsPpm?: number
  readonly acceleratorAcidsPpm?: number
  readonly nitriteSaltsPpm?: number
  readonly nitrateSaltsPpm?: number
}

const sum = (parts: readonly Part[], f: (p: Part) => number): number => parts.reduce((s, p) => s + f(p), 0)

/** Salt that was weighed as salt or within a cure, kg: a cure by its agent, salt by its sodium chloride. */
export function addedSalt(parts: readonly Part[]): { readonly fromCureKg: number; readonly allKg: number } {
  const fromCureKg = sum(parts, (p) => (p.material.agent ? p.kg * strengthOf(p.material.agent).salt : 0))
  const plainKg = sum(parts, (p) =>
    p.material.category === 'salt' && !p.material.agent ? (p.kg * (p.material.composition.saltPct ?? 100)) / 100 : 0,
  )
  return { fromCureKg, allKg: fromCureKg + plainKg }
}

/** Meat that was cured before it came, with nitrite nobody gives. */
const curedAlready = new Set(['bacon', 'salt-pork'])
export const isCuredAlready = ({ material: m }: Part): boolean => curedAlready.has(m.id) && !m.agent
/** What brings a cure of unknown analysis: a cure without one, or meat cured before it came. */
export const isCureUnanalysed = (p: Part): boolean =>
  (p.material.category === 'cure' && !p.material.agent) || isCuredAlready(p)

/** Ingoing cure of the parts, on the meat block. Not known where a cure's analysis or the pickle is missing: blank is not zero. */
export function cureOf(input: RecipeComputeInput, parts: readonly Part[], meatKg: number, totalKg: number): CureOf {
  const route = input.recipe.route ?? 'comminuted'
  const { fromCureKg, allKg } = addedSalt(parts)
  const salt = {
    saltFromCureKg: fromCureKg,
    addedSaltKg: allKg,
    addedSaltPctOfMeat: (100 * allKg) / meatKg,
    addedSaltPctOfTotal: (100 * allKg) / totalKg,
  }
  const blank = parts.filter((p) => p.kg > 0 && isCureUnanalysed(p))
  if (blank.length > 0)
    return {
      known: false,
      because: `the analysis of ${blank.map((p) => p.material.name).join(', ')} is not given`,
      ...salt,
      cautions: [],
      working: [],
    }
  const faults = pickleFaults({ route, pickle: input.pickle })
  const agents = parts.flatMap((p) =>
    p.material.agent && p.kg > 0 ? [{ name: p.material.name, kg: p.kg, composition: p.material.agent }] : [],
  )
  if (faults.length > 0 && agents.length > 0)
    return {
      known: false,
      because: faults.map(([field, message]) => `${field} ${message}`).join('; '),
      ...salt,
      cautions: [],
      working: [],
    }
  const made = ingoing({
    route: agents.length > 0 ? route : 'comminuted',
    basisKg: meatKg,
    agents,
    ...(input.pickle && agents.length > 0 ? { pickle: input.pickle } : {}),
  })
  const { nitritePpm, nitratePpm, nitriteIonPpm, nitrateIonPpm, erythorbatePpm, ascorbatePpm, cautions, working } = made
  return {
    known: true,
    because:
      agents.length > 0
        ? `${agents.length} agent${agents.length > 1 ? 's' : ''} on ${meatKg} kg of meat block, ${route}`
        : 'no material carries a cure',
    nitritePpm,
    nitratePpm,
    nitriteIonPpm,
    nitrateIonPpm,
    erythorbatePpm,
    ascorbatePpm,
    ...salt,
    cautions,
    working: agents.length > 0 ? working : [],
    acceleratorSaltsPpm: made.acceleratorSaltsPpm,
    acceleratorAcidsPpm: made.acceleratorAcidsPpm,
    nitriteSaltsPpm: made.nitriteSaltsPpm,
    nitrateSaltsPpm: made.nitrateSaltsPpm,
  }
}
