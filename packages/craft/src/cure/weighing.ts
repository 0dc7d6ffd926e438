import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { agentCompositionSchema } from '../materials/schema.ts'
import { spanWords } from '../quantity/span-words.ts'
import { massKg, ppm } from '../schema.ts'
import { describeAgent, strengthOf } from './agent.ts'
import { nitriteCaution } from './caution.ts'
import { ratioInterval } from './dose-interval.ts'
import { halfWidth95, scaleSchema, weighingError, type Scale } from './scale-error.ts'
import { step } from './working.ts'

/** A band of ingoing nitrite, as sodium nitrite. */
export const bandSchema = z
  .strictObject({ lowPpm: ppm(), highPpm: ppm() })
  .refine((b) => b.lowPpm <= b.highPpm, { message: 'has lowPpm above highPpm; allowed: lowPpm at most highPpm' })

export const weighingInput = z.strictObject({
  agentKg: massKg(),
  composition: agentCompositionSchema,
  basisKg: massKg(),
  scale: scaleSchema,
  basisScale: scaleSchema.optional(),
  /** The band of ingoing nitrite the batch must lie in, as sodium nitrite. */
  target: bandSchema,
})
export type WeighingInput = z.infer<typeof weighingInput>

export const weighingOutput = z.strictObject({
  nitritePpm: z.number(),
  lowPpm: z.number(),
  highPpm: z.number(),
  verdict: z.enum(['fit', 'unfit']),
  /** Smallest batch, same dose per kg, at which the interval lies in the band; null where no batch size does. */
  smallestFitBasisKg: z.number().nullable(),
  advice: z.array(z.string()),
  cautions: z.array(z.string()),
  working: workingSchema,
})
export type Weighing = z.infer<typeof weighingOutput>

/** Steps kitchen and laboratory scales come with, coarsest first, grams. */
const SCALE_STEPS_G = [100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.001]
const LARGEST_BATCH_KG = 100_000

type Interval = { readonly lowPpm: number; readonly highPpm: number }

/** As given, without the noise a conversion leaves in the last digits. */
const short = (x: number): string => String(Number(x.toPrecision(7)))
const shown = (x: number): string => String(Number(x.toPrecision(3)))

function intervalOf(input: WeighingInput, basisKg = input.basisKg, scale = input.scale): Interval {
  const { nitrite } = strengthOf(input.composition)
  const ratio = ratioInterval({
    agentG: (input.agentKg / input.basisKg) * basisKg * 1000,
    basisG: basisKg * 1000,
    scale,
    basisScale: input.basisScale,
  })
  return { lowPpm: ratio.low * nitrite * 1e6, highPpm: ratio.high * nitrite * 1e6 }
}

const inside = ({ lowPpm, highPpm }: Interval, band: WeighingInput['target']): boolean =>
  lowPpm >= band.lowPpm - 1e-9 && highPpm <= band.highPpm + 1e-9

/** The interval narrows as the batch grows, so the first batch that fits is found by bisection on the logarithm of its size. */
function smallestFit(input: WeighingInput, nitritePpm: number): number | null {
  const { target } = input
  if (nitritePpm < target.lowPpm || nitritePpm > target.highPpm) return null
  if (!inside(intervalOf(input, LARGEST_BATCH_KG), target)) return null
  let [low, high] = [1e-4, LARGEST_BATCH_KG]
  if (inside(intervalOf(input, low), target)) return low
  for (let i = 0; i < 60; i += 1) {
    const mid = Math.sqrt(low * high)
    if (inside(intervalOf(input, mid), target)) high = mid
    else low = mid
  }
  return high
}

const scaled = (scale: Scale, readabilityG: number): Scale =>
  scale.toleranceG === undefined
    ? { readabilityG }
    : { readabilityG, toleranceG: (scale.toleranceG * readabilityG) / scale.readabilityG }

function finerScale(input: WeighingInput): string[] {
  const step = SCALE_STEPS_G.find(
    (g) =>
      g < input.scale.readabilityG && inside(intervalOf(input, input.basisKg, scaled(input.scale, g)), input.target),
  )
  if (step === undefined)
    return [
      'No finer scale alone would do: the scale the meat is weighed on, or the room between the dose and the band, is what is short.',
    ]
  const then = intervalOf(input, input.basisKg, scaled(input.scale, step))
  return [
    `A scale that shows ${step} g${input.scale.toleranceG === undefined ? '' : ' with its tolerance finer in proportion'} would give ${spanWords(then.lowPpm, then.highPpm)} mg/kg and fit.`,
  ]
}

function adviceFor(
  input: WeighingInput,
  nitritePpm: number,
  found: Interval,
  fits: boolean,
  smallest: number | null,
): string[] {
  const { target, basisKg, scale } = input
  const span = `This weighing gives ${spanWords(found.lowPpm, found.highPpm)} mg/kg of nitrite (as sodium nitrite, 95 % of the time) around ${shown(nitritePpm)}; wanted: ${target.lowPpm} to ${target.highPpm}.`
  const unknown =
    scale.toleranceG === undefined
      ? [
          "The scale's own tolerance was not given and counts as nothing: check the scale with a test weight near this load, and enter the tolerance.",
        ]
      : []
  if (fits) return [span, ...unknown]
  if (nitritePpm < target.lowPpm || nitritePpm > target.highPpm) {
    const middle = (input.agentKg * (target.lowPpm + target.highPpm)) / 2 / nitritePpm
    const way =
      nitritePpm > 0
        ? `Weigh ${shown(middle * 1000)} g instead of ${shown(input.agentKg * 1000)} g to aim at the middle of the band.`
        : 'This agent holds no nitrite.'
    return [span, `The amount itself misses the band; no scale or batch size mends that. ${way}`, ...unknown]
  }
  const bigger =
    smallest === null
      ? 'No batch size fits: the dose lies on the edge of the band, or the scale for the meat is too coarse. Aim nearer the middle of the band.'
      : `Or make at least ${shown(Math.ceil(smallest * 100) / 100)} kg at a time (now ${shown(basisKg)} kg).`
  return [
    span,
    ...finerScale(input),
    bigger,
    'Or mix a pre-blend: weigh the cure for many batches into their salt at once, and weigh the blend for each batch; the larger amounts fit a coarser scale.',
    ...unknown,
  ]
}

/**
 * Does this scale decide this dose? The 95 % interval of the true ingoing nitrite, when the scale shows the amount that was asked for,
 * held against the band. Rounding to the step shown is uniform over ± half a step and the scale's error uniform over ± its tolerance;
 * the interval is that of their convolution (a trapezoid), 2.5 % left out on each side; it is not a worst case, which is wider.
 * One reading is counted: an empty scale that is set to zero just before adds little.
 */
export function weighing(input: WeighingInput): Weighing {
  const { nitrite } = strengthOf(input.composition)
  const perG = (nitrite * 1e3) / input.basisKg
  const nitritePpm = input.agentKg * 1000 * perG
  const found = intervalOf(input)
  const fits = inside(found, input.target)
  const smallestFitBasisKg = smallestFit(input, nitritePpm)
  const error = weighingError(input.scale)
  return {
    nitritePpm,
    ...found,
    verdict: fits ? 'fit' : 'unfit',
    smallestFitBasisKg,
    advice: adviceFor(input, nitritePpm, found, fits, smallestFitBasisKg),
    cautions: nitrite > 0 ? [nitriteCaution] : [],
    working: [
      step(
        `nitrite in the agent, as NaNO2 (${describeAgent(input.composition)})`,
        'from its composition',
        nitrite,
        'kg/kg',
      ),
      step(
        'ingoing nitrite as weighed',
        `${short(input.agentKg)} kg × strength × 1 000 000 / ${short(input.basisKg)} kg`,
        nitritePpm,
        'mg/kg',
      ),
      step('rounding error, uniform', `± ${input.scale.readabilityG} g / 2`, input.scale.readabilityG / 2, 'g'),
      step(
        "the scale's error, uniform",
        `± tolerance${input.scale.toleranceG === undefined ? ' (not given)' : ''}`,
        input.scale.toleranceG ?? 0,
        'g',
      ),
      step(
        '95 % half-width of their sum',
        error.narrow >= 0.05 * error.wide
          ? 'a + b − √(0.2 a b), a and b the two half-widths'
          : '0.95 a, the other half-width being under a twentieth of a',
        halfWidth95(error),
        'g',
      ),
      step('one gram of agent in this batch', `strength × 1 000 / ${short(input.basisKg)} kg`, perG, 'mg/kg per g'),
      step(
        'lower end',
        input.basisScale
          ? "2.5 % point of the ratio, the meat's weighing included"
          : 'nitrite − half-width × mg/kg per g',
        found.lowPpm,
        'mg/kg',
      ),
      step(
        'upper end',
        input.basisScale
          ? "97.5 % point of the ratio, the meat's weighing included"
          : 'nitrite + half-width × mg/kg per g',
        found.highPpm,
        'mg/kg',
      ),
    ],
  }
}
