import { knownMix } from '@forcemeat/craft/plan/drying-piece'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { BatchRecord } from '@forcemeat/ledger'

export type StuffedMix = {
  readonly composition: RecipeComputed['composition']
  /** What is not known of it, in words. */
  readonly unknown: readonly string[]
  readonly notes: readonly string[]
}

const needed = ['waterPct', 'proteinPct', 'fatPct'] as const
const words: Readonly<Record<string, string>> = { waterPct: 'water', proteinPct: 'protein', fatPct: 'fat' }

/** The mix of a batch as it was stuffed; small parts of unknown composition, such as a culture, are left out and named. */
export function stuffedMix(record: BatchRecord, computed: RecipeComputed): StuffedMix {
  const lacks = (c: RecipeComputed): boolean => needed.some((n) => c.composition[n] === undefined)
  const known = lacks(computed)
    ? knownMix({
        recipe: record.recipeBody,
        meatKg: record.meatKg,
        lines: computed.lines.map(({ material, lot, kg }) => ({ material, kg, ...(lot === undefined ? {} : { lot }) })),
        lots: record.lots.map(({ lot, material, fatPct, fatSdPct }) => ({
          lot,
          material,
          ...(fatPct === undefined ? {} : { fatPct }),
          ...(fatSdPct === undefined ? {} : { fatSdPct }),
        })),
      })
    : computed
  const left = [...new Set(computed.lines.map((l) => l.name))].filter((n) => !known.lines.some((l) => l.name === n))
  const saltPct = known.composition.saltPct ?? known.cure.addedSaltPctOfTotal
  return {
    composition: { ...known.composition, saltPct },
    unknown: known.unknown
      .filter((u) => words[u.component] !== undefined)
      .map((u) => `${words[u.component]} of ${u.materials.join(', ')}`),
    notes: left.length > 0 ? [`${left.join(', ')}: composition not known, left out of the mix as a trace`] : [],
  }
}
