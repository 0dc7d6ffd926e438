import type { Finding } from '../finding.ts'
import { splitCooling, type NotApplicable } from '../heat/chill.ts'
import { createDeathIntegral } from '../heat/death-integral.ts'
import { deathSets } from '../heat/data/death.ts'
import { withTolerance } from '../heat/fahrenheit.ts'
import { estimatesOf, type LethalityEstimate } from '../heat/lethality.ts'
import { createPerfringens } from '../heat/perfringens.ts'
import { createCoreWalk, walkOptions } from '../heat/core-walk.ts'
import { createTrackSink, type Hole } from '../heat/track.ts'
import { figures, judge, marks } from '../rules.ts'
import type { JudgeOptions } from './judge-log.ts'

export type ProbeJudgement = {
  readonly name: string
  readonly peakC: number
  readonly endC: number
  readonly peakMinute: number
  /** By the default set of the organism. */
  readonly logReduction: number
  readonly estimates: readonly LethalityEstimate[]
  readonly chill?: {
    readonly options: readonly string[]
    readonly stabilizationRule: string
    readonly notApplicable: readonly NotApplicable[]
    readonly logGrowth: number
  }
  /** Stretches in which this probe did not show the core. */
  readonly holes: readonly Hole[]
  readonly findings: readonly Finding[]
}

/** Judges one core probe reading by reading, in constant memory. */
export function createProbeJudge(name: string, options: JudgeOptions) {
  const {
    organism = 'salmonella',
    toleranceC = 0,
    checkOverdue = false,
    chillStartMinute,
    product,
    humidity,
    // Nothing said of the product is no reason to leave its chill out.
    cooling = options.cookOnly ? undefined : {},
  } = options
  const errorUnknown = options.toleranceC === undefined
  const tracked = createTrackSink({
    marksC: withTolerance([...marks('lethality'), ...marks('cooling')], toleranceC),
    ...(chillStartMinute === undefined ? {} : { chillStartMinute }),
  })
  const sets = deathSets
    .filter((s) => s.organism === organism)
    .map((set) => ({ set, integral: createDeathIntegral(set) }))
  const growth = createPerfringens(chillStartMinute)
  const walk = createCoreWalk(
    [tracked.reading, growth.follow, ...sets.map(({ integral }) => integral.follow)],
    walkOptions(options),
  )
  let readings = 0

  /** One row: the core, NaN where it gave no reading, and the house beside it. */
  const push = (minute: number, tempC: number, houseC = NaN): void => {
    if (tempC === tempC) readings++
    walk.push(minute, tempC, houseC)
  }

  /** Judge what was pushed; undefined where the probe never gave a reading. */
  const finish = (lastMinute: number): ProbeJudgement | undefined => {
    if (readings === 0) return undefined
    const { joining, out } = walk.end()
    const track = tracked.finish(lastMinute, joining, out)
    const cook = judge('lethality', {
      track,
      toleranceC,
      errorUnknown,
      checkOverdue,
      ...(product === undefined ? {} : { product }),
      ...(humidity === undefined ? {} : { humidity }),
    })
    const estimates = estimatesOf(organism, (set) => sets.find((s) => s.set === set)!.integral.minutes())
    const base = {
      name,
      peakC: track.peakC,
      endC: track.endC,
      peakMinute: track.peakMinute,
      logReduction: sets[0]!.integral.minutes() / sets[0]!.set.dMinutes,
      estimates,
      holes: track.holes,
    }
    if (cooling === undefined) return { ...base, findings: cook }
    const { findings, stabilization } = splitCooling(
      judge('cooling', { track, toleranceC, errorUnknown, checkOverdue, product: cooling }),
    )
    return {
      ...base,
      chill: {
        options: findings.map((f) => f.rule),
        stabilizationRule: stabilization.rule,
        notApplicable: figures('coolingNotApplicable')(cooling),
        logGrowth: growth.logGrowth(),
      },
      findings: [...cook, ...findings, stabilization],
    }
  }
  return { push, finish }
}
