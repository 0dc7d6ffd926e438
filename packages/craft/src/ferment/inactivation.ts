import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { hours, oneOf } from '../schema.ts'
import type { Source } from '../source.ts'
import { chamberLog } from './schema.ts'
import { integrate, stretches } from './walk.ts'

export const inactivationSources: readonly Source[] = [
  {
    document: 'McQuestin, Shadbolt & Ross 2009, Applied and Environmental Microbiology 75:6963–6972',
    section: 'Table 2, equation 2: 484 rates of 44 studies, temperature explains 61 % of the variance',
    edition: '2009',
    url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC2786527/',
    mark: 'seen',
  },
  {
    document: 'Costa et al. 2021, Microbial Risk Analysis, data of two salami trials with Salmonella',
    section: 'shoulder of about 140 h and half the rate of E. coli afterwards, 16 to 21 °C',
    edition: '2021',
    url: 'https://doi.org/10.1016/j.mran.2021.100177',
    mark: 'computed',
  },
]

/** Where acid and dryness together hold growth off, the equation speaks. */
const NO_GROWTH = { phBelow: 5, awBelow: 0.95 } as const
/** The equation holds to 47 °C; kept cold, sausages lost far less than it says, so the cold is not counted. */
const E_COLI = { fromC: 10, toC: 47, factor: 1, shoulderH: 0 } as const
/** Two trials of one laboratory: nothing for some six days, then half of the equation. Supported only at these temperatures. */
const SALMONELLA = { fromC: 16, toC: 21, factor: 0.5, shoulderH: 140 } as const
/** Rates scatter about the equation by a factor of two to three. */
const SCATTER = 3

/** log10 lost per hour by the equation of McQuestin et al., °C. */
export const inactivationRate = (tempC: number): number => Math.exp(30.974 - 10_483 / (tempC + 273.15))

export const inactivationInput = z.strictObject({
  organism: oneOf(['e-coli', 'salmonella', 'listeria']),
  /** Temperature of the product, with pH and water activity where they were measured. */
  log: chamberLog(),
  /** Hour from which growth is known to be stopped; else the first at which pH and water activity both show it. */
  growthStoppedHour: hours().optional(),
})

export const inactivationOutput = z.strictObject({
  logReduction: z.number(),
  /** The scatter of the published rates. */
  low: z.number(),
  high: z.number(),
  estimate: z.literal(true),
  creditedHours: z.number(),
  warnings: z.array(z.string()),
  working: workingSchema,
})
export type InactivationInput = z.infer<typeof inactivationInput>
export type InactivationOutput = z.infer<typeof inactivationOutput>

/**
 * Estimate of the slow death of E. coli or Salmonella in an acid and drying sausage by its temperature. Listeria gets no credit: published trials
 * show less than one tenfold. Never in place of a validated process or a test.
 */
export function inactivation(input: InactivationInput): InactivationOutput {
  const { organism, log } = input
  const always = [
    'an estimate with a spread of three times either way: it never stands in for a validated process or a test',
  ]
  if (organism === 'listeria')
    return {
      ...nothing,
      warnings: [...always, 'Listeria gets no credit: under one tenfold in published fermentations and dryings'],
    }
  const stopped = input.growthStoppedHour ?? whenStopped(log)
  if (stopped === undefined)
    return {
      ...nothing,
      warnings: [
        ...always,
        `nothing shows that growth was stopped, so nothing is credited: a pH below ${NO_GROWTH.phBelow} with a water activity below ${NO_GROWTH.awBelow}, both measured, or the hour it is known from`,
      ],
    }
  const { fromC, toC, factor, shoulderH } = organism === 'e-coli' ? E_COLI : SALMONELLA
  const begin = Math.max(stopped, log[0]!.hour + shoulderH)
  const rate = (t: number): number => (t < fromC || t > toC ? 0 : factor * inactivationRate(t))
  let [logReduction, creditedHours, holes] = [0, 0, 0]
  for (const s of stretches(log)) {
    if (s.to <= begin) continue
    // What nobody saw is not credited.
    if (s.hole) {
      holes++
      continue
    }
    const from = Math.max(s.from, begin)
    const a = s.a + ((s.b - s.a) * (from - s.from)) / (s.to - s.from)
    const rest = { ...s, from, a }
    logReduction += integrate(rest, rate)
    creditedHours += integrate(rest, (t) => (rate(t) > 0 ? 1 : 0))
  }
  return {
    logReduction,
    low: logReduction / SCATTER,
    high: logReduction * SCATTER,
    estimate: true,
    creditedHours,
    warnings: [
      ...always,
      `time outside ${fromC} to ${toC} °C is not credited`,
      ...(organism === 'salmonella' ? ['for Salmonella two trials of one laboratory stand behind it'] : []),
      ...(holes > 0 ? ['the log has holes; nothing is credited across them'] : []),
    ],
    working: [
      {
        step: 'growth stopped',
        expression: input.growthStoppedHour === undefined ? 'pH and water activity measured' : 'as given',
        value: stopped,
        unit: 'h',
      },
      {
        step: 'credited from',
        expression: shoulderH > 0 ? `not before ${shoulderH} h` : 'the same',
        value: begin,
        unit: 'h',
      },
      { step: 'hours credited', expression: `between ${fromC} and ${toC} °C`, value: creditedHours, unit: 'h' },
      {
        step: 'reduction',
        expression: `∫ ${factor === 1 ? '' : `${factor} × `}exp(30.974 − 10483 / T) dt`,
        value: logReduction,
        unit: 'log10',
      },
    ],
  }
}

const nothing = { logReduction: 0, low: 0, high: 0, estimate: true as const, creditedHours: 0, working: [] }

/** First hour at which the last pH and the last water activity measured both hold growth off. */
function whenStopped(log: InactivationInput['log']): number | undefined {
  let [ph, aw]: [number | undefined, number | undefined] = [undefined, undefined]
  for (const r of log) {
    ph = r.ph ?? ph
    aw = r.aw ?? aw
    if (ph !== undefined && aw !== undefined && ph < NO_GROWTH.phBelow && aw < NO_GROWTH.awBelow) return r.hour
  }
  return undefined
}
