/**
 * Exact conduction from uniform start to a constant medium through a film: the Fourier–Bessel series of the infinite cylinder and the
 * Fourier series of the slab (Carslaw & Jaeger, Conduction of Heat in Solids, 7.7 and 3.11), independent of the solver under test.
 */

/** Bessel function of the first kind, orders 0 and 1, by the trapezoid rule on its integral: exact to rounding for |x| < 100. */
export function bessel(order: 0 | 1, x: number): number {
  const n = 160
  let sum = 0
  for (let i = 0; i < n; i++) {
    const tau = (Math.PI * (i + 0.5)) / n
    sum += Math.cos(order * tau - x * Math.sin(tau))
  }
  return sum / n
}

function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high]
  const rising = f(b) > f(a)
  for (let i = 0; i < 80; i++) {
    const mid = (a + b) / 2
    if (f(mid) < 0 === rising) a = mid
    else b = mid
  }
  return (a + b) / 2
}

/** Zeros of J1, which fence the eigenvalues in; McMahon's start refined by halving. */
const j1Zeros = Array.from({ length: 60 }, (_, n) => {
  if (n === 0) return 0
  const guess = Math.PI * (n + 0.25) - 3 / (8 * Math.PI * (n + 0.25))
  return root((x) => bessel(1, x), guess - 0.3, guess + 0.3)
})

export type Term = { zeta: number; c: number }

/** Roots of ζ·J1(ζ) = Bi·J0(ζ) and their coefficients. */
export function cylinderTerms(biot: number, count = 28): Term[] {
  return Array.from({ length: count }, (_, n) => {
    const zeta = root((x) => x * bessel(1, x) - biot * bessel(0, x), j1Zeros[n]! + 1e-12, j1Zeros[n + 1]! - 1e-12)
    const [j0, j1] = [bessel(0, zeta), bessel(1, zeta)]
    return { zeta, c: ((2 / zeta) * j1) / (j0 * j0 + j1 * j1) }
  })
}

/** Roots of ζ·tan ζ = Bi (Bi on the half thickness) and their coefficients. */
export function slabTerms(biot: number, count = 40): Term[] {
  return Array.from({ length: count }, (_, n) => {
    const zeta = root((x) => x * Math.sin(x) - biot * Math.cos(x), n * Math.PI, (n + 0.5) * Math.PI)
    return { zeta, c: (4 * Math.sin(zeta)) / (2 * zeta + Math.sin(2 * zeta)) }
  })
}

/** Remaining share of the first difference at a place 0 (core) to 1 (surface) and Fourier number. */
export const cylinderShare = (terms: readonly Term[], place: number, fourier: number): number =>
  terms.reduce((s, { zeta, c }) => s + c * Math.exp(-zeta * zeta * fourier) * bessel(0, zeta * place), 0)
export const slabShare = (terms: readonly Term[], place: number, fourier: number): number =>
  terms.reduce((s, { zeta, c }) => s + c * Math.exp(-zeta * zeta * fourier) * Math.cos(zeta * place), 0)
