import { defaultDeathSet } from '@forcemeat/craft/heat/data/death'
import { planOf } from '@forcemeat/craft/heat/cook'
import { fit, stagesOfLog, type FitInput, type FitOutput } from '@forcemeat/craft/heat/fit'
import { forecast, type Ahead, type Forecast } from '@forcemeat/craft/heat/forecast'
import { equivalentMinutes } from '@forcemeat/craft/heat/lethality'
import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { Stage } from '@forcemeat/craft/heat/stage'
import { targetReduction } from '@forcemeat/rulebook/lethality/target'
import {
  chillAhead,
  CHILLED_TO_C,
  COOL_STAGE_C,
  LONGEST_CHILL_MINUTES,
  untrusted,
  type ChillAhead,
  type Look,
} from './cook-chill.ts'
import type { ProductFigures } from './cook-plan.ts'

type Point = { readonly minute: number; readonly tempC: number }

export type LiveRequest = {
  readonly piece: Omit<FitInput, 'log' | 'targetCoreC'>
  /** The probe that decides, and the house where it is logged. Minutes from the start of the first stage. */
  readonly core: readonly Point[]
  readonly house: readonly Point[]
  readonly targetCoreC?: number
  readonly product: ProductFigures
  readonly toleranceC: number
  readonly holds: readonly number[]
}

/** What a choice leads to: log reduction likely, and at the poor end with the thermometer reading high by its tolerance. */
export type Choice = {
  readonly holdMinutes: number
  readonly coreC: number
  readonly peakC: number
  readonly logLikely: number
  readonly logPoor: number
}
export type LiveResult = {
  readonly fit: Omit<FitOutput, 'series'>
  readonly model: FitOutput['series']
  readonly current: number
  readonly nowMinute: number
  readonly nowC: number
  readonly cooling: boolean
  /** False where the model does not follow the readings well enough for anything it says of the time to come. */
  readonly trusted: boolean
  /** Where the house is logged far from what the running stage says, the log is taken for the time to come. */
  readonly houseOff?: { readonly plannedC: number; readonly loggedC: number }
  readonly reductionNow: number
  readonly target?: { readonly log: number; readonly rule: string; readonly title: string }
  readonly ahead: Forecast['series']
  readonly poorAhead: Forecast['series']
  readonly choices: readonly Choice[]
  readonly chill?: ChillAhead
}

/** A fit that misses the readings by more than this, °C rms, predicts nothing. */
const MOST_OFF_C = 1.5
/** A house this far from its stage is not in it, °C. */
const HOUSE_OFF_C = 3
const LATEST_HOUSE = 5
/** Readings a fit needs; more tell it nothing new and cost time. */
const FIT_READINGS = 240

/** Evenly spaced readings, the last one kept. */
function thinned<T extends { minute: number }>(log: readonly T[]): T[] {
  if (log.length <= FIT_READINGS) return [...log]
  const step = (log.at(-1)!.minute - log[0]!.minute) / FIT_READINGS
  let next = -Infinity
  return log.filter((r, i) => {
    if (r.minute < next && i < log.length - 1) return false
    next = r.minute + step - 1e-9
    return true
  })
}

function valueAt(points: readonly Point[], minute: number): number | undefined {
  const i = points.findIndex((p) => p.minute >= minute)
  if (i < 0) return points.at(-1)?.tempC
  const [a, b] = [points[Math.max(0, i - 1)]!, points[i]!]
  return a.minute === b.minute ? b.tempC : a.tempC + ((b.tempC - a.tempC) * (minute - a.minute)) / (b.minute - a.minute)
}

/** A house logged at other instants is read where the core was. */
const logOf = ({ core, house }: LiveRequest): FitInput['log'] =>
  thinned(core).map((r) => {
    const houseC = house.length >= 2 ? valueAt(house, r.minute) : undefined
    return { minute: r.minute, coreC: r.tempC, ...(houseC === undefined ? {} : { houseC }) }
  })

const still: Stage = { medium: 'air', tempC: 20, airSpeedMPerS: 0.2, minutes: 30 }

/** What follows the running stage: the plan's coolings where it has any, run until the core is cold; else half an hour in room air. */
function chillStages(stages: readonly Stage[], current: number, cooling: boolean, nowC: number): Stage[] {
  const next = stages.slice(current + 1)
  const planned = cooling ? next : next.filter((s) => s.tempC < COOL_STAGE_C)
  const last = planned.at(-1) ?? (cooling ? stages[current] : undefined)
  if (!last) return []
  const { rampMinutes: _, ...rest } = last
  const untilCoreC = Math.max(CHILLED_TO_C, last.tempC + 0.3)
  // A core that is cold already has nothing ahead.
  if (cooling && nowC <= untilCoreC) return planned
  return [...planned, { ...rest, minutes: LONGEST_CHILL_MINUTES, untilCoreC }]
}

/** The plan as it stands from now: the rest of the running stage, then what follows, the last cooling run until the core is cold. */
function planAhead(
  input: FitInput,
  targetCoreC: number | undefined,
  nowC: number,
  cooling: boolean,
  chill: readonly Stage[],
): Ahead {
  const { known, current } = stagesOfLog(input, planOf(withoutLog(input)).stages)
  const stage = input.stages[current]!
  const elapsed = known[current]!.durationS! / 60
  if (cooling) return { holdMinutes: 0, after: chill }
  const until = stage.untilCoreC ?? (stage.minutes === undefined ? targetCoreC : undefined)
  const heating = input.stages.slice(current + 1).filter((s) => s.tempC >= COOL_STAGE_C)
  const rest = {
    holdMinutes: stage.minutes === undefined ? 0 : Math.max(0, stage.minutes - elapsed),
    after: [...heating, ...chill],
  }
  return until !== undefined && until > nowC && stage.minutes === undefined ? { ...rest, untilCoreC: until } : rest
}
const withoutLog = ({ log: _log, targetCoreC: _target, ...piece }: FitInput) => piece

function reduction(log: readonly { minute: number; coreC: number | null }[], lessC: number): number {
  const set = defaultDeathSet('salmonella')
  const joined = Math.max(2, joinableMinutes(log.map((r) => r.minute)))
  const lowered =
    lessC === 0 ? log : log.map((r) => ({ minute: r.minute, coreC: r.coreC === null ? null : r.coreC - lessC }))
  return equivalentMinutes(lowered, set, joined) / set.dMinutes
}

function choiceOf(look: Look, holdMinutes: number, after: readonly Stage[], toleranceC: number): Choice {
  const likely = look({ holdMinutes, after }, 'likely')
  const poor = look({ holdMinutes, after }, 'poor')
  const end = likely.series.find((p) => p.minute >= likely.nowMinute + holdMinutes - 1e-6) ?? likely.series.at(-1)!
  return {
    holdMinutes,
    coreC: end.coreC,
    peakC: likely.series.reduce((m, p) => Math.max(m, p.coreC), -Infinity),
    logLikely: reduction(likely.log, 0),
    logPoor: reduction(poor.log, toleranceC),
  }
}

/** The stage that runs as the house really is: its plan is not believed against the log. */
function asLogged(
  { piece, house }: LiveRequest,
  current: number,
): { houseOff?: LiveResult['houseOff']; stages: Stage[] } {
  const stage = piece.stages[current]!
  const last = house.slice(-LATEST_HOUSE)
  if (last.length < 2) return { stages: piece.stages }
  const loggedC = last.reduce((s, r) => s + r.tempC, 0) / last.length
  if (Math.abs(loggedC - stage.tempC) <= HOUSE_OFF_C) return { stages: piece.stages }
  // A wet bulb belongs to its dry bulb; the humidity is then not known any more.
  const { wetBulbC: _wet, rampMinutes: _ramp, ...rest } = stage
  const moved = { ...rest, tempC: Number(loggedC.toFixed(1)) }
  return {
    stages: piece.stages.map((s, i) => (i === current ? moved : s)),
    houseOff: { plannedC: stage.tempC, loggedC },
  }
}

/** The cook fitted to what was read so far, and what each choice from here leads to. */
export function followCook(request: LiveRequest): LiveResult {
  const { piece, core, targetCoreC, product, toleranceC, holds } = request
  const log = logOf(request)
  const { current } = stagesOfLog({ ...piece, log }, planOf(piece).stages)
  const { stages, houseOff } = asLogged(request, current)
  const input: FitInput = { ...piece, stages, log }
  const target = targetReduction(product.lethality)
  const first = fit({ ...input, ...(targetCoreC === undefined ? {} : { targetCoreC }) })
  const look: Look = (ahead, outlook) => forecast(input, first, ahead, outlook)
  const nowMinute = log.at(-1)!.minute
  const stage = stages[current]!
  const nowC = core.at(-1)!.tempC
  const peakC = core.reduce((m, r) => Math.max(m, r.tempC), -Infinity)
  const cooling = nowC < peakC - 0.5 && stage.tempC < Math.max(nowC, COOL_STAGE_C)
  const following = chillStages(stages, current, cooling, nowC)
  const ahead = planAhead(input, targetCoreC, nowC, cooling, following.length > 0 || cooling ? following : [still])
  const { series, ...fitted } = first
  const trusted = first.rmsC <= MOST_OFF_C
  const chilled =
    cooling || following.length > 0
      ? chillAhead({ product: product.cooling, toleranceC, nowMinute }, look, ahead)
      : undefined
  return {
    fit: fitted,
    model: series,
    current,
    nowMinute,
    nowC,
    cooling,
    trusted,
    ...(houseOff ? { houseOff } : {}),
    reductionNow: reduction(
      core.map((r) => ({ minute: r.minute, coreC: r.tempC })),
      0,
    ),
    ...(target ? { target } : {}),
    ahead: look(ahead, 'likely').series,
    poorAhead: look(ahead, 'poor').series,
    choices: cooling ? [] : holds.map((h) => choiceOf(look, h, following.length > 0 ? following : [still], toleranceC)),
    ...(chilled ? { chill: trusted ? chilled : untrusted(chilled, first.rmsC) } : {}),
  }
}
