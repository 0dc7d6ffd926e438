import type { Finding } from '../finding.ts'
import { splitCooling } from '../heat/chill.ts'
import { createDeathIntegral } from '../heat/death-integral.ts'
import { deathSets } from '../heat/data/death.ts'
import { withTolerance } from '../heat/fahrenheit.ts'
import { estimatesOf, type LethalityEstimate } from '../heat/lethality.ts'
import { createPerfringens } from '../heat/perfringens.ts'
import { createTracker, type Hole } from '../heat/track.ts'
import { SHORTEST_HOLE_MINUTES, STEPS_JOINED } from '../heat/reading.ts'
import { judge, marks } from '../rules.ts'
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
    readonly logGrowth: number
  }
  /** Stretches in which this probe did not show the core. */
  readonly holes: readonly Hole[]
  readonly findings: readonly Finding[]
}

/** Judges one core probe reading by reading, in constant memory. */
export function createProbeJudge(name: string, stepMinutes: number, options: JudgeOptions) {
  const {
    organism = 'salmonella',
    toleranceC = 0,
    checkOverdue = false,
    acceptFalls = false,
    chillStartMinute,
    product,
    humidity,
    cooling,
  } = options
  const joinedMinutes = options.maxGapMinutes ?? Math.max(SHORTEST_HOLE_MINUTES, STEPS_JOINED * stepMinutes)
  const tracker = createTracker({
    marksC: withTolerance([...marks('lethality'), ...marks('cooling')], toleranceC),
    joinedMinutes,
    acceptFalls,
    ...(chillStartMinute === undefined ? {} : { chillStartMinute }),
  })
  const sets = deathSets
    .filter((s) => s.organism === organism)
    .map((set) => ({ set, integral: createDeathIntegral(set, joinedMinutes) }))
  const coolest = Math.min(...sets.map(({ set }) => set.lowestC))
  const growth = createPerfringens(joinedMinutes)
  let peak = -Infinity
  let before = -Infinity
  let readings = 0

  const push = (minute: number, tempC: number): void => {
    if (tempC !== tempC) return
    readings++
    tracker.push(minute, tempC)
    // Below every studied temperature a reading earns nothing: two such in a row need no sums.
    if (tempC >= coolest || before >= coolest) for (const { integral } of sets) integral.push(minute, tempC)
    else for (const { integral } of sets) integral.skip(minute, tempC)
    before = tempC
    growth.push(minute, tempC)
    if (chillStartMinute === undefined ? tempC >= peak : minute <= chillStartMinute) {
      peak = tempC
      growth.reset()
    }
  }

  /** Judge what was pushed; undefined where the probe never gave a reading. */
  const finish = (lastMinute: number): ProbeJudgement | undefined => {
    if (readings === 0) return undefined
    const track = tracker.finish(lastMinute)
    const cook = judge('lethality', {
      track,
      toleranceC,
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
      judge('cooling', { track, toleranceC, checkOverdue, product: cooling }),
    )
    return {
      ...base,
      chill: {
        options: findings.map((f) => f.rule),
        stabilizationRule: stabilization.rule,
        logGrowth: growth.logGrowth(),
      },
      findings: [...cook, ...findings, stabilization],
    }
  }
  return { push, finish }
}
