import type { Composition } from '../composition.ts'
import { massFractions, specificHeatPolynomial } from '../heat/properties.ts'

/** Heat of fusion of ice at 0 °C, kJ/kg. */
export const FUSION_KJ = 333.6
/** Specific heat of water between 0 and 20 °C, kJ/(kg·K). */
export const WATER_CP = 4.19
/** Ice, Choi & Okos 1986: 2.0623 + 6.0769e-3 T, kJ/(kg·K). */
const ICE_CP = [2.0623, 6.0769e-3] as const
/** Where a mix would boil; from here on its heat is carried on at the slope it has, for a balance and not for use. */
export const STEAM_C = 100
/** Water that does not freeze, per unit of protein. */
const BOUND_PER_PROTEIN = 0.4
/** Salt as a powder: specific heat kJ/(kg·K), molar mass kg/mol, heat it takes up on dissolving kJ/kg, fall of freezing point K·kg/mol. */
export const SALT = { cp: 0.86, molarKg: 0.05844, solutionKj: 66, depression: 3.4 } as const

/** Enthalpy of ice at `tempC` ≤ 0 over ice at 0 °C, kJ/kg; negative. */
export const iceSensible = (tempC: number): number => tempC * (ICE_CP[0] + (ICE_CP[1] * tempC) / 2)

/** Heat that water gives up on freezing at `tempC` ≤ 0, kJ/kg: that at 0 °C, less by what ice keeps of the cooling (Kirchhoff). */
export const fusionAt = (tempC: number): number => FUSION_KJ + WATER_CP * tempC - iceSensible(tempC)

/** A material made ready for balances: per kg, its water that can freeze, freezing point and specific heat when unfrozen. */
export type Food = {
  readonly water: number
  readonly freezable: number
  readonly freezingC: number
  /** Enthalpy with all water liquid over the same at 0 °C, kJ/kg. */
  readonly liquid: (tempC: number) => number
}

/** Below every temperature that is taken here: what has hardly any water does not freeze in a kitchen. */
export const NEVER_FREEZES_C = -60

/** Freezing point in °C from mass fractions: −4.66 other/water − 46.4 ash/water. @source Pham 1996 */
export const freezingPoint = (water: number, ash: number): number =>
  water <= 0 ? NEVER_FREEZES_C : Math.max(NEVER_FREEZES_C, (-4.66 * Math.max(0, 1 - water - ash) - 46.4 * ash) / water)

/** Fat does not lower the freezing point of the water beside it; the formula was fitted to foods low in it, so fat is left out. */
const fatFree = (fraction: number, fat: number): number => (fat < 1 ? fraction / (1 - fat) : 0)

export function food(composition: Composition): Food {
  const x = massFractions(composition)
  const [a, b, c] = specificHeatPolynomial(x)
  return {
    water: x.water,
    freezable: Math.max(0, x.water - BOUND_PER_PROTEIN * x.protein),
    freezingC: freezingPoint(fatFree(x.water, x.fat), fatFree(x.ash, x.fat)),
    // Component equations are for unfrozen food; below zero they stand for the liquid the ice is subtracted from.
    liquid: (t) => {
      const within = Math.min(t, STEAM_C)
      const past = (t - within) * (a + within * (b + within * c))
      return (within * (a + within * (b / 2 + (within * c) / 3)) + past) / 1000
    },
  }
}

/** Mass of ice per kg of freezable water at a temperature, 0 at the freezing point and above. */
export const frozenShare = (tempC: number, freezingC: number): number =>
  tempC >= freezingC ? 0 : 1 - freezingC / tempC

/** Enthalpy of a material, kJ/kg, zero at 0 °C with all water liquid; part frozen below its freezing point. */
export const enthalpy = (f: Food, tempC: number): number =>
  f.liquid(tempC) - f.freezable * frozenShare(tempC, f.freezingC) * (tempC < 0 ? fusionAt(tempC) : 0)
