import type { Composition } from '../composition.ts'
import type { BodyMaterial } from './body.ts'
import { massFractions, mixtureProperties, specificHeatPolynomial } from './properties.ts'

/** Constant properties, as a maker may give them. */
export type ConstantProperties = {
  readonly conductivityWPerMK: number
  readonly densityKgPerM3: number
  readonly specificHeatJPerKgK: number
}

/** Temperatures through which the mixture's conductivity is interpolated, °C: near the Chebyshev points of −10 to 110 °C. */
const KNOTS = [-5.5, 27, 73, 105.5] as const

/** Coefficients of the cubic through four points, by divided differences. */
function cubicThrough(xs: readonly number[], ys: readonly number[]): [number, number, number, number] {
  const d = [...ys]
  for (let j = 1; j < 4; j++) for (let i = 3; i >= j; i--) d[i] = (d[i]! - d[i - 1]!) / (xs[i]! - xs[i - j]!)
  const c = [d[3]!, 0, 0, 0]
  for (let i = 2; i >= 0; i--) {
    for (let j = 3; j > 0; j--) c[j] = c[j - 1]! - xs[i]! * c[j]!
    c[0] = d[i]! - xs[i]! * c[0]!
  }
  return c as [number, number, number, number]
}

/**
 * The body's material. Mass does not change with temperature and the mesh does not move, so density is that at the start: where
 * a casing swells with its filling, R²·ρ stays what it was and the conduction time with it.
 * @param factor multiplies the conductivity, for a fit to measured curves
 */
export function materialOf(
  composition: Composition,
  startC: number,
  given?: ConstantProperties,
  factor = 1,
): BodyMaterial {
  if (given) {
    const { conductivityWPerMK, densityKgPerM3, specificHeatJPerKgK } = given
    return {
      heat: [densityKgPerM3 * specificHeatJPerKgK, 0, 0],
      conductivity: [conductivityWPerMK * factor, 0, 0, 0],
      density: densityKgPerM3,
      waterShare: massFractions(composition).water,
    }
  }
  const fractions = massFractions(composition)
  const { density } = mixtureProperties(fractions, startC)
  const [a, b, c] = specificHeatPolynomial(fractions)
  const k = cubicThrough(
    KNOTS,
    KNOTS.map((t) => factor * mixtureProperties(fractions, t).conductivity),
  )
  return {
    heat: [density * a, (density * b) / 2, (density * c) / 3],
    conductivity: k,
    density,
    waterShare: fractions.water,
  }
}
