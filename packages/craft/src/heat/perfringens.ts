import type { Link } from './core-walk.ts'
import type { Source } from '../source.ts'

/**
 * Growth of Clostridium perfringens in uncured cooked beef: cardinal temperatures and best rate of the braised-beef set. Its
 * tail below 12 °C is kept although none grew there in three weeks: it errs on the safe side.
 */
const MIN_C = 10.3
const BEST_C = 43.5
const MAX_C = 53.4
const BEST_PER_HOUR = 5.64
/** Work to be done before growth: fitted so that 54.4 to 27 °C in 1.5 h gives the 1.1 log of the published cooked-beef model. */
const WORK = 3.6

export const perfringensSource: Source = {
  document:
    'One-step dynamic analysis of C. perfringens in roasted chicken and braised beef during cooling, Food Control (rate); Juneja, Marks & Thippareddi 2008, Food Microbiology 25:42-55 (lag, fitted here on one point of it)',
  section: 'cardinal temperature model after Rosso et al. 1995, lag after Baranyi & Roberts 1994',
  edition: 'abstracts',
  mark: 'computed',
}

/** Specific growth rate, ln per hour, at `tempC`; zero outside the cardinal temperatures. */
export function perfringensRate(tempC: number): number {
  if (tempC <= MIN_C || tempC >= MAX_C) return 0
  const above = tempC - MIN_C
  const bottom =
    (BEST_C - MIN_C) * ((BEST_C - MIN_C) * (tempC - BEST_C) - (BEST_C - MAX_C) * (BEST_C + MIN_C - 2 * tempC))
  return (BEST_PER_HOUR * (tempC - MAX_C) * above * above) / bottom
}

/** log10 growth after a summed rate (ln units), lag taken off: A = ln(e^-h0 (e^I - 1) + 1). */
export const growthOf = (summed: number): number =>
  // For a large I the formula is I - h0; exp would overflow past 700.
  (summed > 500 ? summed - WORK : Math.log1p(Math.exp(-WORK) * Math.expm1(summed))) / Math.LN10

/**
 * Sums the rate along a cooling core, by Simpson's rule on each straight segment, split so that no part spans more than 2 °C. Over a
 * hole, the core is taken at the warmer-growing of its ends: the estimate stays conservative.
 */
export function createPerfringens(chillStartMinute?: number) {
  let t0 = NaN
  let x0 = 0
  let r0 = 0
  let summed = 0
  let peak = -Infinity
  /** A reading of a walk; growth counts from the last minute at the peak, or from `chillStartMinute`. */
  const follow = (t: number, x: number, link: Link): void => {
    const r = x === x0 ? r0 : perfringensRate(x)
    const hours = (t - t0) / 60
    if (hours > 0 && (r > 0 || r0 > 0 || Math.abs(x - x0) > 2)) {
      if (link !== 'line')
        summed += hours * perfringensRate(Math.min(Math.max(BEST_C, Math.min(x, x0)), Math.max(x, x0)))
      else {
        const parts = Math.max(1, Math.ceil(Math.abs(x - x0) / 2))
        const h = hours / parts
        let left = r0
        for (let i = 1; i <= parts; i++) {
          const at = (share: number): number => perfringensRate(x0 + ((x - x0) * (i - 1 + share)) / parts)
          const right = i === parts ? r : at(1)
          summed += (h / 6) * (left + 4 * (x === x0 ? left : at(0.5)) + right)
          left = right
        }
      }
    }
    t0 = t
    x0 = x
    r0 = r
    if (chillStartMinute === undefined ? x >= peak : t <= chillStartMinute) {
      peak = x
      summed = 0
    }
  }
  return { follow, logGrowth: (): number => growthOf(summed) }
}
