import type { Link } from './core-walk.ts'
import { HAND_MINUTES } from './reading.ts'

/** Rate of death as a D and z at a reference; below `lowestC` no credit, above `highestC` no more than there. */
export type DeathRate = {
  readonly referenceC: number
  readonly dMinutes: number
  readonly zC: number
  readonly lowestC?: number
  readonly highestC?: number
}

const FLAT_C = 1e-7

/**
 * Equivalent minutes at the reference of a straight line from `x0` to `x1` °C over `dt` minutes, exact:
 * integral of 10^((T - Tref)/z) dt = dt * z / ((x1 - x0) ln 10) * (L1 - L0).
 */
export function equivalentOfSegment(x0: number, x1: number, dt: number, rate: DeathRate): number {
  const low = rate.lowestC ?? -Infinity
  const high = rate.highestC ?? Infinity
  if (Math.max(x0, x1) < low || dt <= 0) return 0
  const span = x1 - x0
  const lethal = (x: number): number => 10 ** ((x - rate.referenceC) / rate.zC)
  if (Math.abs(span) < FLAT_C) return dt * lethal(Math.min(x0, high))
  const [a, b] = span > 0 ? [x0, x1] : [x1, x0]
  const from = Math.min(Math.max(a, low), high)
  const to = Math.min(Math.max(b, low), high)
  const perDegree = dt / (b - a)
  const inside = to > from ? (perDegree * rate.zC * (lethal(to) - lethal(from))) / Math.LN10 : 0
  return inside + (b > high ? perDegree * (b - Math.max(a, high)) * lethal(high) : 0)
}

/** Adds up equivalent minutes reading by reading; a step longer than `joinedMinutes` gives no credit. */
export function createDeathIntegral(rate: DeathRate, joinedMinutes = Infinity) {
  let t0 = NaN
  let x0 = 0
  let minutes = 0
  const low = rate.lowestC ?? -Infinity
  return {
    /** A reading of a walk. A hole earns nothing; a long step by hand earns what its cooler end does, one over an hour nothing. */
    follow: (t: number, x: number, link: Link): void => {
      if (x0 >= low || x >= low) {
        if (link === 'line') minutes += equivalentOfSegment(x0, x, t - t0, rate)
        else if (link === 'long-step' && t - t0 <= HAND_MINUTES)
          minutes += equivalentOfSegment(Math.min(x0, x), Math.min(x0, x), t - t0, rate)
      }
      t0 = t
      x0 = x
    },
    push: (t: number, x: number): void => {
      if ((x0 >= low || x >= low) && t - t0 <= joinedMinutes + 1e-9) minutes += equivalentOfSegment(x0, x, t - t0, rate)
      t0 = t
      x0 = x
    },
    minutes: (): number => minutes,
  }
}
