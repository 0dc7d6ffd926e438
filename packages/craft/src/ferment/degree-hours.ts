import { judge } from '../rules.ts'
import { exposure, type Exposure } from './exposure.ts'
import { reopened, standingLevels } from './ph-course.ts'
import type { DegreeHoursInput, DegreeHoursOutput } from './schema.ts'

/** What the rulebook is asked: degree-hours above a base, up to the moment the target pH was measured. */
export type DegreeHoursQuestion = {
  /** Exposure above the base temperature of a published system, with the chamber `shift` °C warmer than read. */
  readonly exposure: (system: string, baseC: number, shift: number) => Exposure
  readonly toleranceC: number
  readonly targetPh: number
  readonly hoursToTarget?: number
  readonly lastPh?: number
  /** The reading that holds the batch higher than the last: of a piece that lags, or of the same sampling. */
  readonly heldAt?: { readonly ph: number; readonly piece?: string }
  readonly phCounts: boolean
  /** Largest error of the pH meter; absent where nobody gave it, and then it counts as none. */
  readonly phTolerance?: number
  /** That error is the usual one of a meter, for nobody gave it. */
  readonly phErrorAssumed?: boolean
  /** The count as it ends at the earliest the meter allows; absent where that is where it ends. */
  readonly earliest?: Omit<DegreeHoursQuestion, 'earliest'>
  readonly on?: string
}

const F_PER_C = 1.8
/** Sums of a reading and an error carry rounding; this much of a pH decides nothing. */
const ROUNDING_PH = 1e-9

/**
 * Degree-hours of a fermentation: degrees of the chamber above the temperature at which Staphylococcus aureus starts to grow
 * effectively, times hours, until the product's pH is at or below the target; held against the limit for the highest temperature met.
 *
 * @param input chamber temperatures by the hour with pH readings; target pH 5.3 unless said
 * @returns degree-hours in the system asked for, hours to target, highest temperature, limit, a finding for each published system
 * @source American Meat Institute Foundation, Good manufacturing practices for fermented dry and semi-dry sausage (1997); CFIA,
 *   Meat hygiene manual of procedures, chapter 4, 4.16 (archived)
 */
export function degreeHours(input: DegreeHoursInput): DegreeHoursOutput {
  const { log, targetPh = 5.3, system = 'CA', toleranceC = 0, phTolerance, phMeterCalibrated, on } = input
  const levels = levelsOf(input)
  const surely = endOf(levels, targetPh, true)
  const perhaps = endOf(levels, targetPh, false)
  const shifted = (shift: number) =>
    shift === 0 ? log : log.map((r) => ({ ...r, tempC: r.tempC === null ? null : r.tempC + shift }))
  const bases = new Map<string, number>()
  const last = levels.at(-1)
  const endingAt = (reached: Level | undefined): Omit<DegreeHoursQuestion, 'earliest'> => ({
    exposure: (of, baseC, shift) => {
      bases.set(of, baseC)
      return exposure(shifted(shift), baseC, reached?.hour ?? log.at(-1)!.hour, true)
    },
    toleranceC,
    targetPh,
    phCounts: phMeterCalibrated !== false && reached?.counts !== false,
    ...(phTolerance === undefined ? {} : { phTolerance }),
    ...(reached ? { hoursToTarget: reached.hour - log[0]!.hour } : {}),
    ...(last === undefined ? {} : { lastPh: last.last }),
    ...(last === undefined || last.ph === last.last ? {} : { heldAt: last.heldAt }),
    ...(on === undefined ? {} : { on }),
  })
  const findings = judge('degreeHours', {
    ...endingAt(surely),
    ...(perhaps === surely ? {} : { earliest: endingAt(perhaps) }),
  })
  const own = findings.find((f) => f.jurisdiction === system)!
  // A fail stands at the earliest end of the count, anything else at the latest.
  const reached = own.verdict === 'fail' ? perhaps : surely
  const until = reached?.hour ?? log.at(-1)!.hour
  const error = phTolerance === undefined ? '' : ` (meter ± ${phTolerance})`
  const celsius = own.unit === '°C·h'
  const highestC = exposure(log, 0, until, true).highestC
  const used = own.measured ?? 0
  const rate = rateNow(log, bases.get(system)!, celsius)
  return {
    degreeHours: used,
    unit: own.unit,
    ...(surely ? { hoursToTarget: surely.hour - log[0]!.hour } : {}),
    highestC,
    limit: own.limit ?? 0,
    ...(!surely && rate > 0 ? { hoursLeft: Math.max(0, ((own.limit ?? 0) - used) / rate) } : {}),
    findings,
    working: [
      { step: 'start', expression: 'first reading', value: log[0]!.hour, unit: 'h' },
      {
        step: 'end of the count',
        expression: reached
          ? `first pH at or below ${targetPh}${error} that none later is above`
          : `last reading; pH ${targetPh} not reached${error}`,
        value: until,
        unit: 'h',
      },
      { step: 'highest chamber temperature', expression: 'up to the end of the count', value: highestC, unit: '°C' },
      {
        step: 'degree-hours',
        expression: `Σ (T − base) × hours, readings joined by straight lines, in ${celsius ? '°C' : '°F'}`,
        value: used,
        unit: own.unit,
      },
      { step: 'limit', expression: own.title, value: own.limit ?? 0, unit: own.unit },
    ],
  }
}

type Level = {
  readonly at: number
  readonly hour: number
  /** The pH the batch stands at, and the one read then. */
  readonly ph: number
  readonly last: number
  readonly heldAt: { readonly ph: number; readonly piece?: string }
  readonly tolerance: number
  readonly counts: boolean
  readonly step?: string
}

/** Where the batch stood at each pH of the log. */
function levelsOf({ log, phTolerance = 0, phMeterCalibrated }: DegreeHoursInput): Level[] {
  const points = log.flatMap((r) =>
    r.ph === undefined
      ? []
      : [
          {
            at: r.hour * 3600,
            hour: r.hour,
            ph: r.ph,
            tolerance: phTolerance,
            counts: r.phCounts ?? phMeterCalibrated !== false,
            ...(r.piece === undefined ? {} : { piece: r.piece }),
            ...(r.step === undefined ? {} : { step: r.step }),
          },
        ],
  )
  return standingLevels(points).map(({ reading, highest, weak }) => ({
    at: reading.at,
    hour: reading.hour,
    ph: highest.ph,
    last: reading.ph,
    heldAt: { ph: highest.ph, ...(highest.piece === undefined ? {} : { piece: highest.piece }) },
    tolerance: highest.tolerance,
    counts: weak === undefined,
    ...(reading.step === undefined ? {} : { step: reading.step }),
  }))
}

/** The reading that ends the count: surely, or as far as the error of the meter allows. One that does not count ends it only where none later does. */
function endOf(levels: readonly Level[], targetPh: number, sure: boolean): Level | undefined {
  const target = targetPh + ROUNDING_PH
  const ends = (l: Level): boolean =>
    l.ph + (sure ? l.tolerance : -l.tolerance) <= target &&
    !reopened(levels, l, (k) => (sure ? k.ph > target : k.counts && k.ph - k.tolerance > target))
  return (sure ? levels.find((l) => l.counts && ends(l)) : undefined) ?? levels.find(ends)
}

/** Degree-hours used up each hour at the last temperature. */
function rateNow(log: DegreeHoursInput['log'], baseC: number, celsius: boolean): number {
  const last = log.findLast((r) => r.tempC !== null)
  return last ? Math.max(0, last.tempC! - baseC) * (celsius ? 1 : F_PER_C) : 0
}
