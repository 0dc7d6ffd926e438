import type { AirChannel, BatchMeasure } from './slow-facts.ts'
import type { BatchFacts } from './facts.ts'
import { dayOf } from './local-day.ts'
import { dries } from './slow-kind.ts'

/** Steps at which a product is not finished yet. */
export const EARLY_STEPS: ReadonlySet<string> = new Set(['receive', 'grind', 'mix', 'stuff'])
const DAY_S = 24 * 3600

const epoch = (instant: string): number => Date.parse(instant) / 1000
const latest = (xs: readonly number[]): number | undefined => (xs.length === 0 ? undefined : Math.max(...xs))

/** When a batch was taken out of the last room it dried in, and hung in none to dry again, seconds from 1970. */
function takenOut({ placements = [] }: Pick<BatchFacts, 'placements'>): number | undefined {
  const inTime = placements.toSorted((a, b) => epoch(a.at) - epoch(b.at))
  const last = inTime.findLastIndex((p) => p.purpose === 'dry')
  const next = last < 0 ? undefined : inTime[last + 1]
  return next && epoch(next.at)
}

/**
 * When the drying ends, seconds from 1970: with the last log of it, or where the batch was taken out before, for the log of a room goes on
 * without it; nothing where no log can be placed.
 */
export function dryingEnds(
  facts: Pick<BatchFacts, 'curves' | 'placements'>,
  air: readonly AirChannel[] = [],
): number | undefined {
  const drying = new Set(facts.curves.filter((c) => c.purpose === 'dry').map((c) => c.seq))
  const logged = latest(
    air.flatMap((c) => {
      const last = c.readings.findLast((r) => r.value !== null)?.minute
      return drying.has(c.seq) && c.starts && last !== undefined ? [c.starts.at + 60 * last] : []
    }),
  )
  return endOfDrying(facts, logged)
}

/** The end of a drying's log, or the taking out of its batch where that came before; seconds from 1970. */
export function endOfDrying(
  facts: Pick<BatchFacts, 'placements'>,
  loggedUntil: number | undefined,
): number | undefined {
  const out = takenOut(facts)
  return loggedUntil === undefined || out === undefined ? loggedUntil : Math.min(loggedUntil, out)
}

/** Why a measure says nothing of the finished product, or nothing where it may. */
export type NotTheEnd = (m: Pick<BatchMeasure, 'step' | 'taken'>) => string | undefined

/**
 * Tells the measures of a finished product from those of one that is still being made: none of the day it was made or before, and, where it is
 * dried, none of another step, none within a day of the souring's last pH, and none more than a day before its last weighing or the end of the
 * drying's log.
 *
 * @param dryEndsAt end of the drying's log, seconds from 1970
 */
export function notTheEnd(facts: BatchFacts, dryEndsAt?: number): NotTheEnd {
  const { measures = [], on } = facts
  const dried = dries(facts)
  const weighed = latest(
    measures.flatMap((m) => (m.what === 'weight' && m.piece !== undefined ? [epoch(m.taken)] : [])),
  )
  const soured = latest(measures.flatMap((m) => (m.what === 'ph' && m.step === 'ferment' ? [epoch(m.taken)] : [])))
  return ({ step, taken }) => {
    const at = epoch(taken)
    if (dayOf(facts, taken) <= on) return 'it was taken before the batch was made, or on the day it was'
    if (EARLY_STEPS.has(step)) return 'it was taken of a product not finished'
    if (!dried) return undefined
    if (step !== 'dry' && step !== 'pack') return 'it was taken before the drying, and may have changed since'
    if (soured !== undefined && at < soured + DAY_S)
      return 'it was taken within a day of the souring, before the drying'
    if (weighed !== undefined && at < weighed - DAY_S) return 'the pieces were weighed on for more than a day after it'
    if (dryEndsAt !== undefined && at < dryEndsAt - DAY_S)
      return 'the log of the drying goes on for more than a day after it'
    return undefined
  }
}
