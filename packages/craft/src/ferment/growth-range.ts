/**
 * Share of the best growth rate at one factor, 0 to 1, by the cardinal model of second order: zero at and beyond both ends, one at the optimum.
 * @source Rosso et al. 1995, Appl. Environ. Microbiol. 61:610–616, algebra as in the companion code of Costa et al. 2021
 */
export function cardinal(x: number, { min, best, max }: { min: number; best: number; max: number }): number {
  if (x <= min || x >= max) return 0
  const above = best - min
  return ((x - max) * (x - min) ** 2) / (above * (above * (x - best) - (best - max) * (best + min - 2 * x)))
}
