import type { Part } from '../lines.ts'

/** What lactic cultures make of a sugar: at once, as sucrose, or slowly and not every culture. */
export type SugarKind = 'dextrose' | 'sucrose' | 'lactose'

/**
 * Main sugar of the materials that are added for their sweetness or bring milk sugar. By name and usual make-up: honey and glucose syrup are
 * simple sugars for the most part, molasses and brown sugar sucrose; malt sugar is left by some cultures, so it counts with milk sugar.
 */
const kinds: Readonly<Record<string, SugarKind>> = {
  'dextrose-anhydrous': 'dextrose',
  'dextrose-monohydrate': 'dextrose',
  honey: 'dextrose',
  'glucose-syrup': 'dextrose',
  sugar: 'sucrose',
  'sugar-brown': 'sucrose',
  'maple-syrup': 'sucrose',
  molasses: 'sucrose',
}

export type SugarOf = {
  readonly material: string
  readonly name: string
  readonly kind: SugarKind
  /** Sugar, percent of the mix. */
  readonly pct: number
}

/** Sugar of a material that is not known matters from this share of the material on, percent of the mix. */
const MATTERS_PCT = 0.1
/** Sugar of a spice under this, percent of the mix, moves the pH by less than a meter shows: left out. */
const TRACE_PCT = 0.02

/**
 * The sugars additions bring, percent of the mix. What any culture takes is told from what only some do; sugar of spices, milk, malt and wine
 * counts among the latter. Meat's own is not listed: the model of acid has it.
 */
export function sugarsOf(parts: readonly Part[], totalKg: number): { sugars: SugarOf[]; unknown: string[] } {
  const sugars: SugarOf[] = []
  const unknown: string[] = []
  for (const { material, role, kg, composition } of parts) {
    if (role === 'meat' || kg === 0) continue
    const share = (100 * kg) / totalKg
    if (composition.sugarsPct === undefined) {
      const could = material.category === 'sugar' || material.category === 'dairy'
      if (could && share >= MATTERS_PCT) unknown.push(material.name)
      continue
    }
    const pct = (share * composition.sugarsPct) / 100
    if (pct > (kinds[material.id] ? 0 : TRACE_PCT))
      sugars.push({ material: material.id, name: material.name, kind: kinds[material.id] ?? 'lactose', pct })
  }
  return { sugars, unknown }
}
