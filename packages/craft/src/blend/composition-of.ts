import type { Composition } from '../composition.ts'

type Part = {
  readonly id: string
  readonly kg: number
  readonly composition: Partial<Composition> | PartialComposition
  readonly fatSdPct?: number | undefined
}
type PartialComposition = { readonly [K in keyof Composition]?: Composition[K] | undefined }

export const components = [
  'waterPct',
  'proteinPct',
  'fatPct',
  'carbohydratePct',
  'ashPct',
  'saltPct',
  'collagenPct',
] as const
export type Component = (typeof components)[number]

/** A part's figure for a component. Collagen is protein, so a part without protein has none, stated or not. */
export const stated = (composition: PartialComposition, component: Component): number | undefined =>
  composition[component] ?? (component === 'collagenPct' && composition.proteinPct === 0 ? 0 : undefined)

/**
 * Composition of weighed parts together. A component is given only where every part with mass gives it; the others are listed
 * with the parts that lack it, for blank is not zero.
 */
export function compositionOf(parts: readonly Part[]): {
  readonly composition: { -readonly [K in Component]?: number }
  readonly unknown: { component: Component; materials: string[] }[]
} {
  const present = parts.filter((p) => p.kg > 0)
  const totalKg = present.reduce((s, p) => s + p.kg, 0)
  const composition: { -readonly [K in Component]?: number } = {}
  const unknown: { component: Component; materials: string[] }[] = []
  for (const c of components) {
    const lacking = present.filter((p) => stated(p.composition, c) === undefined).map((p) => p.id)
    if (lacking.length > 0 || totalKg === 0) unknown.push({ component: c, materials: lacking })
    else composition[c] = present.reduce((s, p) => s + p.kg * stated(p.composition, c)!, 0) / totalKg
  }
  return { composition, unknown }
}

/** Standard deviation of the mix's fat where lots vary independently: √Σ(share·sd)². Undefined where a fat-bearing part gives none. */
export function fatSdOf(parts: readonly Part[]): number | undefined {
  const present = parts.filter((p) => p.kg > 0)
  const totalKg = present.reduce((s, p) => s + p.kg, 0)
  let variance = 0
  for (const p of present) {
    // A part with no fat at all cannot vary in it.
    const sd = p.fatSdPct ?? (p.composition.fatPct === 0 ? 0 : undefined)
    if (sd === undefined) return undefined
    variance += ((p.kg / totalKg) * sd) ** 2
  }
  return Math.sqrt(variance)
}
