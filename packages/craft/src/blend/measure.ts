import type { BlendMaterial, MeasureName } from './schema.ts'

type Component = 'waterPct' | 'proteinPct' | 'fatPct' | 'collagenPct' | 'saltPct'

/** Components a measure needs of every material. */
const needed: Readonly<Record<MeasureName, readonly Component[]>> = {
  fat: ['fatPct'],
  protein: ['proteinPct'],
  water: ['waterPct'],
  collagen: ['collagenPct'],
  salt: ['saltPct'],
  addedWater: ['waterPct', 'proteinPct'],
  fatPlusAddedWater: ['fatPct', 'waterPct', 'proteinPct'],
  collagenInProtein: ['collagenPct', 'proteinPct'],
}

/** Water a gram of meat protein carries by nature in the added-water formula. @source 9 CFR 318.22(b): AW = W − 4 P. */
export const WATER_PER_PROTEIN = 4
/** Points of protein from other sources that still count as meat protein in the formula. @source 9 CFR 318.22(b)(4) */
export const OTHER_PROTEIN_COUNTED_PCT = 1

/** Components the measure needs and the material does not give: blank is not zero. */
export const lacking = (m: BlendMaterial, measure: MeasureName): readonly Component[] =>
  needed[measure].filter((c) => m.composition[c] === undefined)

/** A line a·x + a0 that measures a batch, x being shares of the batch; the measure is the largest of its lines. */
export type Line = { readonly of: (m: BlendMaterial) => number; readonly constant: number }

const water = (m: BlendMaterial): number => m.composition.waterPct
const protein = (m: BlendMaterial): number => m.composition.proteinPct
const otherProtein = (m: BlendMaterial): number => (m.protein === 'other' ? protein(m) : 0)
const allCounted = (m: BlendMaterial): number => water(m) - WATER_PER_PROTEIN * protein(m)
const otherLeftOut = (m: BlendMaterial): number => allCounted(m) + WATER_PER_PROTEIN * otherProtein(m)
const spare = -WATER_PER_PROTEIN * OTHER_PROTEIN_COUNTED_PCT

/**
 * The lines of a measure. Added water is W − 4·(P − max(P₂ − 1, 0)), P₂ being protein that is not of meat: the larger of two
 * lines, so a maximum on it stays linear. `collagenInProtein` is a ratio and needs its limit: see `requirement.ts`.
 */
export function linesOf(
  measure: Exclude<MeasureName, 'collagenInProtein'>,
  materials: readonly BlendMaterial[],
): readonly Line[] {
  const single = (of: Line['of']): readonly Line[] => [{ of, constant: 0 }]
  const added = (more: (m: BlendMaterial) => number): readonly Line[] => {
    const lines: Line[] = [{ of: (m) => allCounted(m) + more(m), constant: 0 }]
    if (materials.some((m) => otherProtein(m) > 0))
      lines.push({ of: (m) => otherLeftOut(m) + more(m), constant: spare })
    return lines
  }
  switch (measure) {
    case 'fat':
      return single((m) => m.composition.fatPct)
    case 'protein':
      return single(protein)
    case 'water':
      return single(water)
    case 'collagen':
      return single((m) => m.composition.collagenPct ?? Number.NaN)
    case 'salt':
      return single((m) => m.composition.saltPct ?? Number.NaN)
    case 'addedWater':
      return added(() => 0)
    case 'fatPlusAddedWater':
      return added((m) => m.composition.fatPct)
  }
}
