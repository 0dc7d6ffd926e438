import type { RecipeComputeInput } from './compute-schema.ts'
import { isBinder } from './identity.ts'
import type { Part } from './lines.ts'
import { isCuredAlready } from './salt-and-cure.ts'

const has = (parts: readonly Part[], test: (p: Part) => boolean): boolean => parts.some((p) => p.kg > 0 && test(p))

/**
 * What kind of product the parts make, in the words rules are scoped by. A cure of unknown analysis counts as cured; whether it
 * brings nitrate is then left out, for it is not known.
 */
export function factsOf({ recipe }: RecipeComputeInput, parts: readonly Part[]): Record<string, string | boolean> {
  const agent = (keys: readonly string[]) =>
    has(parts, ({ material: m }) => Object.entries(m.agent ?? {}).some(([k, v]) => keys.includes(k) && (v ?? 0) > 0))
  const nitrate = agent(['sodiumNitratePct', 'potassiumNitratePct'])
  const nitrite = agent(['sodiumNitritePct', 'potassiumNitritePct'])
  const blank = has(parts, ({ material: m }) => m.category === 'cure' && !m.agent)
  const cured = nitrite || nitrate || blank
  // Bacon or salt pork brings nitrite or does not: without its analysis neither can be said.
  const already = has(parts, isCuredAlready)
  const species = [
    ...new Set(parts.flatMap((p) => (p.role === 'meat' && p.kg > 0 && p.material.species ? [p.material.species] : []))),
  ].toSorted()
  const route = recipe.route ?? 'comminuted'
  return {
    kind: recipe.kind,
    route,
    smoked: recipe.smoked,
    readyToEat: recipe.readyToEat,
    ...(already && !cured ? {} : { cured }),
    ...((blank || already) && !nitrate ? {} : { nitrateAdded: nitrate }),
    acceleratorAdded: agent(['sodiumErythorbatePct', 'sodiumAscorbatePct', 'ascorbicAcidPct', 'erythorbicAcidPct']),
    gdlAdded: has(parts, (p) => p.material.id === 'glucono-delta-lactone'),
    cultureAdded: has(parts, (p) => p.material.category === 'culture'),
    binderAdded: has(parts, isBinder),
    phosphateAdded: has(parts, (p) => p.material.category === 'phosphate'),
    waterAdded: has(parts, (p) => p.material.category === 'water'),
    ...(route === 'comminuted' ? { bacon: false } : {}),
    // A fermented or dried sausage eaten as sold is sliced, not fried. A cooked one may yet be grilled by the eater.
    ...(recipe.readyToEat && (recipe.kind === 'fermented' || recipe.kind === 'dried') ? { toBeFried: false } : {}),
    ...(species.length === 1 ? { species: species[0]! } : {}),
    ...Object.fromEntries(species.map((s) => [`species:${s}`, true])),
    ...Object.fromEntries((recipe.standards ?? []).map((s) => [`standard:${s}`, true])),
  }
}
