import { z } from 'zod'
import { list, minutes, tempC } from '../schema.ts'
import { coarseOptions, planOf, runPlan, type CookInput } from './cook.ts'
import { createReader } from './course.ts'
import { inverse, leastSquares } from './least-squares.ts'
import { filmPrior } from './fit-prior.ts'
import { timeToTarget, Z95 } from './fit-target.ts'
import { pieceFields, stagesField } from './stage.ts'
import type { Run, RunStage } from './simulate.ts'

const reading = z.strictObject({
  minute: minutes(),
  coreC: tempC().nullable(),
  houseC: tempC().optional(),
  surfaceC: tempC().optional(),
})
export const fitInput = z.strictObject({
  ...pieceFields,
  stages: stagesField(),
  log: list(reading, { min: 4, max: 20_000 }).superRefine((log, ctx) => {
    const at = log.findIndex((r, i) => i > 0 && r.minute <= log[i - 1]!.minute)
    if (at > 0)
      ctx.addIssue({
        code: 'custom',
        path: [at, 'minute'],
        message: `is ${log[at]!.minute}, not after ${log[at - 1]!.minute} of the reading before it; allowed: minutes strictly ascending from the start of the first stage`,
      })
    if (log.filter((r) => r.coreC !== null).length < 4)
      ctx.addIssue({
        code: 'custom',
        message: 'holds fewer than 4 core readings; allowed: at least 4 that are numbers',
      })
  }),
  /** Core temperature whose time is asked; that of the running stage, else of the last stage that has one, when missing. */
  targetCoreC: tempC().optional(),
})
export type FitInput = z.infer<typeof fitInput>

const interval = z.strictObject({ low: z.number(), high: z.number() })
export const fitOutput = z.strictObject({
  /** One for each stage; stages the log has not reached keep what was given or the correlation. */
  filmWPerM2K: z.array(z.number()),
  /** 95 % intervals; `fromLog` is false where the log says little and the interval is the prior's. */
  filmIntervals: z.array(interval.extend({ fromLog: z.boolean() })),
  diffusivityFactor: z.number(),
  diffusivityInterval: interval.extend({ fromLog: z.boolean() }),
  rmsC: z.number(),
  readings: z.number(),
  /** Minutes after the last reading; the band is 95 %, from the fit and from films not yet seen; no `late` where a poor film would never get there. */
  minutesToTargetC: z
    .strictObject({
      targetC: z.number(),
      state: z.enum(['already-met', 'predicted', 'not-in-this-schedule']),
      early: z.number().optional(),
      likely: z.number().optional(),
      late: z.number().optional(),
    })
    .optional(),
  series: z.array(z.strictObject({ minute: z.number(), coreC: z.number(), surfaceC: z.number() })),
  warnings: z.array(z.string()),
})
export type FitOutput = z.infer<typeof fitOutput>

/** Thermometer noise assumed before the residuals show their own, °C. */
const USUAL_NOISE_C = 0.3
/** What a log can show and the model follow at best, °C: tenths that are rounded, and the coarse mesh. */
const LEAST_NOISE_C = 0.1
/** A film or a conductivity is no nearer known than the model's own form allows (one film a stage, vapour by its own rule), as a logarithm. An assumption. */
const MODEL_SD = 0.03
/** Step of a film in the difference quotients: a small one would take the jitter of the time steps for news. */
const FILM_STEP = 0.25
/** Times the noise the residuals show is put back into the fit. */
const NOISE_ROUNDS = 2
/** Spread of the diffusivity about the composition's, as a logarithm. An assumption. */
const DIFFUSIVITY_SD = 0.1

/** Stages with the ends the log shows: those that ended by core temperature end where the log crossed it. */
export function stagesOfLog(
  input: FitInput,
  stages: readonly RunStage[],
): { known: RunStage[]; current: number; endS: number } {
  const core = input.log.filter((r): r is typeof r & { coreC: number } => r.coreC !== null)
  const endS = 60 * input.log.at(-1)!.minute
  const known: RunStage[] = []
  let from = 0
  for (const [i, stage] of stages.entries()) {
    const { untilCoreC, ...rest } = stage
    const own = stage.durationS === undefined ? Infinity : from + stage.durationS
    const crossed = untilCoreC === undefined ? Infinity : crossing(core, untilCoreC, from)
    const to = Math.min(own, crossed)
    if (to >= endS || i === stages.length - 1) {
      known.push({ ...rest, durationS: Math.max(1, endS - from) })
      return { known, current: i, endS }
    }
    known.push({ ...rest, durationS: Math.max(1, to - from) })
    from = to
  }
  return { known, current: stages.length - 1, endS }
}

/** First instant after `from` at which the log's core crosses a temperature, s. */
function crossing(core: readonly { minute: number; coreC: number }[], target: number, from: number): number {
  const after = core.filter((r) => 60 * r.minute >= from)
  for (let i = 1; i < after.length; i++) {
    const [a, b] = [after[i - 1]!, after[i]!]
    if ((a.coreC - target) * (b.coreC - target) <= 0 && a.coreC !== b.coreC)
      return 60 * (a.minute + ((target - a.coreC) / (b.coreC - a.coreC)) * (b.minute - a.minute))
  }
  return Infinity
}

/** House temperature as logged, straight between readings; undefined with fewer than two. */
export function houseCourse(log: FitInput['log']): ((s: number) => number) | undefined {
  const at = log.flatMap((r) => (r.houseC === undefined ? [] : [{ s: 60 * r.minute, c: r.houseC }]))
  if (at.length < 2) return undefined
  let i = 0
  return (s) => {
    if (i > 0 && s < at[i]!.s) i = 0
    while (i < at.length - 2 && s >= at[i + 1]!.s) i++
    const [a, b] = [at[i]!, at[i + 1]!]
    return a.c + (b.c - a.c) * Math.min(1, Math.max(0, (s - a.s) / (b.s - a.s)))
  }
}

export const scaled = (stage: RunStage, log: number): RunStage => {
  const { film } = stage
  const factor = Math.exp(log)
  return {
    ...stage,
    film:
      typeof film === 'number'
        ? film * factor
        : (surfaceC) => {
            const { heat, vapour } = film(surfaceC)
            return { heat: heat * factor, vapour: vapour * factor }
          },
  }
}

/**
 * Fit film coefficients (one a stage) and a factor on the diffusivity to a log of core readings (and of the surface, and of the
 * house, where given) by least squares, and say when a core temperature will come.
 */
export function fit(input: FitInput): FitOutput {
  const { log, targetCoreC: _, ...cookPart } = input
  const cookInput: CookInput = cookPart
  const nominal = planOf(cookInput)
  const { known, current } = stagesOfLog(input, nominal.stages)
  const house = houseCourse(log)
  let offset = 0
  const driven = known.map((stage) => {
    const start = offset
    offset += stage.durationS ?? 0
    return house ? { ...stage, mediumC: (s: number) => house(start + s) } : stage
  })
  const stageCount = input.stages.length
  const planned = input.stages[current]!
  const options = house ? { ...coarseOptions, longestStepS: 60 } : coarseOptions
  const simulated = (x: readonly number[], stages: readonly RunStage[]): Run => {
    const material = planOf(cookInput, { diffusivityFactor: Math.exp(x[stageCount]!) }).material
    return runPlan({ ...nominal, material, stages: stages.map((s, i) => scaled(s, x[i]!)) }, input.startC, options)
  }
  const residuals = (x: readonly number[], noiseC: number): number[] => {
    const read = createReader(simulated(x, driven))
    return log.flatMap((r) => {
      const p = read(60 * r.minute)
      const off = r.coreC === null ? [] : [(p.coreC - r.coreC) / noiseC]
      // A probe at the surface is seldom quite there: a third of the core's weight.
      return r.surfaceC === undefined ? off : [...off, (p.surfaceC - r.surfaceC) / (3 * noiseC)]
    })
  }
  // Stages the log has not reached are unknowns without data: they keep their prior, which widens the band of what is to come.
  const active = [...known.keys(), stageCount]
  const priors = [...input.stages.map(filmPrior), { mean: 0, sd: DIFFUSIVITY_SD }]
  const full = (y: readonly number[]) => {
    const x = priors.map(() => 0)
    active.forEach((k, i) => (x[k] = y[i]!))
    return x
  }
  // Data and prior are weighed against one another by the noise the log shows: as much of it as was first assumed would leave a clean log
  // to the prior.
  const search = (noiseC: number, start?: readonly number[]) =>
    leastSquares({
      residuals: (y) => residuals(full(y), noiseC),
      size: active.length,
      // The first search only shows the noise; the ones after it begin where it ended.
      ...(start ? { start, worthwhile: 1e-3 } : { worthwhile: 1e-2 }),
      priorMean: active.map((k) => priors[k]!.mean),
      priorSd: active.map((k) => priors[k]!.sd),
      bound: active.map((k) => (k === stageCount ? 0.5 : 3)),
      differenceStep: active.map((k) => (k === stageCount ? 0.03 : FILM_STEP)),
    })
  let noiseC = USUAL_NOISE_C
  let found = search(noiseC)
  for (let round = 0; round < NOISE_ROUNDS; round++) {
    const shownC = Math.max(LEAST_NOISE_C, noiseC * Math.sqrt(noiseOf(found.residuals)))
    if (Math.abs(Math.log(shownC / noiseC)) < 0.1) break
    noiseC = shownC
    found = search(noiseC, found.x)
  }
  const covariance = inverse(found.normal)
  const x = full(found.x)
  const sd = Array.from({ length: stageCount + 1 }, (_, k) => {
    const i = active.indexOf(k)
    return i >= 0 ? Math.hypot(Math.sqrt(covariance[i]![i]!), MODEL_SD) : priors[k]!.sd
  })
  // A film the log has not met keeps what was given or the correlation; where it may lie is the prior's.
  const ends = sd.map((s, k) => {
    const centre = active.includes(k) ? x[k]! : priors[k]!.mean
    return { low: centre - Z95 * s, high: centre + Z95 * s }
  })
  const fitted = simulated(x, driven)
  const read = createReader(fitted)
  const core = log.flatMap((r) =>
    r.coreC === null ? [] : [{ minute: r.minute, coreC: r.coreC, off: read(60 * r.minute).coreC - r.coreC }],
  )
  const again = createReader(fitted)
  const films = filmsOf(fitted, x, nominal.stages, input.startC)
  const target = {
    targetC:
      input.targetCoreC ?? planned.untilCoreC ?? input.stages.findLast((s) => s.untilCoreC !== undefined)?.untilCoreC,
    heating: planned.tempC >= core.at(-1)!.coreC,
    lastC: core.at(-1)!.coreC,
    lastS: 60 * core.at(-1)!.minute,
  }
  const toTarget = timeToTarget(target, (y) => simulated(y, futureOf(driven, nominal.stages, current)), {
    x,
    sd,
    ends,
    covariance,
    active,
  })
  const rmsC = Math.sqrt(core.reduce((s, r) => s + r.off ** 2, 0) / core.length)
  return {
    filmWPerM2K: films,
    filmIntervals: films.map((f, i) => ({
      low: f * Math.exp(ends[i]!.low - x[i]!),
      high: f * Math.exp(ends[i]!.high - x[i]!),
      fromLog: i <= current && sd[i]! < 0.5 * priors[i]!.sd,
    })),
    diffusivityFactor: Math.exp(x[stageCount]!),
    diffusivityInterval: {
      low: Math.exp(ends[stageCount]!.low),
      high: Math.exp(ends[stageCount]!.high),
      fromLog: sd[stageCount]! < 0.5 * DIFFUSIVITY_SD,
    },
    rmsC,
    readings: core.length,
    ...(toTarget ? { minutesToTargetC: toTarget } : {}),
    series: log.map((r) => {
      const p = again(60 * r.minute)
      return { minute: r.minute, coreC: p.coreC, surfaceC: p.surfaceC }
    }),
    warnings: [
      'A fit describes this log; what it says of the time to come is a prediction. Only a measured core releases.',
      ...(rmsC > 1.5
        ? [
            `The model follows this log only to ${rmsC.toFixed(1)} °C (rms): check diameter, start temperature, stages and the probe before trusting the time to target.`,
          ]
        : []),
    ],
  }
}

/** Mean square of the residuals in units of the assumed noise, widened where neighbours err alike (a probe's drift is not fresh news each minute). */
function noiseOf(residuals: readonly number[]): number {
  const n = residuals.length
  const square = residuals.reduce((s, v) => s + v * v, 0) / n
  const lag = residuals.slice(1).reduce((s, v, i) => s + v * residuals[i]!, 0) / n
  const rho = Math.min(0.95, Math.max(0, lag / Math.max(square, 1e-12)))
  return square * ((1 + rho) / (1 - rho))
}

const filmsOf = (run: Run, x: readonly number[], stages: readonly RunStage[], startC: number): number[] =>
  stages.map(
    (s, i) =>
      run.stages[i]?.filmWPerM2K ?? (typeof s.film === 'number' ? s.film : s.film(startC).heat) * Math.exp(x[i]!),
  )

/** The whole schedule from its start: what the log showed, then what is planned. */
function futureOf(driven: readonly RunStage[], planned: readonly RunStage[], current: number): RunStage[] {
  return planned.map((plan, i) => {
    if (i < current) return driven[i]!
    if (i > current) return plan
    const seenS = driven[i]!.durationS!
    const seen = driven[i]!.mediumC
    return { ...plan, mediumC: (s) => (s <= seenS ? seen(s) : plan.mediumC(s)), bends: [...(plan.bends ?? []), seenS] }
  })
}
