import { standingLevels } from '@forcemeat/craft/ferment/ph-course'
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

/** The pH a batch stands at after a sampling: the highest of what was last measured of each piece that still holds it. */
export type PhLevel = {
  readonly at: number
  readonly taken: string
  readonly step: string
  readonly ph: number
  /** The pH read then; where a piece that lags holds it higher, that piece. */
  readonly last: number
  readonly piece?: string
  readonly tolerance: number
  readonly assumed?: true
  readonly counts: boolean
  readonly because?: string
  readonly settle?: string
}

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

/** Where the batch stood at each reading, by the rules of `standingLevels`. */
export const phLevels = (readings: readonly PhReading[]): PhLevel[] =>
  standingLevels(readings).map(({ reading, highest, weak }) => ({
    at: reading.at,
    taken: reading.taken,
    step: reading.step,
    ph: highest.ph,
    last: reading.ph,
    ...(highest.piece === undefined ? {} : { piece: highest.piece }),
    tolerance: highest.tolerance,
    ...(highest.assumed ? { assumed: true } : {}),
    counts: weak === undefined,
    ...(weak?.because === undefined ? {} : { because: weak.because }),
    ...(weak?.settle === undefined ? {} : { settle: weak.settle }),
  }))

export { reopened } from '@forcemeat/craft/ferment/ph-course'
