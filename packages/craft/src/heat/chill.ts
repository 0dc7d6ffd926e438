import type { Finding, Verdict, WorkingStep } from '../finding.ts'
import { figures, judge, marks } from '../rules.ts'
import { withTolerance } from './fahrenheit.ts'
import { createPerfringens, perfringensSource } from './perfringens.ts'
import { walkLog, walkOptions } from './core-walk.ts'
import type { ThermometerDoubt } from './lethality.ts'
import type { Reading } from './reading.ts'
import { createTrackSink, type Track } from './track.ts'
import { uncountedNote, uncountedStep } from './uncounted.ts'

export type CoolingProduct = {
  /** Absent where nobody said: the chill is then judged both ways. */
  readonly cured?: boolean
  readonly nitritePpm?: number
  readonly erythorbatePpm?: number
  readonly saltPct?: number
  readonly waterPct?: number
  readonly ph?: number
  readonly aw?: number
  /** Whole, untenderised muscle; a comminuted product is not. */
  readonly intact?: boolean
  readonly largeMassNonIntact?: boolean
  /** Made and sold at retail or food service, under the local food code. */
  readonly retail?: boolean
}

/** What the core asks the rulebook about a chill. */
export type CoolingQuestion = {
  readonly track: Track
  readonly toleranceC: number
  /** True where nobody said how far the thermometer may be off. */
  readonly errorUnknown?: boolean
  readonly checkOverdue: boolean
  /** Why it proves nothing, where more is known than that its check is overdue. */
  readonly doubted?: ThermometerDoubt
  readonly product: CoolingProduct
}

export type ChillInput = {
  readonly log: readonly Reading[]
  readonly product: CoolingProduct
  readonly toleranceC?: number
  readonly checkOverdue?: boolean
  readonly doubted?: ThermometerDoubt
  readonly maxGapMinutes?: number
  readonly acceptFalls?: boolean
  /** Minute at which cooling began; the last minute at the peak unless given. */
  readonly chillStartMinute?: number
}

export type Perfringens = { logGrowth: number; conservative: true; source: string; note: string }
/** A published option that does not speak for the product, and why. */
export type NotApplicable = { rule: string; title: string; because: string }
export type ChillSummary = { verdict: Verdict; met: string[]; because: string; settle?: string }

export type Chill = {
  /** One per published cooling option that applies: alternatives, none of which decides alone. */
  findings: Finding[]
  /** Published options that do not speak for this product. */
  notApplicable: NotApplicable[]
  /** The standard the options serve: one option met is enough. */
  stabilization: Finding
  summary: ChillSummary
  chillStartMinute: number
  perfringens: Perfringens
  caution: string
  working: WorkingStep[]
}

export const CHILL_CAUTION =
  'Measured at the warmest point. The growth estimate is for uncured beef, knows no salt, nitrite or pH, and supports a decision by a qualified person; it never makes it. Follow your local code.'

export const perfringensNote = (holes: boolean): string =>
  holes
    ? 'Over holes in the log the worst temperature between their ends is taken.'
    : 'Uncured beef, no credit for salt, nitrite or pH.'

/** Summary of judged options. */
export function summarise(stabilization: Finding, findings: readonly Finding[]): ChillSummary {
  return {
    verdict: stabilization.verdict,
    // A superseded form that is met asks for something more and does not count.
    met: findings.filter((f) => f.verdict === 'pass' && f.settle === undefined).map((f) => f.rule),
    because: stabilization.because,
    ...(stabilization.settle === undefined ? {} : { settle: stabilization.settle }),
  }
}

/** Split the rulebook's answer: alternatives are advice, the standard they serve is the limit. */
export function splitCooling(answer: readonly Finding[]): { findings: Finding[]; stabilization: Finding } {
  return {
    findings: answer.filter((f) => f.weight !== 'limit'),
    stabilization: answer.find((f) => f.weight === 'limit')!,
  }
}

/** Cooling of a core log held against every published option that applies, with a conservative estimate of growth beside it. */
export function chill(input: ChillInput): Chill {
  const { log, product, toleranceC = 0, checkOverdue = false, chillStartMinute } = input
  const tracked = createTrackSink({
    marksC: withTolerance(marks('cooling'), toleranceC),
    ...(chillStartMinute === undefined ? {} : { chillStartMinute }),
  })
  const growth = createPerfringens(chillStartMinute)
  const { joining, out } = walkLog(log, [tracked.reading, growth.follow], walkOptions(input))
  const track = tracked.finish(log.at(-1)!.minute, joining, out)
  const errorUnknown = input.toleranceC === undefined
  const { findings, stabilization } = splitCooling(
    judge('cooling', {
      track,
      toleranceC,
      errorUnknown,
      checkOverdue,
      ...(input.doubted === undefined ? {} : { doubted: input.doubted }),
      product,
    }),
  )
  const logGrowth = growth.logGrowth()
  return {
    findings,
    notApplicable: [...figures('coolingNotApplicable')(product)],
    stabilization,
    summary: summarise(stabilization, findings),
    chillStartMinute: track.chillStartMinute,
    perfringens: {
      logGrowth,
      conservative: true,
      source: `${perfringensSource.document}; ${perfringensSource.section}`,
      note: perfringensNote(track.holeCount > 0),
    },
    caution: CHILL_CAUTION + uncountedNote(track),
    working: chillWorking(track, findings, logGrowth),
  }
}

/** The measured times behind the findings, and the growth. */
export const chillWorking = (track: Track, findings: readonly Finding[], logGrowth: number): WorkingStep[] => [
  {
    step: 'Cooling begins',
    expression: 'last minute at the peak, or as given',
    value: track.chillStartMinute,
    unit: 'min',
  },
  uncountedStep(track),
  ...findings.flatMap((f) =>
    f.measured === undefined ? [] : [{ step: f.title, expression: f.because, value: f.measured, unit: f.unit }],
  ),
  {
    step: 'C. perfringens, estimated growth in uncured beef',
    expression: 'ln(e^-3.6 (e^I - 1) + 1) / ln 10, I = sum of the rate at the core temperature over time',
    value: logGrowth,
    unit: 'log10',
  },
]
