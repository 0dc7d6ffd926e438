import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { BatchFacts } from './facts.ts'

const beefs: readonly string[] = ['beef', 'veal']

const isBeef = (material: string | undefined): boolean => {
  const species = material === undefined ? undefined : findMaterial(material)?.species
  return species !== undefined && beefs.includes(species)
}

/**
 * Whether beef or veal is in a batch: by its recipe, its lines, its lots, the lots these were taken off, and every batch whose rework they are, back to
 * the door. Rework of which it is not known what it was made of may hold some.
 */
export function mayHoldBeef(facts: BatchFacts, computed: RecipeComputed): boolean {
  if (beefs.some((s) => computed.facts[`species:${s}`] === true)) return true
  if ([...facts.lines, ...facts.recipeBody.meat].some((l) => isBeef(l.material))) return true
  const lots = new Map([...(facts.ancestry?.lots ?? []), ...facts.lots].map((l) => [l.lot, l] as const))
  const batches = new Map((facts.ancestry?.batches ?? []).map((b) => [b.batch, b] as const))
  const follow = (code: string, seen: ReadonlySet<string>): boolean => {
    const lot = lots.get(code)
    if (!lot) return true
    if (isBeef(lot.material)) return true
    if (!lot.origin || seen.has(code)) return false
    const on = new Set([...seen, code])
    if ('lot' in lot.origin) return follow(lot.origin.lot, on)
    const made = batches.get(lot.origin.batch)
    if (!made || (made.lots.length === 0 && (made.materials ?? []).length === 0)) return true
    return (made.materials ?? []).some(isBeef) || made.lots.some((l) => follow(l, on))
  }
  return facts.lots.some((l) => follow(l.lot, new Set()))
}
