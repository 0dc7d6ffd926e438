import { z } from 'zod'
import { saltWaterActivity, NACL_G_PER_MOL } from '../dry/brine.ts'
import { workingSchema } from '../finding.ts'
import { pct, quantity } from '../schema.ts'
import type { Source } from '../source.ts'
import { cardinal } from './growth-range.ts'
import { chamberLog } from './schema.ts'
import { integrate, stretches } from './walk.ts'

export const staphSources: readonly Source[] = [
  {
    document: 'Medveďová et al. 2019, Italian Journal of Food Safety 8:8287',
    section: 'cardinal model of temperature and water activity for Staphylococcus aureus, 247 growth curves',
    edition: '2019',
    url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC6912147/',
    mark: 'seen',
  },
  {
    document: 'Buchanan et al. 1993, Journal of Food Safety 13:159',
    section: 'generation times at 12 to 42 °C and 0.5 to 12.5 % salt, against which the margins were set',
    edition: '1993',
    url: 'https://doi.org/10.1111/j.1745-4565.1993.tb00103.x',
    mark: 'computed',
  },
]

const TEMPERATURE = { min: 7.7, best: 40.6, max: 46.7 }
/** The exponent of the water activity term is not in the paper's readable part; the second order meets Buchanan's rates best. */
const WATER_ACTIVITY = { min: 0.808, best: 0.994, max: 1 }
const BEST_LN_PER_H = 1.97

/** Measured rates lie up to this many times over the model's: below 17 °C at low salt and pH 7, and above. */
const MARGIN = { cool: 3.2, warm: 1.5, coolBelowC: 17 } as const

/** Growth rate of Staphylococcus aureus with pH and all else at its best, ln per hour; water activity above the best counts as the best. */
export const staphRate = (tempC: number, aw: number): number =>
  BEST_LN_PER_H * cardinal(tempC, TEMPERATURE) * cardinal(Math.min(aw, WATER_ACTIVITY.best), WATER_ACTIVITY)

/** The same with the margin that covers the measured rates. */
export const staphRateUpper = (tempC: number, aw: number): number =>
  staphRate(tempC, aw) * (tempC < MARGIN.coolBelowC ? MARGIN.cool : MARGIN.warm)

export const staphInput = z
  .strictObject({
    log: chamberLog(),
    /** Water activity of the batter; from salt and water, or the best for growth, where it is not given. */
    aw: quantity('', { above: 0.6, max: 1 }).optional(),
    saltPct: pct().optional(),
    waterPct: quantity('% by mass', { above: 0, max: 100 }).optional(),
    /** Growth is counted until a pH at or below this was measured; 5.3 unless said. */
    targetPh: quantity('pH', { min: 4, max: 7 }).optional(),
  })
  .refine((i) => (i.saltPct === undefined) === (i.waterPct === undefined), {
    message: 'holds only one of saltPct and waterPct; allowed: both or neither',
  })

export const staphOutput = z.strictObject({
  /** Growth in tenfolds by the model as published, no lag. */
  logGrowth: z.number(),
  /** With the margin that covers measured rates. */
  logGrowthUpper: z.number(),
  estimate: z.literal(true),
  hours: z.number(),
  aw: z.number(),
  warnings: z.array(z.string()),
  working: workingSchema,
})
export type StaphInput = z.infer<typeof staphInput>
export type StaphOutput = z.infer<typeof staphOutput>

const LN10 = Math.LN10

/**
 * Estimate of the growth of Staphylococcus aureus while a sausage ferments, from the chamber's temperature and the batter's water activity: no
 * lag, no competition, no slowing by acid until the target pH was measured. It stands beside the degree-hours and decides nothing.
 */
export function staph(input: StaphInput): StaphOutput {
  const { log, saltPct, waterPct, targetPh = 5.3 } = input
  const fromSalt =
    saltPct === undefined || waterPct === undefined
      ? undefined
      : saltWaterActivity((saltPct / NACL_G_PER_MOL / waterPct) * 1000)
  const aw = input.aw ?? fromSalt ?? WATER_ACTIVITY.best
  const reached = log.find((r) => r.ph !== undefined && r.ph <= targetPh)
  const walked = stretches(log, reached?.hour)
  const holes = walked.filter((s) => s.hole)
  const grown = (rate: (tempC: number) => number): number =>
    walked.reduce((sum, s) => sum + (s.hole ? (s.to - s.from) * worst(s.a, s.b, rate) : integrate(s, rate)), 0) / LN10
  const logGrowth = grown((t) => staphRate(t, aw))
  const logGrowthUpper = grown((t) => staphRateUpper(t, aw))
  const hours = walked.reduce((s, x) => s + x.to - x.from, 0)
  return {
    logGrowth,
    logGrowthUpper,
    estimate: true,
    hours,
    aw,
    warnings: [
      'an estimate beside the degree-hours: it never releases a batch, and toxin is only told by a test',
      ...(reached ? [] : [`pH ${targetPh} was not measured: growth is counted to the last reading, and may go on`]),
      ...(holes.length > 0 ? ['the log has holes: each is counted at the worse of the temperatures at its ends'] : []),
      ...(input.aw === undefined && fromSalt === undefined
        ? ['no water activity and no salt given: taken at the best for growth']
        : []),
      ...(aw < 0.83 ? ['at this water activity growth has not been seen'] : []),
    ],
    working: [
      {
        step: 'water activity',
        expression:
          input.aw === undefined ? (fromSalt === undefined ? 'best for growth' : 'from salt and water') : 'as given',
        value: aw,
        unit: '',
      },
      {
        step: 'share of the best rate left by the water activity',
        expression: 'cardinal model, 0.808 to 0.994',
        value: cardinal(Math.min(aw, WATER_ACTIVITY.best), WATER_ACTIVITY),
        unit: '',
      },
      {
        step: 'hours counted',
        expression: reached ? `to the first pH at or below ${targetPh}` : 'to the last reading',
        value: hours,
        unit: 'h',
      },
      { step: 'growth', expression: '∫ 1.97 × γ(T) × γ(aw) dt / ln 10', value: logGrowth, unit: 'log10' },
      {
        step: 'growth with margin',
        expression: `× ${MARGIN.warm}, × ${MARGIN.cool} below ${MARGIN.coolBelowC} °C`,
        value: logGrowthUpper,
        unit: 'log10',
      },
    ],
  }
}

/** The highest rate anywhere between two temperatures. */
function worst(a: number, b: number, rate: (tempC: number) => number): number {
  const [low, high] = [Math.min(a, b), Math.max(a, b)]
  const between = [TEMPERATURE.best, MARGIN.coolBelowC - 1e-6].filter((t) => t > low && t < high)
  return Math.max(...[low, high, ...between].map(rate))
}
