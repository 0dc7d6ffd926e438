import { LEWIS_FACTOR } from '../heat/exchange.ts'
import { filmCoefficient, radiationFilm } from '../heat/film.ts'
import { saturationPressurePa, saturationSlope, STANDARD_PRESSURE_PA } from '../heat/psychrometrics.ts'
import type { Source } from '../source.ts'

export const rimSources: readonly Source[] = [
  {
    document:
      'Lewis relation of heat and vapour films; Churchill & Bernstein 1977 and Churchill & Chu 1975 for the heat film',
    section: 'as reproduced in heat-transfer textbooks',
    edition: '1977, 1975',
    mark: 'quoted',
  },
  {
    document: 'Permeance of a moist natural, collagen or fibrous casing',
    section: 'order of magnitude; a fit to weighings replaces it',
    edition: 'none',
    mark: 'from-memory',
  },
]

/** Air past the pieces in a drying room, m/s, where none is given. Common practice, no source: 0.1 to 0.5. */
export const USUAL_AIR_SPEED_M_PER_S = 0.2
/** A moist casing lets this much vapour through, kg/(m²·s·Pa). From memory, order of magnitude. */
export const CASING_PERMEANCE = 2e-8
/** Spread of the film and casing together, as a logarithm. An assumption. */
export const FILM_SD = 0.5

const GAS_J_PER_KG_K = 461.5
const AIR_HEAT_J_PER_M3_K = 1.2 * 1006

/** The air of one stage, as the rim meets it. */
export type Air = {
  readonly tempC: number
  readonly rhPct: number
  readonly airSpeedMPerS: number
}

/**
 * What stands between the rim and the air, m²·s·Pa/kg: the film of air, the casing, and the cooling of the rim by what it gives off, as a
 * resistance of its own (the wet bulb of a product that dries slowly).
 * @param filmFactor multiplies the permeance of film and casing; 1 is the correlation
 */
export function rimResistance(air: Air, diameterM: number, filmFactor: number): number {
  const { tempC, airSpeedMPerS } = air
  const convection = filmCoefficient({
    medium: 'air',
    mediumC: tempC,
    surfaceC: tempC - 1,
    diameterM,
    speed: airSpeedMPerS,
    pressurePa: STANDARD_PRESSURE_PA,
  })
  const vapour = convection / LEWIS_FACTOR / AIR_HEAT_J_PER_M3_K / (GAS_J_PER_KG_K * (tempC + 273.15))
  const latent = 1000 * (2501 - 2.326 * tempC)
  const heat = convection + radiationFilm(tempC, tempC - 1)
  const cooling = (saturationPressurePa(tempC) * saturationSlope(tempC) * latent) / heat
  return (1 / vapour + 1 / CASING_PERMEANCE) / filmFactor + cooling
}

/** Water leaving the rim, kg/(m²·s), by its water activity; negative where the air is the wetter. */
export function leaving(air: Air, resistance: number): (aw: number) => number {
  const saturated = saturationPressurePa(air.tempC)
  return (aw) => (saturated * (aw - air.rhPct / 100)) / resistance
}
