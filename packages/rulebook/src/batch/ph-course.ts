import { calibratedOn } from './instrument-days.ts'
import type { BatchFacts } from './facts.ts'

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
  readonly counts: boolean
  readonly because?: string
  readonly settle?: string
}

/** Readings of pieces that bear no mark, taken within this many seconds, are of one sampling; a choice of ours. */
const ONE_SAMPLING_S = 30 * 60

/** Every pH measured on a batch, in the order taken; one of a meter not calibrated that day does not count. */
export function phReadings(facts: BatchFacts): PhReading[] {
  return (facts.measures ?? [])
    .flatMap((m): PhReading[] => {
      if (m.what !== 'ph' || m.value === undefined) return []
      const trust = calibratedOn(facts, m.instrument, m.taken.slice(0, 10), 'buffer')
      const shared = {
        at: Date.parse(m.taken) / 1000,
        taken: m.taken,
        step: m.step,
        ph: m.value,
        ...(m.piece === undefined ? {} : { piece: m.piece }),
      }
      return trust.ok
        ? [{ ...shared, tolerance: trust.tolerance ?? 0, counts: true }]
        : [{ ...shared, tolerance: 0, counts: false, because: trust.because, settle: trust.settle }]
    })
    .toSorted((a, b) => a.at - b.at)
}

/** Where the batch stood after each reading: one piece that lags holds the batch back until it is measured again. */
export function phLevels(readings: readonly PhReading[]): PhLevel[] {
  const latest = new Map<string, PhReading>()
  let unmarked: PhReading | undefined
  return readings.map((r) => {
    if (r.piece !== undefined) latest.set(r.piece, r)
    else {
      const together = unmarked !== undefined && r.at - unmarked.at <= ONE_SAMPLING_S
      unmarked = together && unmarked!.ph > r.ph ? unmarked : r
      latest.set('', unmarked!)
    }
    const standing = [...latest.values()]
    const highest = standing.reduce((a, b) => (b.ph + b.tolerance > a.ph + a.tolerance ? b : a))
    const weak = standing.find((s) => !s.counts)
    return {
      at: r.at,
      taken: r.taken,
      step: r.step,
      ph: highest.ph,
      tolerance: highest.tolerance,
      counts: weak === undefined,
      ...(weak?.because === undefined ? {} : { because: weak.because }),
      ...(weak?.settle === undefined ? {} : { settle: weak.settle }),
    }
  })
}
