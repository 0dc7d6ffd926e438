import { errorCdf, errorQuantile, halfWidth95, weighingError, type Scale } from './scale-error.ts'

/** Points the basis scale's error is read at, in equal steps of probability. */
const POINTS = 200

type Dose = {
  readonly agentG: number
  readonly basisG: number
  readonly scale: Scale
  readonly basisScale?: Scale | undefined
}

/**
 * The interval that holds 95 % of the true ratios agent / basis when both read what they should, 2.5 % left out on each side. Without a
 * basis scale the basis is taken as exact and the interval is closed form; with one, the ratio's distribution is the agent's trapezoid
 * averaged over the basis scale's, and its quantiles are found by bisection. No normal approximation. Errors of the two scales are
 * taken as independent; where one scale weighs both, entering it twice overstates the interval slightly.
 */
export function ratioInterval({ agentG, basisG, scale, basisScale }: Dose): { low: number; high: number } {
  const error = weighingError(scale)
  const half = halfWidth95(error)
  if (!basisScale) return { low: Math.max(0, agentG - half) / basisG, high: (agentG + half) / basisG }
  const basisError = weighingError(basisScale)
  const bases = Array.from({ length: POINTS }, (_, i) => basisG + errorQuantile(basisError, (i + 0.5) / POINTS)).filter(
    (b) => b > 0,
  )
  const cdf = (ratio: number): number =>
    bases.reduce((sum, b) => sum + errorCdf(error, ratio * b - agentG), 0) / bases.length
  const reach = error.wide + error.narrow
  const top = (agentG + reach) / bases[0]!
  return { low: Math.max(0, bisect(cdf, 0.025, 0, top)), high: bisect(cdf, 0.975, 0, top) }
}

function bisect(cdf: (x: number) => number, p: number, low: number, high: number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 60; i += 1) {
    const mid = (a + b) / 2
    if (cdf(mid) < p) a = mid
    else b = mid
  }
  return (a + b) / 2
}
