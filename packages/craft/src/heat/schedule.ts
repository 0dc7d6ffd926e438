import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { oneOf, quantity } from '../schema.ts'
import { coarseOptions, cook, planOf, runPlan, type CookInput } from './cook.ts'
import { searchPattern } from './pattern-search.ts'
import type { Run, TracePoint } from './simulate.ts'
import { pieceFields } from './stage.ts'

export const scheduleInput = z
  .strictObject({
    ...pieceFields,
    medium: oneOf(['air', 'water', 'steam']),
    rhPct: quantity('%', { min: 0, max: 100 }).optional(),
    airSpeedMPerS: quantity('m/s', { min: 0, max: 30 }).optional(),
    filmWPerM2K: quantity('W/(m²·K)', { min: 0.1, max: 50_000 }).optional(),
    /** Highest the house or bath goes. */
    houseMaxC: quantity('°C', { min: 30, max: 150 }),
    /** Highest the surface may be, where fat starts to run. */
    surfaceMaxC: quantity('°C', { min: 30, max: 150 }).optional(),
    target: z.union([
      z.strictObject({ coreC: quantity('°C', { min: 20, max: 100 }) }),
      z.strictObject({
        logReduction: quantity('', { above: 0, max: 20 }),
        referenceC: quantity('°C', { min: 40, max: 100 }),
        dMinutes: quantity('minutes', { above: 0, max: 1000 }),
        zC: quantity('°C', { min: 2, max: 30 }),
      }),
    ]),
    objective: oneOf(['shortest', 'lowest-loss']).optional(),
    /** Steps the schedule may have. */
    steps: quantity('', { min: 1, max: 5 }).int().optional(),
    /** Longest the whole may take, for the lowest loss. */
    longestMinutes: quantity('minutes', { min: 10, max: 2880 }).optional(),
  })
  .superRefine((s, ctx) => {
    if (s.rhPct !== undefined && s.medium !== 'air')
      ctx.addIssue({
        code: 'custom',
        path: ['rhPct'],
        message: `is given for ${s.medium}; allowed: humidity for air only`,
      })
    if (s.medium === 'water' && s.houseMaxC > 100)
      ctx.addIssue({
        code: 'custom',
        path: ['houseMaxC'],
        message: `is ${s.houseMaxC} for water; allowed: at most 100 °C`,
      })
  })
export type ScheduleInput = z.infer<typeof scheduleInput>

export const scheduleOutput = z.strictObject({
  /** Stages as heat.cook takes them. */
  stages: z.array(
    z.strictObject({
      medium: z.enum(['air', 'water', 'steam']),
      tempC: z.number(),
      rhPct: z.number().optional(),
      airSpeedMPerS: z.number().optional(),
      filmWPerM2K: z.number().optional(),
      minutes: z.number(),
    }),
  ),
  minutesTotal: z.number(),
  weightLossPct: z.number(),
  coreC: z.number(),
  surfacePeakC: z.number(),
  logReduction: z.number().optional(),
  /** The same target in one step at a temperature the surface limit always allows, to see what the steps gain. */
  oneStep: z.strictObject({ tempC: z.number(), minutesTotal: z.number(), weightLossPct: z.number() }).optional(),
  warnings: z.array(z.string()),
})
export type ScheduleOutput = z.infer<typeof scheduleOutput>

type Candidate = { readonly temps: readonly number[]; readonly minutes: readonly number[] }
type Outcome = { minutes: number; lossPct: number; surfaceC: number; met: boolean }

const LONGEST_MINUTES = 1440
/** Coarse and working mesh differ by less than this at the surface, °C. */
const SURFACE_MARGIN_C = 0.15
const EVALUATIONS = 260

/** Gathers lethality over a run's points; trapezoid on the rate, steps being short where the rate turns. */
function killer(target: ScheduleInput['target']): (p: TracePoint, last: TracePoint | undefined) => number {
  if (!('logReduction' in target)) return () => 0
  const rate = (c: number) => 10 ** ((c - target.referenceC) / target.zC) / target.dMinutes
  return (p, last) => (last ? ((p.s - last.s) / 120) * (rate(p.coreC) + rate(last.coreC)) : 0)
}

/** First minute at which the target is met along a run; Infinity where it is not. */
function metAt(points: readonly TracePoint[], target: ScheduleInput['target']): number {
  const kill = killer(target)
  let sum = 0
  for (const [i, p] of points.entries()) {
    const last = points[i - 1]
    if ('coreC' in target) {
      if (p.coreC < target.coreC) continue
      const u = last && p.coreC > last.coreC ? (target.coreC - last.coreC) / (p.coreC - last.coreC) : 1
      return ((last?.s ?? p.s) + u * (p.s - (last?.s ?? p.s))) / 60
    }
    const gain = kill(p, last)
    if (sum + gain >= target.logReduction)
      return (last!.s + ((target.logReduction - sum) / gain) * (p.s - last!.s)) / 60
    sum += gain
  }
  return Infinity
}

const stageOf = (input: ScheduleInput, tempC: number, minutes: number) => ({
  medium: input.medium,
  tempC,
  ...(input.rhPct === undefined ? {} : { rhPct: input.rhPct }),
  ...(input.airSpeedMPerS === undefined ? {} : { airSpeedMPerS: input.airSpeedMPerS }),
  ...(input.filmWPerM2K === undefined ? {} : { filmWPerM2K: input.filmWPerM2K }),
  minutes,
})

function cookInputOf(input: ScheduleInput, c: Candidate): CookInput {
  const {
    medium: _m,
    rhPct: _r,
    airSpeedMPerS: _a,
    filmWPerM2K: _f,
    houseMaxC: _h,
    surfaceMaxC: _s,
    target: _t,
    objective: _o,
    steps: _n,
    longestMinutes: _l,
    ...pieceInput
  } = input
  return { ...pieceInput, stages: c.temps.map((t, i) => stageOf(input, t, c.minutes[i] ?? LONGEST_MINUTES)) }
}

/** Run a candidate on the coarse mesh until its target is met. */
function tryOut(input: ScheduleInput, c: Candidate): Outcome {
  const kill = killer(input.target)
  const { target } = input
  let sum = 0
  let last: TracePoint | undefined
  let over = false
  const endStage = (p: TracePoint) => {
    sum += kill(p, last)
    last = p
    over ||= 'coreC' in target ? p.coreC >= target.coreC : sum >= target.logReduction
    return over
  }
  const run: Run = runPlan(planOf(cookInputOf(input, c)), input.startC, { ...coarseOptions, endStage })
  const minutes = metAt(run.points, input.target)
  const until = run.points.filter((p) => p.s / 60 <= minutes + 1e-9)
  return {
    minutes,
    lossPct: (100 * (until.at(-1)?.lostKg ?? 0)) / run.massKg,
    surfaceC: until.reduce((m, p) => Math.max(m, p.surfaceC), -Infinity),
    met: minutes < Infinity,
  }
}

/** Price of an outcome: time or loss, with a steep charge for a surface too hot. */
function price(input: ScheduleInput, o: Outcome): number {
  if (!o.met) return 1e6
  const hot = Math.max(0, o.surfaceC - ((input.surfaceMaxC ?? Infinity) - SURFACE_MARGIN_C))
  const late = Math.max(0, o.minutes - (input.longestMinutes ?? LONGEST_MINUTES))
  const base = input.objective === 'lowest-loss' ? o.lossPct + o.minutes / 1e4 : o.minutes
  return base + 100 * hot + 10 * late
}

/**
 * The schedule of a few steps in one medium that reaches a core temperature or a log reduction soonest, or with the least loss of
 * weight, the surface never above a limit. Found by a pattern search over temperatures and lengths: good, not proven best.
 * @throws InvalidInput where even a house at its limit does not reach the target
 */
export function schedule(input: ScheduleInput): ScheduleOutput {
  const safeC = Math.min(input.houseMaxC, input.surfaceMaxC ?? Infinity)
  const steps = input.surfaceMaxC === undefined && input.objective !== 'lowest-loss' ? 1 : (input.steps ?? 3)
  const single = tryOut(input, { temps: [safeC], minutes: [] })
  const start: Candidate = {
    temps: Array.from({ length: steps }, (_, i) =>
      i === steps - 1 ? safeC : input.houseMaxC - ((input.houseMaxC - safeC) * i) / steps,
    ),
    minutes: Array.from({ length: steps - 1 }, () => (single.met ? single.minutes / (2 * steps) : 30)),
  }
  const decode = (x: readonly number[]): Candidate => ({
    temps: x.slice(0, steps).map((t) => Math.min(input.houseMaxC, Math.max(20, t))),
    minutes: x.slice(steps).map((m) => Math.max(1, m)),
  })
  const found = searchPattern({
    start: [...start.temps, ...start.minutes],
    step: [...start.temps.map(() => 6), ...start.minutes.map((m) => Math.max(5, m / 2))],
    least: [...start.temps.map(() => 0.25), ...start.minutes.map(() => 0.5)],
    evaluations: EVALUATIONS,
    price: (x) => price(input, tryOut(input, decode(x))),
    others: single.met ? [[...Array.from({ length: steps }, () => safeC), ...start.minutes]] : [],
  })
  if (found.price >= 1e5)
    throw new InvalidInput([
      {
        path: 'target',
        message: `is not reached within ${LONGEST_MINUTES / 60} h with the house at most ${input.houseMaxC} °C${input.surfaceMaxC === undefined ? '' : ` and the surface at most ${input.surfaceMaxC} °C`}; allowed: a target below what the surface can reach (in air that is near the wet bulb while it is wet)`,
      },
    ])
  return settle(input, decode(found.x), single, safeC)
}

/** Stages set to half degrees and whole minutes, neighbours at one temperature joined; undefined where the target is not met. */
function rounded(input: ScheduleInput, found: Candidate, safeC: number, coolerC: number, extraMinutes: number) {
  const temps = found.temps.map((t) => Math.max(Math.min(t, safeC), Math.floor(2 * t) / 2 - coolerC))
  const minutes = found.minutes.map((m) => Math.max(1, Math.round(m)))
  const coarse = tryOut(input, { temps, minutes })
  if (!coarse.met) return undefined
  let left = Math.ceil(coarse.minutes) + extraMinutes
  const stages: ScheduleOutput['stages'] = []
  for (const [i, tempC] of temps.entries()) {
    const length = Math.min(left, minutes[i] ?? Infinity)
    if (length <= 0) break
    left -= length
    const before = stages.at(-1)
    if (before?.tempC === tempC) before.minutes += length
    else stages.push(stageOf(input, tempC, length))
  }
  return stages
}

/** Run the rounded schedule on the working mesh; half a degree cooler each time until the surface keeps its limit, a minute longer until the target is met. */
function settle(input: ScheduleInput, found: Candidate, single: Outcome, safeC: number): ScheduleOutput {
  const { target } = input
  const kill = killer(target)
  for (let cooler = 0; cooler < 12; cooler++)
    for (let extra = 0; extra < 3; extra++) {
      const stages = rounded(input, found, safeC, cooler / 2, extra)
      if (!stages) break
      const full = cook(
        cookInputOf(input, { temps: stages.map((s) => s.tempC), minutes: stages.map((s) => s.minutes) }),
      )
      const surfacePeakC = full.series.reduce((m, p) => Math.max(m, p.surfaceC), -Infinity)
      if (surfacePeakC > (input.surfaceMaxC ?? Infinity)) break
      const points = full.series.map((p) => ({
        s: 60 * p.minute,
        coreC: p.coreC,
        houseC: p.houseC,
        surfaceC: p.surfaceC,
        stage: 0,
        lostKg: 0,
      }))
      const logReduction = points.reduce((s, p, i) => s + kill(p, points[i - 1]), 0)
      const end = full.stages.at(-1)!
      if ('coreC' in target ? end.coreC < target.coreC : logReduction < target.logReduction) continue
      return {
        stages,
        minutesTotal: full.minutesTotal,
        weightLossPct: full.weightLossPct,
        coreC: end.coreC,
        surfacePeakC,
        ...('logReduction' in target ? { logReduction } : {}),
        ...(single.met
          ? { oneStep: { tempC: safeC, minutesTotal: single.minutes, weightLossPct: single.lossPct } }
          : {}),
        warnings: [
          'A proposal from a search, good but not proven best. Try it with a probe in the coldest piece before relying on it.',
          ...full.warnings,
        ],
      }
    }
  throw new InvalidInput([
    {
      path: 'surfaceMaxC',
      message: `is ${input.surfaceMaxC} °C, too close to the target to keep; allowed: a limit at least 2 °C above what the core must reach`,
    },
  ])
}
