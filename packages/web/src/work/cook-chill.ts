import type { Finding, Verdict } from '@forcemeat/craft/finding'
import { chill, type CoolingProduct } from '@forcemeat/craft/heat/chill'
import type { Ahead, Forecast, Outlook } from '@forcemeat/craft/heat/forecast'
import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import type { Stage } from '@forcemeat/craft/heat/stage'
import { trackLog } from '@forcemeat/craft/heat/track'
import { coolingMarks } from '@forcemeat/rulebook/cooling/judge'
import { coolingSpans } from '@forcemeat/rulebook/cooling/spans'

export type Action = { readonly label: string; readonly verdict: Verdict; readonly because: string }
export type OptionAhead = {
  readonly rule: string
  readonly title: string
  readonly likely: Verdict
  readonly poor: Verdict
  readonly because: string
  /** Until the running window of the option is over, minutes; absent where it has not begun or is through. */
  readonly minutesLeft?: number
}
export type ChillAhead = {
  readonly likely: Verdict
  readonly poor: Verdict
  readonly because: string
  readonly options: readonly OptionAhead[]
  /** Tried only where the chill as it goes may miss. */
  readonly actions: readonly Action[]
  readonly logGrowth: number
}

export type Look = (ahead: Ahead, outlook: Outlook) => Forecast

/** A stage colder than this cools a cooked core. */
export const COOL_STAGE_C = 45
/** Cooling is followed down to here, °C: under every published end with any thermometer that is worth reading. */
export const CHILLED_TO_C = 3
export const LONGEST_CHILL_MINUTES = 20 * 60

const actions: readonly { readonly label: string; readonly stage: Stage }[] = [
  {
    label: 'Into ice water now',
    stage: { medium: 'ice-water', tempC: 1, minutes: LONGEST_CHILL_MINUTES, untilCoreC: CHILLED_TO_C },
  },
  {
    label: 'Under cold water, 10 °C, for an hour, then ice water',
    stage: { medium: 'water', tempC: 10, waterSpeedMPerS: 0.1, minutes: 60 },
  },
  {
    label: 'Air at 0 °C with a strong fan (4 m/s) now',
    stage: {
      medium: 'air',
      tempC: 0,
      airSpeedMPerS: 4,
      rhPct: 85,
      minutes: LONGEST_CHILL_MINUTES,
      untilCoreC: CHILLED_TO_C,
    },
  },
]

/** The chill as it goes, held against every published option: likely, and at the poor end; and what else could be done in time. */
export function chillAhead(
  request: { readonly product: CoolingProduct; readonly toleranceC: number; readonly nowMinute: number },
  look: Look,
  ahead: Ahead,
): ChillAhead {
  const { product, toleranceC, nowMinute: now } = request
  const judge = (f: Forecast) => {
    const joined = Math.max(2, joinableMinutes(f.log.map((r) => r.minute)))
    return {
      joined,
      log: f.log,
      ...chill({ log: f.log, product, toleranceC, maxGapMinutes: joined, acceptFalls: true }),
    }
  }
  const likely = judge(look(ahead, 'likely'))
  const poor = judge(look(ahead, 'poor'))
  const track = trackLog(likely.log, { marksC: coolingMarks, joinedMinutes: likely.joined })
  const verdictIn = (all: readonly Finding[], rule: string): Verdict =>
    all.find((f) => f.rule === rule)?.verdict ?? 'cannot-tell'
  const options = likely.findings.map((f): OptionAhead => {
    const running = coolingSpans(track, f.rule).find((s) => s.fromMinute <= now && (!s.finished || s.toMinute > now))
    return {
      rule: f.rule,
      title: f.title,
      likely: f.verdict,
      poor: verdictIn(poor.findings, f.rule),
      because: f.because,
      ...(running ? { minutesLeft: running.fromMinute + running.maxMinutes - now } : {}),
    }
  })
  const atRisk = likely.stabilization.verdict !== 'pass' || poor.stabilization.verdict === 'fail'
  return {
    likely: likely.stabilization.verdict,
    poor: poor.stabilization.verdict,
    because: likely.stabilization.because,
    options,
    actions: atRisk
      ? actions.map(({ label, stage }) => {
          const after: Stage[] = stage.untilCoreC === undefined ? [stage, actions[0]!.stage] : [stage]
          const heating = ahead.after.filter((s) => s.tempC >= COOL_STAGE_C)
          const { stabilization } = judge(look({ ...ahead, after: [...heating, ...after] }, 'likely'))
          return { label, verdict: stabilization.verdict, because: stabilization.because }
        })
      : [],
    logGrowth: likely.perfringens.logGrowth,
  }
}

/** A good word of a model that does not follow the readings is worth nothing; a bad one still warns. */
export function untrusted(chill: ChillAhead, rmsC: number): ChillAhead {
  const open = (v: Verdict): Verdict => (v === 'pass' ? 'cannot-tell' : v)
  return {
    ...chill,
    likely: open(chill.likely),
    poor: open(chill.poor),
    because:
      chill.likely === 'pass'
        ? `the model follows the readings only to ${rmsC.toFixed(1)} °C; set the stages to what the house really did`
        : chill.because,
    options: chill.options.map((o) => ({ ...o, likely: open(o.likely), poor: open(o.poor) })),
    actions: chill.actions.map((a) => ({ ...a, verdict: open(a.verdict) })),
  }
}
