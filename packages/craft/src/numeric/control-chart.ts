import { z } from 'zod'
import { capability, capabilitySchema } from './capability.ts'
import { workingSchema } from '../finding.ts'
import { list, quantity } from '../schema.ts'
import type { Source } from '../source.ts'

export const runRuleSource: Source = {
  document:
    'Western Electric, Statistical Quality Control Handbook; as in the NIST/SEMATECH e-Handbook of Statistical Methods',
  section: '6.3.2 What are variables control charts? (zone tests, trend), 6.3.2.2 Individuals control charts',
  edition: '1956; e-Handbook 2012',
  mark: 'from-memory',
}

/** Expected range of two values from one normal distribution, in standard deviations: 2/√π. */
export const D2 = 2 / Math.sqrt(Math.PI)
/** Upper limit of a moving range of two, in mean moving ranges: 1 + 3 √(2 − 4/π)/d2. */
export const D4 = 1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / D2

const figure = () => quantity('unit of the chart', { min: -1e9, max: 1e9 })

export const controlChartInput = z
  .strictObject({
    /** Figures in the order they arose. */
    values: list(figure(), { min: 2, max: 10_000 }),
    /** How many of the first figures the limits are drawn from; all unless given. */
    baseline: quantity('figures', { min: 2, max: 10_000 }).optional(),
    /** Least and most the figure may be, for the capability. */
    lowest: figure().optional(),
    highest: figure().optional(),
  })
  .superRefine(({ values, baseline, lowest, highest }, ctx) => {
    if (baseline !== undefined && (!Number.isInteger(baseline) || baseline > values.length))
      ctx.addIssue({
        code: 'custom',
        path: ['baseline'],
        message: `is ${baseline}; allowed: a whole number up to the ${values.length} figures given`,
      })
    if (lowest !== undefined && highest !== undefined && lowest >= highest)
      ctx.addIssue({
        code: 'custom',
        path: ['lowest'],
        message: `is ${lowest}; allowed: less than highest, ${highest}`,
      })
  })
export type ControlChartInput = z.infer<typeof controlChartInput>

export const runRules = ['beyond-limit', 'two-of-three', 'four-of-five', 'eight-on-one-side', 'six-in-a-row'] as const
export type RunRule = (typeof runRules)[number]

export const controlChartOutput = z.strictObject({
  centre: z.number(),
  /** Standard deviation from the mean moving range. */
  sigma: z.number(),
  upper: z.number(),
  lower: z.number(),
  meanRange: z.number(),
  upperRange: z.number(),
  /** Points that ask for a cause, by the rule that found them; `at` counts from 0. */
  signals: z.array(z.strictObject({ at: z.number(), rule: z.enum(runRules), because: z.string() })),
  /** Distance of the centre to the nearer limit in three standard deviations; absent without a limit or without spread. */
  cpk: z.number().optional(),
  /** What that says of the limit, with its interval; absent where cpk is. */
  capability: capabilitySchema.optional(),
  /** Why the limits are to be taken with care. */
  caution: z.string().optional(),
  working: workingSchema,
})
export type ControlChart = z.infer<typeof controlChartOutput>
type Signal = ControlChart['signals'][number]

const few = 20
const sum = (xs: readonly number[]): number => xs.reduce((s, x) => s + x, 0)
const mean = (xs: readonly number[]): number => sum(xs) / xs.length

/** The zone tests over the last few points, looked at for each point in turn. */
function signalsIn(z: readonly number[]): Signal[] {
  const found: Signal[] = []
  const say = (at: number, rule: RunRule, because: string) => found.push({ at, rule, because })
  const last = (i: number, n: number): readonly number[] => z.slice(Math.max(0, i - n + 1), i + 1)
  z.forEach((x, i) => {
    if (Math.abs(x) > 3)
      say(i, 'beyond-limit', `${Math.abs(x).toFixed(1)} standard deviations ${x > 0 ? 'above' : 'below'} the centre`)
    for (const side of [1, -1]) {
      const where = side > 0 ? 'above' : 'below'
      const beyond = (n: number, by: number): number => last(i, n).filter((v) => v * side > by).length
      if (x * side > 2 && i >= 2 && beyond(3, 2) >= 2)
        say(i, 'two-of-three', `two of three more than two standard deviations ${where} the centre`)
      if (x * side > 1 && i >= 4 && beyond(5, 1) >= 4)
        say(i, 'four-of-five', `four of five more than one standard deviation ${where} the centre`)
      if (i >= 7 && beyond(8, 0) === 8) say(i, 'eight-on-one-side', `eight in a row ${where} the centre`)
      const run = last(i, 6)
      if (run.length === 6 && run.every((v, j) => j === 0 || (v - run[j - 1]!) * side > 0))
        say(i, 'six-in-a-row', `six in a row, each ${side > 0 ? 'higher' : 'lower'} than the one before`)
    }
  })
  return found
}

/**
 * Chart of single figures with its moving range: centre, three-sigma limits, run rules, and capability against a limit.
 *
 * @source Shewhart's individuals chart; d2 and D4 of two are exact; run rules: see {@link runRuleSource}
 */
export function controlChart({ values, baseline = values.length, lowest, highest }: ControlChartInput): ControlChart {
  const base = values.slice(0, baseline)
  const centre = mean(base)
  const meanRange = mean(base.slice(1).map((x, i) => Math.abs(x - base[i]!)))
  const sigma = meanRange / D2
  // Figures that are all the same have no spread: nothing lies beyond it, and a later one that differs does at once.
  const z = values.map((x) => (x === centre ? 0 : (x - centre) / sigma))
  const sides = [
    ...(highest === undefined ? [] : [highest - centre]),
    ...(lowest === undefined ? [] : [centre - lowest]),
  ]
  const signals = signalsIn(z)
  const cpk = sigma > 0 && sides.length > 0 ? Math.min(...sides) / (3 * sigma) : undefined
  return {
    centre,
    sigma,
    upper: centre + 3 * sigma,
    lower: centre - 3 * sigma,
    meanRange,
    upperRange: D4 * meanRange,
    signals,
    ...(cpk === undefined
      ? {}
      : {
          cpk,
          capability: capability({ cpk, figures: base.length, signals: new Set(signals.map((s) => s.at)).size }),
        }),
    ...(base.length < few
      ? {
          caution: `Limits from ${base.length} figures move with each new one; from about ${few} on they hold (common practice).`,
        }
      : {}),
    working: [
      { step: 'centre', expression: `mean of ${base.length} figures`, value: centre, unit: '' },
      { step: 'mean moving range', expression: 'mean of |x(i) − x(i − 1)|', value: meanRange, unit: '' },
      { step: 'standard deviation', expression: `mean moving range / ${D2.toFixed(4)}`, value: sigma, unit: '' },
      { step: 'upper limit', expression: 'centre + 3 × standard deviation', value: centre + 3 * sigma, unit: '' },
      { step: 'lower limit', expression: 'centre − 3 × standard deviation', value: centre - 3 * sigma, unit: '' },
    ],
  }
}
