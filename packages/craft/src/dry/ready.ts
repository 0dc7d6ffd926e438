import { inverse, leastSquares } from '../heat/least-squares.ts'
import { LONGEST_DAYS, type CourseInput } from './course-schema.ts'
import { DIFFUSIVITY_SD } from './diffusivity.ts'
import type { Product } from './product.ts'
import { FILM_SD } from './rim.ts'
import { AS_PUBLISHED, runCourse, type Factors } from './run.ts'
import { OWN_SOLUTES_SD } from './sorption.ts'

/** What is known of the factors before any weighing, as standard deviations of logarithms. */
export const PRIOR_SD: Factors = [DIFFUSIVITY_SD, FILM_SD, OWN_SOLUTES_SD]
/** Factors are kept within these logarithms of the published figures. */
const BOUND: Factors = [1.6, 2, 0.75]
/** A mean of three marked pieces stands for the batch within this, points of loss. An assumption. */
const WEIGHING_SD_PCT = 0.4
/** Two-sided 90 % of a normal spread. */
export const Z90 = 1.645
/** What the room will do between now and then, as a share of the time left, and what the straight lines of the fit miss. An assumption. */
const AHEAD_SD = 0.06

export type Fit = {
  readonly factors: Factors
  /** Covariance of the logarithms. */
  readonly covariance: readonly (readonly number[])[]
  readonly fitted: boolean
  readonly rmsPct?: number
}

export type Settings = { readonly product: Product; readonly stages: CourseInput['stages'] }

const diagonal = (sd: readonly number[]) => sd.map((s, i) => sd.map((_, j) => (i === j ? s * s : 0)))
const within = (x: number, i: 0 | 1 | 2): number => Math.max(-BOUND[i], Math.min(BOUND[i], x))
const asFactors = (x: readonly number[]): Factors => [within(x[0]!, 0), within(x[1]!, 1), within(x[2]!, 2)]

/** Factors from the weighings by least squares with the published figures as prior; without weighings, the published figures. */
export function fitFactors({ product, stages }: Settings, weighings: CourseInput['weighings']): Fit {
  if (!weighings) return { factors: AS_PUBLISHED, covariance: diagonal(PRIOR_SD), fitted: false }
  const days = weighings.map((w) => w.day)
  const { x, residuals, normal } = leastSquares({
    residuals: (factors) => {
      const { at } = runCourse({ product, stages, factors: asFactors(factors), days })
      return at.map((s, i) => (s.lossPct - weighings[i]!.weightLossPct) / WEIGHING_SD_PCT)
    },
    size: 3,
    priorSd: PRIOR_SD,
    bound: BOUND,
    differenceStep: 0.02,
  })
  const squares = residuals.reduce((s, r) => s + r * r, 0)
  // Pieces that scatter more than assumed widen the interval; ones that scatter less by luck do not narrow it.
  const spread = inverse(normal)
  // Nothing weighed can leave less known than there was before.
  const most = Math.min(...PRIOR_SD.map((sd, i) => sd ** 2 / spread[i]![i]!))
  const scatter = Math.max(1, Math.min(most, squares / Math.max(1, weighings.length - 1)))
  return {
    factors: asFactors(x),
    covariance: spread.map((row) => row.map((v) => v * scatter)),
    fitted: true,
    rmsPct: WEIGHING_SD_PCT * Math.sqrt(squares / weighings.length),
  }
}

export type Ready = { readonly early: number; readonly likely: number; readonly late?: number }

/** Days on which the target is met: likely, and the ends of 9 in 10. Undefined where the likely course never gets there. */
export function readyDay(settings: Settings, fit: Fit, lastWeighing: number): Ready | undefined {
  const when = (factors: Factors): number | undefined =>
    runCourse({ ...settings, factors, days: [], untilReadyBy: LONGEST_DAYS }).readyDay
  const likely = when(fit.factors)
  if (likely === undefined) return undefined
  // Of a day the course puts before the last weighing nothing is left: its spread is that of the whole time.
  const begun = likely > lastWeighing ? lastWeighing : 0
  const left = (day: number) => Math.max(1e-3, day - begun)
  let [early, late] = [AHEAD_SD ** 2, AHEAD_SD ** 2]
  let laterSquares = (Z90 * AHEAD_SD * left(likely)) ** 2
  // Along the independent directions of what is known, each end of 9 in 10 run by itself: a slow batch loses more time than a fast one gains.
  for (const direction of rootColumns(fit.covariance)) {
    for (const side of [1, -1]) {
      const day = when(asFactors(fit.factors.map((f, i) => f + side * Z90 * direction[i]!)))
      const apart = Math.log(left(day ?? Infinity) / left(likely)) / Z90
      if (apart < 0) early += apart ** 2
      else {
        late += apart ** 2
        laterSquares += ((day ?? Infinity) - likely) ** 2
      }
    }
  }
  const from = begun + left(likely) * Math.exp(-Z90 * Math.sqrt(early))
  const byRatio = begun + left(likely) * Math.exp(Z90 * Math.sqrt(late))
  // Where next to nothing is left, ratios multiply to centuries: beyond e times the time left the days themselves add up.
  const to = Math.min(byRatio, Math.max(begun + left(likely) * Math.E, likely + Math.sqrt(laterSquares)))
  const ends = { early: Math.min(likely, from), likely }
  return Number.isFinite(to) ? { ...ends, late: Math.max(likely, to) } : ends
}

/** Columns whose products with themselves add up to the matrix (Cholesky). */
function rootColumns(m: readonly (readonly number[])[]): number[][] {
  const n = m.length
  const l = m.map((row) => row.map(() => 0))
  for (let j = 0; j < n; j++)
    for (let i = j; i < n; i++) {
      let sum = m[i]![j]!
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!
      l[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : l[j]![j]! > 0 ? sum / l[j]![j]! : 0
    }
  return l.map((_, j) => l.map((row) => row[j]!))
}
