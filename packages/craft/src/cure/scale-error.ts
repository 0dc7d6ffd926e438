import { z } from 'zod'
import { massG } from '../schema.ts'

/** A scale: the step it shows, and how far it may be wrong (its maximum permissible error at that load, or its last check). */
export const scaleSchema = z.strictObject({ readabilityG: massG(), toleranceG: massG().optional() })
export type Scale = z.infer<typeof scaleSchema>

/**
 * Error of one weighing as the sum of two independent uniform errors: rounding to the step shown (half-width readability / 2) and the
 * scale's own error (half-width tolerance; 0 where none is given). Their sum has a trapezoidal distribution.
 */
export type WeighingError = { readonly wide: number; readonly narrow: number }

export function weighingError({ readabilityG, toleranceG = 0 }: Scale): WeighingError {
  const rounding = readabilityG / 2
  return { wide: Math.max(rounding, toleranceG), narrow: Math.min(rounding, toleranceG) }
}

/** Probability that the error is at most `x`. */
export function errorCdf({ wide, narrow }: WeighingError, x: number): number {
  const reach = wide + narrow
  if (x <= -reach) return 0
  if (x >= reach) return 1
  const flat = wide - narrow
  if (Math.abs(x) <= flat || narrow === 0) return 0.5 + x / (2 * wide)
  const tail = (reach - Math.abs(x)) ** 2 / (8 * wide * narrow)
  return x < 0 ? tail : 1 - tail
}

/** The error not exceeded with probability `p`, 0 < p < 1; closed form of the trapezoid's inverse. */
export function errorQuantile({ wide, narrow }: WeighingError, p: number): number {
  const q = Math.min(p, 1 - p)
  const sign = p < 0.5 ? -1 : 1
  // The flat part of the trapezoid starts where a tail holds narrow / (2 wide).
  const x = q < narrow / (2 * wide) ? wide + narrow - Math.sqrt(8 * wide * narrow * q) : 2 * wide * (0.5 - q)
  return sign * x
}

/** Half-width of the interval that holds 95 % of weighings, 2.5 % left out on each side, grams. */
export const halfWidth95 = (error: WeighingError): number => errorQuantile(error, 0.975)
