import { coarseOptions, planOf, runPlan, type CookInput, type Plan } from './cook.ts'
import { createReader } from './course.ts'
import { filmPrior } from './fit-prior.ts'
import { houseCourse, scaled, stagesOfLog, type FitInput, type FitOutput } from './fit.ts'
import { Z95 } from './fit-target.ts'
import type { Reading } from './reading.ts'
import type { Run, RunStage } from './simulate.ts'
import type { Stage } from './stage.ts'

/** What is to be done from the last reading on. */
export type Ahead = {
  /** The running stage goes on this long, minutes; 0 pulls now. */
  readonly holdMinutes: number
  /** The running stage goes on until this core, however long, in place of `holdMinutes`. */
  readonly untilCoreC?: number
  /** And then these. */
  readonly after: readonly Stage[]
}

/** `likely`: the fit as it stands; `poor`: films and diffusivity at the low ends of their 95 % intervals, both at once. */
export type Outlook = 'likely' | 'poor'

export type Forecast = {
  readonly nowMinute: number
  /** Index of the stage that runs. */
  readonly current: number
  /** The measured core, and after `nowMinute` the predicted one, minute by minute. */
  readonly log: readonly Reading[]
  /** From now on. */
  readonly series: readonly {
    readonly minute: number
    readonly coreC: number
    readonly surfaceC: number
    readonly houseC: number
  }[]
}

/** First root of the axis condition of a cylinder held at its surface, squared: the slowest part of a temperature field dies with α·5.783/R². */
const FIRST_ROOT_SQUARED = 5.783
/** Readings whose mean distance from the model says where the core stands now. */
const LATEST = 3
/** A stage ahead that waits for a core temperature is followed this far. */
const FARTHEST_MINUTES = 24 * 60

/** Stages of the log as it went, then what is ahead, all ready to run; films carry the factor that gives the fitted ones. */
function stagesAhead(input: FitInput, plan: Plan, current: number, ahead: Ahead): RunStage[] {
  const { known, endS } = stagesOfLog(input, plan.stages.slice(0, current + 1))
  const house = houseCourse(input.log)
  let offset = 0
  return plan.stages.map((stage, i) => {
    const seen = known[i]
    if (!seen) return stage
    const start = offset
    offset += seen.durationS!
    const logged = house ? (s: number) => house(start + s) : seen.mediumC
    if (i < current) return { ...seen, mediumC: logged }
    const seenS = endS - start
    const mediumC = (s: number) => (s <= seenS ? logged(s) : stage.mediumC(s))
    const more = ahead.untilCoreC === undefined ? ahead.holdMinutes : FARTHEST_MINUTES
    return {
      ...seen,
      mediumC,
      durationS: Math.max(1, seenS) + 60 * more,
      ...(ahead.untilCoreC === undefined ? {} : { untilCoreC: ahead.untilCoreC }),
      bends: [...(seen.bends ?? []), seenS],
    }
  })
}

/** Scale each stage's film until the run uses the film asked for; a film that hangs on the surface settles in two passes. */
function withFilms(
  run: (stages: readonly RunStage[]) => Run,
  stages: readonly RunStage[],
  films: readonly (number | undefined)[],
): RunStage[] {
  const logs = stages.map(() => 0)
  for (let pass = 0; pass < 2; pass++) {
    const used = run(stages.map((s, i) => scaled(s, logs[i]!))).stages
    for (const i of stages.keys()) {
      const [want, have] = [films[i], used[i]?.filmWPerM2K]
      if (want !== undefined && have !== undefined && have > 0) logs[i] = logs[i]! + Math.log(want / have)
    }
  }
  return stages.map((s, i) => scaled(s, logs[i]!))
}

/**
 * The core from the last reading on, by the model as fitted to the log: the running stage held so many minutes more, then other stages.
 * What the model misses of the core at the last readings is carried on and dies away as fast as a cylinder forgets.
 */
export function forecast(input: FitInput, fitted: FitOutput, ahead: Ahead, outlook: Outlook = 'likely'): Forecast {
  const { log, targetCoreC: _, ...piece } = input
  const { current } = stagesOfLog(input, planOf(piece).stages)
  const stages = [...input.stages.slice(0, current + 1), ...ahead.after]
  const poor = outlook === 'poor'
  const diffusivityFactor = poor ? fitted.diffusivityInterval.low : fitted.diffusivityFactor
  const cookInput: CookInput = { ...piece, stages }
  const plan = planOf(cookInput, { diffusivityFactor })
  const options = { ...coarseOptions, longestStepS: 60 }
  const run = (all: readonly RunStage[]): Run => runPlan({ ...plan, stages: [...all] }, input.startC, options)
  // What the log has shown is known; only what it has not can turn out poor.
  const settled: RunStage[] = withFilms(
    run,
    stagesAhead(input, plan, current, ahead),
    fitted.filmWPerM2K.slice(0, current + 1),
  )
  const poorest = (i: number): number => {
    const { mean, sd } = filmPrior(stages[i]!)
    return mean - Z95 * sd
  }
  const worst: RunStage[] = poor ? settled.map((s, i) => (i > current ? scaled(s, poorest(i)) : s)) : settled
  const read = createReader(run(worst))
  const nowMinute = log.at(-1)!.minute
  const core = log.filter((r): r is typeof r & { coreC: number } => r.coreC !== null)
  const model = core.map((r) => ({ ...r, off: r.coreC - read(60 * r.minute).coreC }))
  const last = model.slice(-LATEST)
  const off = last.reduce((s, r) => s + r.off, 0) / last.length
  const { heat, conductivity } = plan.material
  const decayMinutes = (plan.shape.radiusM ** 2 * heat[0]) / (FIRST_ROOT_SQUARED * conductivity[0]) / 60
  const whole = run(worst)
  const again = createReader(whole)
  const endMinute = Math.min(whole.stages.at(-1)!.endS / 60, nowMinute + FARTHEST_MINUTES)
  const series = minutesBetween(nowMinute, endMinute).map((minute) => {
    const p = again(60 * minute)
    const carried = off * Math.exp(-(minute - nowMinute) / decayMinutes)
    return { minute, coreC: p.coreC + carried, surfaceC: p.surfaceC, houseC: p.houseC }
  })
  return {
    nowMinute,
    current,
    log: [
      ...log.map(({ minute, coreC }) => ({ minute, coreC })),
      ...series.slice(1).map(({ minute, coreC }) => ({ minute, coreC })),
    ],
    series,
  }
}

function minutesBetween(from: number, to: number): number[] {
  const even = Array.from({ length: Math.max(0, Math.floor(to - from)) + 1 }, (_, i) => from + i)
  return to > even.at(-1)! + 1e-9 ? [...even, to] : even
}
