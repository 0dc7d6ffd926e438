import type { Surface, SurfaceFlow } from './conduction.ts'
import { humidityRatio, saturationPressurePa, saturationSlope, WATER_TO_AIR } from './psychrometrics.ts'

/** Condensate a hanging surface holds before it drips, kg/m²: a film of a tenth of a millimetre. An assumption, not from a source. */
export const FILM_HOLDS_KG_PER_M2 = 0.1
/** Loss over the critical one at which the surface gives off half the vapour of a wet one, kg/m². An assumption, not from a source. */
export const CRUST_HALVES_KG_PER_M2 = 0.3
/** Vapour at a hot dry spot is followed up to this share of the pressure, then in a straight line: the ratio has a pole at boiling. */
const HIGHEST_SHARE = 0.9

/** Humid air about the surface; without it the surface trades heat only. */
export type Humid = {
  readonly pressurePa: number
  /** kg vapour per kg dry air */
  ratio: number
  /** Share of a wet surface's vapour that this surface gives off, 0 to 1; condensation always counts in full. */
  wetness: number
}

/** The surface's law at one instant. */
export type Exchange = {
  /** All heat, convection and radiation, W/(m²·K). */
  filmWPerM2K: number
  /** The film that carries vapour, as heat film over the Lewis factor; that of heat itself when missing. */
  vapourFilmWPerM2K?: number
  mediumC: number
  humid?: Humid
}

/**
 * Lewis factor of water in air, Le^⅔ with Le 0.85: a wet surface gives off a ninth more vapour than its convection alone tells. In moving air this and
 * radiation nearly cancel, which is why the wet bulb of a thermometer and that of the balance agree. From memory (handbooks: Le 0.85 to 0.9).
 */
export const LEWIS_FACTOR = 0.9

/** Latent heat of water evaporating from liquid at a temperature, J/kg; the same as in the balance of the wet bulb. */
const latent = (tempC: number) => 1000 * (2501 - 2.326 * tempC)

/** Humidity ratio at saturation and its slope, straight on above a share of the pressure. */
function saturatedRatio(surfaceC: number, pressurePa: number): [number, number] {
  // A Newton round may leap far off before it comes back; the equations must still mean something there.
  const tempC = Math.min(150, Math.max(-60, surfaceC))
  const p = saturationPressurePa(tempC)
  if (p < HIGHEST_SHARE * pressurePa)
    return [
      humidityRatio(p, pressurePa),
      (WATER_TO_AIR * pressurePa * p * saturationSlope(tempC)) / (pressurePa - p) ** 2,
    ]
  const cap = HIGHEST_SHARE * pressurePa
  const slope = (WATER_TO_AIR * pressurePa) / (pressurePa - cap) ** 2
  return [humidityRatio(cap, pressurePa) + slope * (p - cap), slope * p * saturationSlope(tempC)]
}

/**
 * Vapour leaving the surface, kg/(m²·s), negative when it condenses: h / c · (W at the surface − W of the air), c the heat of
 * humid air, h the film of vapour. Where that equals the film of heat (as with a given film), an idle wet surface stands at the wet bulb exactly.
 */
export function vapourFlow(x: Exchange, surfaceC: number): number {
  if (!x.humid) return 0
  const { ratio, wetness, pressurePa } = x.humid
  const [saturated] = saturatedRatio(surfaceC, pressurePa)
  const drive = saturated - ratio
  return ((x.vapourFilmWPerM2K ?? x.filmWPerM2K) / (1006 + 1860 * ratio)) * drive * (drive > 0 ? wetness : 1)
}

/** Heat law of the surface for the conduction solver: convection less what evaporation takes. */
export function surfaceOf(x: Exchange): Surface {
  return (surfaceC: number, out: SurfaceFlow) => {
    const h = x.filmWPerM2K
    out.flow = h * (x.mediumC - surfaceC)
    out.fall = h
    if (!x.humid) return
    const { ratio, wetness, pressurePa } = x.humid
    const [saturated, slope] = saturatedRatio(surfaceC, pressurePa)
    const drive = saturated - ratio
    const share = (drive > 0 ? wetness : 1) * ((x.vapourFilmWPerM2K ?? h) / (1006 + 1860 * ratio))
    const heat = latent(surfaceC)
    out.flow -= share * drive * heat
    out.fall += share * Math.max(0, slope * heat - 2326 * drive)
  }
}

/** Humidity ratio of air, held at saturation where a ramp's cold start could not carry it, and off the pole of pure steam. */
export function carried(ratio: number, mediumC: number, pressurePa: number): number {
  return Math.min(ratio, humidityRatio(Math.min(saturationPressurePa(mediumC), HIGHEST_SHARE * pressurePa), pressurePa))
}

/** True where steam of this temperature fills nearly the whole pressure, so that it condenses as steam and not as humid air. */
export const isPureSteam = (tempC: number, pressurePa: number): boolean =>
  saturationPressurePa(tempC) >= HIGHEST_SHARE * pressurePa
