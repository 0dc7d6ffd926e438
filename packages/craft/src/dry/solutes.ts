import { WATER_G_PER_MOL } from './brine.ts'

/** Constants of the Norrish equation ln aw = ln x(water) + K · x(solute)², base e; glycerol quoted (Int. J. Dent. 2010, 981072, table 3), the others from memory of the published tables. */
const norrish = {
  sucrose: { gPerMol: 342.3, k: -6.47 },
  dextrose: { gPerMol: 180.16, k: -2.25 },
  fructose: { gPerMol: 180.16, k: -2.25 },
  glycerol: { gPerMol: 92.09, k: -1.16 },
  lactose: { gPerMol: 342.3, k: -10.2 },
} as const

export const soluteNames = Object.keys(norrish) as (keyof typeof norrish)[]

/**
 * Water activity of one non-electrolyte alone in all the water.
 *
 * @param waterPct percent water of the product, above 0
 * @param pct percent of the solute
 * @source Norrish, J. Food Technol. 1 (1966) 25; constants from memory, confirm before a limit rests on them
 */
export function soluteWaterActivity(name: keyof typeof norrish, pct: number, waterPct: number): number {
  const { gPerMol, k } = norrish[name]
  const moles = pct / gPerMol
  const share = moles / (moles + waterPct / WATER_G_PER_MOL)
  return (1 - share) * Math.exp(k * share * share)
}
