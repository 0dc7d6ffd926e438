import { z } from 'zod'
import { list, minutes, tempC } from '../schema.ts'

/** One reading of a core probe: minutes from the start of the log, °C; null where the probe gave no reading. */
export type Reading = { readonly minute: number; readonly coreC: number | null }

/** A core log: minutes strictly ascending; null marks a reading that is missing. */
export const coreLogSchema = () =>
  list(z.strictObject({ minute: minutes(), coreC: tempC().nullable() }), { min: 1, max: 2_000_000 }).superRefine(
    (log, ctx) => {
      for (let i = 1; i < log.length; i++) {
        const before = log[i - 1]!.minute
        const { minute } = log[i]!
        if (minute > before) continue
        ctx.addIssue({
          code: 'custom',
          path: [i, 'minute'],
          message: `is ${minute}, not after ${before} of the reading before it; allowed: minutes strictly ascending`,
        })
        return
      }
      if (log.every((r) => r.coreC === null))
        ctx.addIssue({
          code: 'custom',
          message: 'holds no reading at all; allowed: at least one coreC that is a number',
        })
    },
  )

/** Fewer steps than this and a log has no spacing of its own to judge a hole by. */
const FEW_STEPS = 6
/** Steps up to this many times the usual one are joined; common practice, no source: one reading lost, with a logger's jitter. */
export const STEPS_JOINED = 2.5
/** No core moves out of sight within this time, whatever the logger's pace, minutes. */
export const SHORTEST_HOLE_MINUTES = 1

/** Longest step joined in a log that has no usual one, minutes; a choice of ours, no source: a core is followed by hand at least hourly. */
const HAND_MINUTES = 60

const usual = (steps: readonly number[]): number => steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)]!
const stepsOf = (times: readonly number[]): number[] => times.slice(1).map((t, i) => t - times[i]!)

/**
 * Longest step between two readings that may be joined by a straight line, minutes: two and a half times the usual (median) step, never
 * under one minute, nor over that many hours: what is looked at more seldom than hourly is not followed. A log of fewer than seven
 * readings has no usual step; an hour counts for it.
 *
 * @param handMinutes longest step of a log without a usual one, and the longest usual step there is, minutes
 */
export function joinableMinutes(times: readonly number[], handMinutes: number = HAND_MINUTES): number {
  const steps = stepsOf(times)
  if (steps.length === 0) return SHORTEST_HOLE_MINUTES
  if (steps.length < FEW_STEPS) return handMinutes
  return Math.max(SHORTEST_HOLE_MINUTES, STEPS_JOINED * Math.min(handMinutes, usual(steps)))
}

/**
 * The same for a course that is stated by its corners (a stage from one hour to another) and not read: with fewer than seven of them the
 * longest step is joined, for nobody claims to have looked. It may be reckoned with; it proves nothing of a batch.
 */
export function statedMinutes(times: readonly number[]): number {
  const steps = stepsOf(times)
  if (steps.length === 0) return SHORTEST_HOLE_MINUTES
  if (steps.length < FEW_STEPS) return Math.max(SHORTEST_HOLE_MINUTES, ...steps)
  return Math.max(SHORTEST_HOLE_MINUTES, STEPS_JOINED * usual(steps))
}

/** Rows at the head of a log whose spacing counts as its usual one: a log that streams by is judged as the whole file is. */
export const HEAD_ROWS = 121
/** How the readings of a core log hang together. */
export type Joining = {
  /** Longest step joined by a straight line, minutes. */
  readonly minutes: number
  /** True where the log has too few readings for a usual step: taken by hand, its longer steps are known at their ends only. */
  readonly byHand: boolean
}

/**
 * The one rule of which steps of a core log may be joined. `times` are the minutes of its rows, read or missing; the first
 * `HEAD_ROWS` count. A limit that was given wins; else two and a half times the usual step, or an hour in a log of under seven rows.
 */
export function joiningOf(times: readonly number[], maxGapMinutes?: number): Joining {
  if (maxGapMinutes !== undefined) return { minutes: maxGapMinutes, byHand: false }
  const head = times.slice(0, HEAD_ROWS)
  return head.length <= FEW_STEPS
    ? { minutes: HAND_MINUTES, byHand: true }
    : { minutes: joinableMinutes(head), byHand: false }
}
