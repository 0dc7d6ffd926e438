import type { Source } from '../source.ts'

export const ashraePsychrometrics: Source = {
  document: 'ASHRAE Handbook—Fundamentals, Psychrometrics',
  section:
    'chapter 1: saturation pressure over ice and water (Hyland & Wexler 1983), humidity ratio, wet bulb, enthalpy',
  edition: '2017',
  mark: 'quoted',
}

/** Sea-level pressure, Pa. */
export const STANDARD_PRESSURE_PA = 101_325
/** Ratio of the molar masses of water and dry air. */
export const WATER_TO_AIR = 0.621945
/** Range of the saturation-pressure equations. */
export const SATURATION_RANGE_C = { min: -100, max: 200 } as const

const KELVIN = 273.15

/**
 * Saturation pressure of water vapour in Pa: over ice below 0 °C, over water from 0 °C up.
 * @param tempC −100 to 200 °C; not checked here, callers hold the range
 * @source ASHRAE Handbook—Fundamentals (Hyland & Wexler 1983)
 */
export function saturationPressurePa(tempC: number): number {
  const t = tempC + KELVIN
  if (tempC < 0)
    return Math.exp(
      -5.6745359e3 / t +
        6.3925247 -
        t * (9.677843e-3 - t * (6.2215701e-7 + t * (2.0747825e-9 - t * 9.484024e-13))) +
        4.1635019 * Math.log(t),
    )
  return Math.exp(
    -5.8002206e3 / t + 1.3914993 - t * (4.8640239e-2 - t * (4.1764768e-5 - t * 1.4452093e-8)) + 6.5459673 * Math.log(t),
  )
}

/** d ln(p)/dT of the same equations, 1/K. */
export function saturationSlope(tempC: number): number {
  const t = tempC + KELVIN
  if (tempC < 0)
    return (
      5.6745359e3 / t ** 2 -
      9.677843e-3 +
      t * (2 * 6.2215701e-7 + t * (3 * 2.0747825e-9 - t * 4 * 9.484024e-13)) +
      4.1635019 / t
    )
  return 5.8002206e3 / t ** 2 - 4.8640239e-2 + t * (2 * 4.1764768e-5 - t * 3 * 1.4452093e-8) + 6.5459673 / t
}

/** Kilograms of vapour per kilogram of dry air at a vapour pressure; infinite where vapour fills the whole pressure. */
export const humidityRatio = (vapourPa: number, pressurePa: number): number =>
  vapourPa >= pressurePa ? Infinity : (WATER_TO_AIR * vapourPa) / (pressurePa - vapourPa)

/** Vapour pressure in Pa of air at a humidity ratio. */
export const vapourPressurePa = (ratio: number, pressurePa: number): number =>
  ratio === Infinity ? pressurePa : (pressurePa * ratio) / (WATER_TO_AIR + ratio)

/** Enthalpy of moist air, kJ per kg of dry air, zero for dry air and liquid water at 0 °C. */
export const moistEnthalpy = (tempC: number, ratio: number): number => 1.006 * tempC + ratio * (2501 + 1.86 * tempC)

/**
 * Humidity ratio from dry and wet bulb by the balance of adiabatic saturation (over ice when the wet bulb is below 0 °C).
 * Negative where no air can have this pair.
 */
export function ratioFromWetBulb(tempC: number, wetBulbC: number, pressurePa: number): number {
  const saturated = humidityRatio(saturationPressurePa(wetBulbC), pressurePa)
  // At the boiling point the balance loses all its terms but those of the vapour.
  if (saturated === Infinity) return Infinity
  const dry = 1.006 * (tempC - wetBulbC)
  return wetBulbC >= 0
    ? ((2501 - 2.326 * wetBulbC) * saturated - dry) / (2501 + 1.86 * tempC - 4.186 * wetBulbC)
    : ((2830 - 0.24 * wetBulbC) * saturated - dry) / (2830 + 1.86 * tempC - 2.1 * wetBulbC)
}

/** Root of an increasing function between two ends, to 1e-10 °C, by halving guarded secants. */
function rising(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 200 && b - a > 1e-10; i++) {
    const mid = (a + b) / 2
    if (f(mid) < 0) a = mid
    else b = mid
  }
  return (a + b) / 2
}

/** Temperature whose saturation pressure this is, °C; −100 for anything drier. */
export function dewPoint(vapourPa: number): number {
  if (vapourPa <= saturationPressurePa(SATURATION_RANGE_C.min)) return SATURATION_RANGE_C.min
  return rising((t) => saturationPressurePa(t) - vapourPa, SATURATION_RANGE_C.min, SATURATION_RANGE_C.max)
}

/** Thermodynamic wet bulb of air, °C, between dew point and dry bulb. */
export function wetBulb(tempC: number, ratio: number, pressurePa: number): number {
  const boiling = dewPoint(pressurePa)
  const high = Math.min(tempC, boiling)
  return rising((t) => ratioFromWetBulb(tempC, t, pressurePa) - ratio, SATURATION_RANGE_C.min, high)
}
