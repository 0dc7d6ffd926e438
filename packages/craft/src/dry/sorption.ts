import type { Composition } from '../composition.ts'
import type { Source } from '../source.ts'
import { NACL_G_PER_MOL, saltWaterActivity } from './brine.ts'
import { soluteWaterActivity } from './solutes.ts'

/**
 * Solutes the meat brings itself (phosphates, creatine, amino acids, lactate) as particles per gram of protein, mmol. The best fit to four
 * published sets of moisture to protein, water-phase salt and water activity of fermented sausage is 4.2; taken lower, so that the water
 * activity errs on the wet side, by 0.01 on those four. Fresh meat alone, which freezes near −1 °C, holds about 1.9.
 */
export const OWN_SOLUTES_MMOL_PER_G_PROTEIN = 3.5
/** Spread of the meat's own solutes from product to product, as a logarithm; moves the water activity of a dry product by about 0.01. */
export const OWN_SOLUTES_SD = 0.25

export const sorptionSources: readonly Source[] = [
  {
    document: 'Ingham et al. 2005, Journal of Food Protection; University of Wisconsin summary of critical limits',
    section: 'moisture to protein, pH, water-phase salt and water activity of salami, pepperoni and snack sticks',
    edition: '2005',
    mark: 'quoted',
  },
  {
    document: 'Guggenheim, Anderson and de Boer isotherm for the protein',
    section: 'monolayer 0.08 kg/kg, C 10, K 0.95, about those published for raw meat',
    edition: 'none',
    mark: 'from-memory',
  },
]

const GAB = { monolayer: 0.08, c: 10, k: 0.95 }

/** Water activity of water held by protein alone, from kg water per kg protein; 1 above 1.59 kg/kg. */
export function proteinWaterActivity(waterPerProtein: number): number {
  const { monolayer, c, k } = GAB
  const a = waterPerProtein * (c - 1)
  const b = monolayer * c - waterPerProtein * (c - 2)
  return Math.min(1, (Math.sqrt(b * b + 4 * a * waterPerProtein) - b) / (2 * a * k))
}

/** The water activity of a product as it dries, in kg of water per kg of all that is not water. */
export type Isotherm = {
  readonly aw: (waterPerSolid: number) => number
  /** Water at a water activity, kg/kg; the inverse of `aw`. */
  readonly water: (aw: number) => number
}

const LEAST = 1e-4

/**
 * Isotherm of a product from its composition: salt and the meat's own solutes by the Pitzer equation of NaCl, carbohydrate as dextrose by
 * Norrish, protein by the GAB equation, together by the product rule of Ross.
 * @param solutesFactor multiplies the meat's own solutes; 1 is the published mean
 */
export function isothermOf(composition: Composition, solutesFactor = 1): Isotherm {
  const { waterPct, proteinPct, saltPct = 0, carbohydratePct = 0 } = composition
  const solid = (100 - waterPct) / 1000
  const own = (OWN_SOLUTES_MMOL_PER_G_PROTEIN * solutesFactor * proteinPct) / 1000
  // Two particles make one NaCl; moles per kg of solids.
  const pairs = (saltPct / NACL_G_PER_MOL + own / 2) / solid
  const protein = proteinPct / (100 - waterPct)
  const sugar = carbohydratePct / (100 - waterPct)
  const aw = (waterPerSolid: number): number => {
    const x = Math.max(LEAST, waterPerSolid)
    const held = protein > 0 ? proteinWaterActivity(x / protein) : 1
    const sweet = sugar > 0 ? soluteWaterActivity('dextrose', sugar, x) : 1
    return saltWaterActivity(pairs / x) * held * sweet
  }
  return { aw, water: (target) => waterAt(aw, target) }
}

/** Inverse of a rising isotherm by halving, between the driest and the wettest a product can be. */
function waterAt(aw: (x: number) => number, target: number): number {
  let [low, high] = [LEAST, 50]
  if (aw(high) < target) return high
  for (let i = 0; i < 60; i++) {
    const mid = (low + high) / 2
    if (aw(mid) < target) low = mid
    else high = mid
  }
  return (low + high) / 2
}
