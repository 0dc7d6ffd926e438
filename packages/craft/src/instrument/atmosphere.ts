import type { Source } from '../source.ts'

export const icaoAtmosphere: Source = {
  document: 'ICAO Doc 7488, Manual of the ICAO Standard Atmosphere (ISO 2533, U.S. Standard Atmosphere 1976)',
  section: 'sea level 101 325 Pa and 288.15 K, gradient −6.5 K/km to 11 km, g 9.80665 m/s², R 287.05287 J/(kg·K)',
  edition: '1993',
  mark: 'quoted',
}

export const SEA_LEVEL_PA = 101_325
const SEA_LEVEL_K = 288.15
const GRADIENT = 0.0065
const GRAVITY = 9.80665
const AIR = 287.05287

/** Heights the gradient holds for. */
export const ALTITUDE_M = { min: -500, max: 9000 } as const

/** Pressure of the standard atmosphere in Pa at a height in metres above sea level, −500 to 9000 m (geopotential; the difference from a map's height is under 0.05 % of pressure up to 3000 m). */
export const standardPressurePa = (altitudeM: number): number =>
  SEA_LEVEL_PA * (1 - (GRADIENT * altitudeM) / SEA_LEVEL_K) ** (GRAVITY / (AIR * GRADIENT))
