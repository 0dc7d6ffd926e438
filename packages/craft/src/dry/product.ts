import type { DryingPiece } from './course-schema.ts'
import { isothermOf, type Isotherm } from './sorption.ts'

/** Densities, kg/m³, as in the composition tables of Choi & Okos near 15 °C. */
const DENSITY = { water: 996.4, protein: 1322.1, fat: 919.3, rest: 2100 } as const

/** A piece ready to be dried. */
export type Product = {
  readonly radiusM: number
  readonly fatPct: number
  /** kg water per kg of all else, as stuffed. */
  readonly startWater: number
  readonly proteinPerSolid: number
  readonly solidKgPerM3: number
  readonly waterKgPerM3: number
  readonly isotherm: (solutesFactor: number) => Isotherm
  /** Mean water at which every target is met. */
  readonly targetWater: (isotherm: Isotherm) => number | undefined
}

export function productOf({ diameterMm, composition, target }: DryingPiece): Product {
  const { waterPct, proteinPct, fatPct } = composition
  const solid = 100 - waterPct
  const rest = Math.max(0, solid - proteinPct - fatPct)
  const startWater = waterPct / solid
  const proteinPerSolid = proteinPct / solid
  return {
    radiusM: diameterMm / 2000,
    fatPct,
    startWater,
    proteinPerSolid,
    solidKgPerM3: solid / (proteinPct / DENSITY.protein + fatPct / DENSITY.fat + rest / DENSITY.rest),
    waterKgPerM3: DENSITY.water,
    isotherm: (factor) => isothermOf(composition, factor),
    targetWater: ({ water }) => {
      const asked = [
        target.weightLossPct === undefined ? [] : [(waterPct - target.weightLossPct) / solid],
        target.aw === undefined ? [] : [water(target.aw)],
        target.moistureToProtein === undefined ? [] : [target.moistureToProtein * proteinPerSolid],
      ].flat()
      return asked.length === 0 ? undefined : Math.min(...asked)
    },
  }
}
