import { calibratedOn } from './instrument-days.ts'
import type { BatchFacts } from './facts.ts'
import { dayOf } from './local-day.ts'

/** One measured pH, and whether it counts. */
export type PhReading = {
  /** Seconds from 1970. */
  readonly at: number
  readonly taken: string
  readonly step: string
  readonly ph: number
  readonly piece?: string
  /** Largest error of the meter by its check of that day. */
  readonly tolerance: number
  /** That error is the usual one of a meter: its check gave none. */
  readonly assumed?: true
  readonly counts: boolean
  /** Why it does not count, and what would make one that does. */
  readonly because?: string
  readonly settle?: string
}

/** The pH a batch stands at after a sampling: the highest of what was last measured of each piece. */
export type PhLevel = {
  readonly at: number
  readonly taken: string
  readonly step: string
  readonly ph: number
  readonly tolerance: number
  readonly assumed?: true
  readonly counts: boolean
  readonly because?: string
  readonly settle?: string
}

/** Readings taken within this many seconds of each other are of one sampling; a choice of ours. */
const ONE_SAMPLING_S = 60 * 60
/** A higher reading said to be of the drying still speaks of the ripening for this long, seconds; later, mould may raise it. A choice of ours. */
const STILL_RIPENING_S = 72 * 3600

/** Every pH measured on a batch, in the order taken; one of a meter not calibrated that day does not count. */
export function phReadings(facts: BatchFacts): PhReading[] {
  return (facts.measures ?? [])
    .flatMap((m): PhReading[] => {
      if (m.what !== 'ph' || m.value === undefined) return []
      const trust = calibratedOn(facts, m.instrument, dayOf(facts, m.taken), 'buffer', m.value)
      const shared = {
        at: Date.parse(m.taken) / 1000,
        taken: m.taken,
        step: m.step,
        ph: m.value,
        ...(m.piece === undefined ? {} : { piece: m.piece }),
      }
      return trust.ok
        ? [{ ...shared, tolerance: trust.tolerance ?? 0, ...(trust.assumed ? { assumed: true } : {}), counts: true }]
        : [{ ...shared, tolerance: 0, counts: false, because: trust.because, settle: trust.settle }]
    })
    .toSorted((a, b) => a.at - b.at)
}

/**
 * Where the batch stood at each reading: the highest of all that was measured within an hour of it, before or after, and of the last reading
 * of every marked piece. One fast piece ends nothing, in whatever order they were read, and one that lags holds the batch back until it is
 * measured again.
 */
export function phLevels(readings: readonly PhReading[]): PhLevel[] {
  const latest = new Map<string, PhReading>()
  return readings.map((r) => {
    latest.set(r.piece ?? '', r)
    const standing = [...latest.values()]
    const together = readings.filter((x) => Math.abs(x.at - r.at) <= ONE_SAMPLING_S)
    const highest = [...standing, ...together].reduce((a, b) => (b.ph + b.tolerance > a.ph + a.tolerance ? b : a))
    const weak = [...standing, highest].find((s) => !s.counts)
    return {
      at: r.at,
      taken: r.taken,
      step: r.step,
      ph: highest.ph,
      tolerance: highest.tolerance,
      ...(highest.assumed ? { assumed: true } : {}),
      counts: weak === undefined,
      ...(weak?.because === undefined ? {} : { because: weak.because }),
      ...(weak?.settle === undefined ? {} : { settle: weak.settle }),
    }
  })
}

/** Whether a later sampling, taken before the ripening was over, is above a pH that was reached. */
export const reopened = (levels: readonly PhLevel[], reached: PhLevel, above: (later: PhLevel) => boolean): boolean =>
  levels.some(
    (k) =>
      k.at > reached.at &&
      ((k.step !== 'dry' && k.step !== 'pack') || k.at - reached.at <= STILL_RIPENING_S) &&
      above(k),
  )
