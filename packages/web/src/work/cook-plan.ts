import type { Finding } from '@forcemeat/craft/finding'
import { chill, type ChillSummary, type CoolingProduct } from '@forcemeat/craft/heat/chill'
import { cook, type CookInput, type CookOutput } from '@forcemeat/craft/heat/cook'
import { defaultDeathSet } from '@forcemeat/craft/heat/data/death'
import { lethality, type LethalityEstimate, type LethalityProduct } from '@forcemeat/craft/heat/lethality'
import { lethalityCourse } from '@forcemeat/craft/heat/lethality-course'
import { trackLog } from '@forcemeat/craft/heat/track'
import { coolingMarks } from '@forcemeat/rulebook/cooling/judge'
import { coolingSpans, type CoolingSpan } from '@forcemeat/rulebook/cooling/spans'
import { targetReduction } from '@forcemeat/rulebook/lethality/target'

export type ProductFigures = { readonly lethality: LethalityProduct; readonly cooling: CoolingProduct }

export type PlanRequest = {
  readonly input: CookInput
  readonly targetCoreC?: number
  readonly product: ProductFigures
}

export type PlanTarget = {
  readonly label: string
  readonly metMinute?: number
  readonly rule?: string
}

export type PlanResult = {
  readonly minutes: readonly number[]
  readonly houseC: readonly number[]
  readonly surfaceC: readonly number[]
  readonly coreC: readonly number[]
  readonly logReduction: readonly number[]
  readonly lossPct: readonly number[]
  readonly cook: Omit<CookOutput, 'series'>
  readonly targets: readonly PlanTarget[]
  readonly estimates: readonly LethalityEstimate[]
  /** What the tables and the cooling options would say if a probe read this core. */
  readonly ifMeasured: readonly Finding[]
  readonly chill?: ChillSummary & { readonly logGrowth: number; readonly spans: readonly CoolingSpan[] }
}

type Point = { readonly minute: number; readonly coreC: number }

/** First minute at which a course that never falls reaches a value, straight between its points. */
function reachedAt(course: readonly { minute: number; value: number }[], value: number): number | undefined {
  const i = course.findIndex((p) => p.value >= value)
  if (i <= 0) return i === 0 ? course[0]!.minute : undefined
  const [a, b] = [course[i - 1]!, course[i]!]
  return a.minute + ((value - a.value) / (b.value - a.value)) * (b.minute - a.minute)
}

/** Steps of a predicted series are joined however long they are: between them nothing is unknown. */
const longestStep = (points: readonly Point[]): number =>
  points.reduce((m, p, i) => (i === 0 ? m : Math.max(m, p.minute - points[i - 1]!.minute)), 1)

/** Log reduction of Salmonella by the default set along a core. */
export const reductionCourse = (points: readonly Point[], joinedMinutes: number) =>
  lethalityCourse(
    points.map((p) => ({ minute: p.minute, tempC: p.coreC })),
    defaultDeathSet('salmonella'),
    joinedMinutes,
  )

/** Spans of the option that decides a chill: the first one met, else the first that applies. */
export function decidingSpans(
  log: readonly Point[],
  findings: readonly Finding[],
  joinedMinutes: number,
): CoolingSpan[] {
  const option = findings.find((f) => f.verdict === 'pass' && f.settle === undefined) ?? findings[0]
  if (!option) return []
  return coolingSpans(trackLog(log, { marksC: coolingMarks, joinedMinutes }), option.rule)
}

/** A core that comes down this far from its peak is being chilled. */
const CHILLED_C = 15

function chillOf(
  log: readonly Point[],
  product: CoolingProduct,
  joinedMinutes: number,
): Pick<PlanResult, 'chill' | 'ifMeasured'> {
  const peak = log.reduce((m, p) => Math.max(m, p.coreC), -Infinity)
  if (log.at(-1)!.coreC > peak - CHILLED_C) return { ifMeasured: [] }
  const judged = chill({ log, product, maxGapMinutes: joinedMinutes, acceptFalls: true })
  const spans = decidingSpans(log, judged.findings, joinedMinutes)
  return {
    chill: { ...judged.summary, logGrowth: judged.perfringens.logGrowth, spans },
    ifMeasured: [...judged.findings, judged.stabilization],
  }
}

/** A schedule run through: temperatures, weight, kill, when each target is met, and what the rules would make of such a core. */
export function planCook({ input, targetCoreC, product }: PlanRequest): PlanResult {
  const { series, ...rest } = cook(input)
  const joined = longestStep(series)
  const course = reductionCourse(series, joined)
  const killed = lethality({
    log: series,
    organism: 'salmonella',
    product: product.lethality,
    maxGapMinutes: joined,
    acceptFalls: true,
  })
  const target = targetReduction(product.lethality)
  const coreAt =
    targetCoreC === undefined
      ? undefined
      : reachedAt(
          series.map((p) => ({ minute: p.minute, value: p.coreC })),
          targetCoreC,
        )
  const logAt =
    target &&
    reachedAt(
      course.map((p) => ({ minute: p.minute, value: p.logReduction })),
      target.log,
    )
  const cooled = chillOf(series, product.cooling, joined)
  return {
    minutes: series.map((p) => p.minute),
    houseC: series.map((p) => p.houseC),
    surfaceC: series.map((p) => p.surfaceC),
    coreC: series.map((p) => p.coreC),
    lossPct: series.map((p) => p.weightLossPct),
    logReduction: course.map((p) => p.logReduction),
    cook: rest,
    targets: [
      ...(targetCoreC === undefined ? [] : [{ label: 'core', ...(coreAt === undefined ? {} : { metMinute: coreAt }) }]),
      ...(target === undefined
        ? []
        : [
            {
              label: `${target.log}-log of Salmonella, estimated`,
              rule: target.rule,
              ...(logAt === undefined ? {} : { metMinute: logAt }),
            },
          ]),
    ],
    estimates: killed.estimates,
    ...cooled,
    ifMeasured: [...killed.findings.filter((f) => f.rule !== 'us.fsis.lethality.humidity'), ...cooled.ifMeasured],
  }
}
