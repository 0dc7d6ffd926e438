/** Natural logarithm of the gamma function for z > 0, by the Lanczos series with g = 7 (nine terms), about 1 part in 1e13. */
function logGamma(z: number): number {
  const c = [
    0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ]
  const x = z - 1
  const t = x + 7.5
  const sum = c.slice(1).reduce((s, v, i) => s + v / (x + i + 1), c[0]!)
  return 0.5 * Math.log(2 * Math.PI) + (x + 0.5) * Math.log(t) - t + Math.log(sum)
}

/** Continued fraction of the incomplete beta function (modified Lentz). */
function betaFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300
  const off = (v: number) => (Math.abs(v) < tiny ? tiny : v)
  let c = 1
  let d = 1 / off(1 - ((a + b) * x) / (a + 1))
  let h = d
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / off(1 + even * d)
    c = off(1 + even / c)
    h *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / off(1 + odd * d)
    c = off(1 + odd / c)
    h *= d * c
    if (Math.abs(d * c - 1) < 1e-15) break
  }
  return h
}

/** Regularised incomplete beta function I_x(a, b). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x))
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(a, b, x)) / a : 1 - (front * betaFraction(b, a, 1 - x)) / b
}

/** Probability that Student's t with `freedom` degrees of freedom lies below `t`. */
export function studentBelow(t: number, freedom: number): number {
  const tail = incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5) / 2
  return t < 0 ? tail : 1 - tail
}

/**
 * Point of Student's t distribution below which the probability `p` lies, by bisection on the distribution.
 *
 * @param p strictly between 0 and 1
 * @param freedom degrees of freedom, 1 or more
 * @throws RangeError outside those ranges
 * @source distribution by the incomplete beta function, Abramowitz & Stegun 26.7.1 and 26.5.8; held to printed t tables by the tests
 */
export function studentQuantile(p: number, freedom: number): number {
  if (!(p > 0 && p < 1) || !(freedom >= 1))
    throw new RangeError(
      `studentQuantile(${p}, ${freedom}): p must lie strictly between 0 and 1 and freedom be 1 or more`,
    )
  let [low, high] = [-1, 1]
  while (studentBelow(low, freedom) > p) low *= 2
  while (studentBelow(high, freedom) < p) high *= 2
  for (let i = 0; i < 200 && high - low > 1e-13 * Math.max(1, Math.abs(high)); i += 1) {
    const mid = (low + high) / 2
    if (studentBelow(mid, freedom) < p) low = mid
    else high = mid
  }
  return (low + high) / 2
}
