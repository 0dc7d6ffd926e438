import type { Finding, WorkingStep } from '../finding.ts'
import { judge, marks } from '../rules.ts'
import { createDeathIntegral, type DeathRate } from './death-integral.ts'
import { deathSet, deathSets, defaultDeathSet, type DeathSet, type Organism } from './data/death.ts'
import { withTolerance } from './fahrenheit.ts'
import { walkLog, walkOptions } from './core-walk.ts'
import type { Reading } from './reading.ts'
import { createTrackSink, type Track } from './track.ts'
import { uncountedNote, uncountedStep } from './uncounted.ts'

export type LethalityProduct = {
  readonly species?: 'meat' | 'chicken' | 'turkey' | 'other-poultry'
  readonly fatPct?: number
  readonly target?: '5-log' | '6.5-log' | '7-log' | 'patties'
  readonly fermented?: boolean
}

/** What is known of the humidity of the cook: why none is asked, or the option followed and for how long it was held. */
export type Humidity = {
  readonly exempt?:
    | 'immersed'
    | 'impermeable-bag'
    | 'moisture-holding-casing'
    | 'large-piece-hot-oven'
    | 'direct-heat'
    | 'patty'
  readonly option?: 1 | 2 | 3 | 4
  readonly cookMinutes?: number
  readonly heldMinutes?: number
}

/** Why a thermometer proves nothing, and what would settle it. */
export type ThermometerDoubt = { readonly because: string; readonly settle: string }

/** What the core asks the rulebook about a cook. */
export type LethalityQuestion = {
  readonly track: Track
  /** The thermometer is right within this, K. */
  readonly toleranceC: number
  /** True where nobody said how far the thermometer may be off. */
  readonly errorUnknown?: boolean
  readonly checkOverdue: boolean
  /** Why it proves nothing, where more is known than that its check is overdue. */
  readonly doubted?: ThermometerDoubt
  readonly product?: LethalityProduct
  readonly humidity?: Humidity
}

export type LethalityOptions = {
  readonly product?: LethalityProduct
  readonly humidity?: Humidity
  readonly toleranceC?: number
  readonly checkOverdue?: boolean
  readonly doubted?: ThermometerDoubt
  /** Longest step between readings that may be joined by a straight line; two and a half times the usual step unless given. */
  readonly maxGapMinutes?: number
  readonly acceptFalls?: boolean
}

export type LethalityInput = LethalityOptions & {
  readonly log: readonly Reading[]
  readonly organism: Organism
  readonly basis?: string
  readonly custom?: {
    readonly referenceC: number
    readonly dMinutes: number
    readonly zC: number
    readonly lowestC?: number
    readonly highestC?: number
  }
}

export type LethalityEstimate = {
  basis: string
  matrix: string
  logReduction: number
  equivalentMinutes: number
  referenceC: number
}

export type Lethality = {
  logReduction: number
  equivalentMinutes: number
  referenceC: number
  peakC: number
  basis: string
  /** The same log under every published set of the organism, the least reduction first. */
  estimates: LethalityEstimate[]
  findings: Finding[]
  caution: string
  working: WorkingStep[]
}

export const LETHALITY_CAUTION =
  'The log reduction is an estimate from published D and z and supports a decision by a qualified person; the findings hold the log against the published tables. Follow your local code.'

/** Accumulate equivalent minutes of a log under one rate. A step longer than `joinedMinutes` earns nothing. */
export function equivalentMinutes(log: readonly Reading[], rate: DeathRate, joinedMinutes: number): number {
  const integral = createDeathIntegral(rate, joinedMinutes)
  for (const { minute, coreC } of log) integral.push(coreC === null ? NaN : minute, coreC ?? 0)
  return integral.minutes()
}

const estimate = (set: DeathSet, minutes: number): LethalityEstimate => ({
  basis: set.id,
  matrix: set.matrix,
  logReduction: minutes / set.dMinutes,
  equivalentMinutes: minutes,
  referenceC: set.referenceC,
})

/** Working of an integrated lethality, from its equivalent minutes on. */
export const lethalityWorking = (rate: DeathRate, minutes: number, track: Track): WorkingStep[] => [
  { step: 'Peak of the core', expression: 'highest reading', value: track.peakC, unit: '°C' },
  uncountedStep(track),
  {
    step: 'Time at the reference that kills as much',
    expression: `sum over straight segments of dt z / (dT ln 10) (10^((T2 - ${rate.referenceC})/z) - 10^((T1 - ${rate.referenceC})/z)), z = ${Number(rate.zC.toFixed(4))} K${rate.lowestC === undefined ? '' : `, nothing below ${Number(rate.lowestC.toFixed(2))} °C`}${rate.highestC === undefined ? '' : `, no more than at ${Number(rate.highestC.toFixed(2))} °C above it`}`,
    value: minutes,
    unit: 'min',
  },
  {
    step: 'Log reduction',
    expression: `${Number(minutes.toPrecision(8))} / D, D = ${rate.dMinutes} min at ${rate.referenceC} °C`,
    value: minutes / rate.dMinutes,
    unit: 'log10',
  },
]

/** Every published estimate for an organism, the least first. */
export const estimatesOf = (organism: Organism, minutesOf: (set: DeathSet) => number): LethalityEstimate[] =>
  deathSets
    .filter((s) => s.organism === organism)
    .map((s) => estimate(s, minutesOf(s)))
    .toSorted((a, b) => a.logReduction - b.logReduction)

/**
 * Lethality of a core log: what published D and z make of it, and apart from that, whether it meets the regulation's own tables.
 * @throws RangeError for a basis that is not one of the organism's published sets.
 */
export function lethality(input: LethalityInput): Lethality {
  const { log, organism, basis, custom, product, humidity, toleranceC = 0, checkOverdue = false } = input
  const set = basis === undefined ? defaultDeathSet(organism) : deathSet(basis)
  if (set === undefined || set.organism !== organism)
    throw new RangeError(
      `basis: ${basis} is no set for ${organism}; allowed: ${deathSets
        .filter((s) => s.organism === organism)
        .map((s) => s.id)
        .join(', ')}`,
    )
  const rate: DeathRate = custom ?? set
  const tracked = createTrackSink({ marksC: withTolerance(marks('lethality'), toleranceC) })
  const sum = createDeathIntegral(rate)
  const sums = new Map(deathSets.map((s) => [s, createDeathIntegral(s)]))
  const { joining, out } = walkLog(
    log,
    [tracked.reading, sum.follow, ...[...sums.values()].map((s) => s.follow)],
    walkOptions(input),
  )
  const track = tracked.finish(log.at(-1)!.minute, joining, out)
  const minutes = sum.minutes()
  const findings = judge('lethality', {
    track,
    toleranceC,
    errorUnknown: input.toleranceC === undefined,
    checkOverdue,
    ...(input.doubted === undefined ? {} : { doubted: input.doubted }),
    ...(product === undefined ? {} : { product }),
    ...(humidity === undefined ? {} : { humidity }),
  })
  return {
    logReduction: minutes / rate.dMinutes,
    equivalentMinutes: minutes,
    referenceC: rate.referenceC,
    peakC: track.peakC,
    basis: custom === undefined ? set.id : 'custom',
    estimates: estimatesOf(organism, (s) => sums.get(s)!.minutes()),
    findings,
    caution: LETHALITY_CAUTION + uncountedNote(track),
    working: lethalityWorking(rate, minutes, track),
  }
}
