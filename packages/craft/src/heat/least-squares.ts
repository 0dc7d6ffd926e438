/** Solve A·x = b for a symmetric positive matrix in place of a library call: a handful of unknowns. */
export function solveSymmetric(a: readonly (readonly number[])[], b: readonly number[]): number[] {
  const n = b.length
  const l = a.map((row) => [...row])
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < j; k++) for (let i = j; i < n; i++) l[i]![j]! -= l[i]![k]! * l[j]![k]!
    const root = Math.sqrt(Math.max(l[j]![j]!, 1e-300))
    for (let i = j; i < n; i++) l[i]![j]! /= root
  }
  const x = [...b]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i]![k]! * x[k]!
    x[i]! /= l[i]![i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k]![i]! * x[k]!
    x[i]! /= l[i]![i]!
  }
  return x
}

export type Problem = {
  /** Residuals at a point, the same count each time, already divided by their weights' scale. */
  readonly residuals: (x: readonly number[]) => number[]
  readonly size: number
  /** First guess; the prior's mean where none is given. */
  readonly start?: readonly number[]
  /** Where the prior sits; zero where nothing is given. */
  readonly priorMean?: readonly number[]
  /** Prior standard deviation of each unknown, in units of the residuals' scale. */
  readonly priorSd: readonly number[]
  readonly bound: readonly number[]
  /** Share of the cost a round must take off for another to follow; 1e-4 unless given. */
  readonly worthwhile?: number
  /** Step of the difference quotients: one for all unknowns, or one each. */
  readonly differenceStep: number | readonly number[]
}
export type Solution = { x: number[]; residuals: number[]; normal: number[][]; rounds: number }

/** Least squares by Levenberg and Marquardt with a prior and bounds held by clipping. */
export function leastSquares({
  residuals,
  size,
  start,
  priorMean = Array.from({ length: size }, () => 0),
  priorSd,
  bound,
  worthwhile = 1e-4,
  differenceStep,
}: Problem): Solution {
  const stepOf = (j: number): number => (typeof differenceStep === 'number' ? differenceStep : differenceStep[j]!)
  let x = [...(start ?? priorMean)]
  let r = residuals(x)
  const cost = (r: readonly number[], x: readonly number[]) =>
    r.reduce((s, v) => s + v * v, 0) + x.reduce((s, v, i) => s + ((v - priorMean[i]!) / priorSd[i]!) ** 2, 0)
  let best = cost(r, x)
  let damping = 1e-3
  let normal: number[][] = []
  let rounds = 0
  for (; rounds < 20; rounds++) {
    const columns = x.map((_, j) => {
      const moved = x.map((v, i) => (i === j ? v + stepOf(j) : v))
      return residuals(moved).map((v, i) => (v - r[i]!) / stepOf(j))
    })
    normal = columns.map((a, i) =>
      columns.map((b, j) => a.reduce((s, v, k) => s + v * b[k]!, 0) + (i === j ? priorSd[i]! ** -2 : 0)),
    )
    const gradient = columns.map(
      (a, i) => -a.reduce((s, v, k) => s + v * r[k]!, 0) - (x[i]! - priorMean[i]!) / priorSd[i]! ** 2,
    )
    let improved = false
    for (let tries = 0; tries < 6; tries++) {
      const step = solveSymmetric(
        normal.map((row, i) => row.map((v, j) => (i === j ? v * (1 + damping) : v))),
        gradient,
      )
      const next = x.map((v, i) => Math.max(-bound[i]!, Math.min(bound[i]!, v + step[i]!)))
      const rNext = residuals(next)
      const c = cost(rNext, next)
      if (c < best) {
        improved = best - c > worthwhile * best
        ;[x, r, best] = [next, rNext, c]
        damping = Math.max(1e-9, damping / 10)
        break
      }
      damping *= 10
    }
    if (!improved) break
  }
  return { x, residuals: r, normal, rounds }
}

/** Inverse of a symmetric positive matrix. */
export const inverse = (a: readonly (readonly number[])[]): number[][] =>
  a.map((_, j) =>
    solveSymmetric(
      a,
      a.map((_, i) => (i === j ? 1 : 0)),
    ),
  )
