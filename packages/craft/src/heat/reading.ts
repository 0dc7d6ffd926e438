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
export const HAND_MINUTES = 60
/**
 * Longest step joined where the usual one does not speak for it, minutes: a core is read at least this often.
 * @source FSIS-GD-2021-14, p. 75 (sampling frequency of temperatures)
 */
const READ_EVERY_MINUTES = 30
/** Steps beside a step that tell the pace there. */
export const NEAR_STEPS = 3
/** Steps within this share of the next one keep a pace. */
const SAME_PACE = 0.2

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
  /** True where the log has too few readings for a usual step, or keeps no pace: taken by hand, its longer steps are known at their ends only. */
  readonly byHand: boolean
  /** True where a limit was given: the pace beside a step then does not speak for it. */
  readonly given?: boolean
}

/** True where fewer than half of the steps are as long as the one before or after: nobody's logger reads so. */
function uneven(steps: readonly number[]): boolean {
  const alike = (a: number, b: number | undefined): boolean =>
    b !== undefined && Math.abs(a - b) <= SAME_PACE * Math.max(a, b)
  return steps.filter((s, i) => alike(s, steps[i - 1]) || alike(s, steps[i + 1])).length < steps.length / 2
}

const upperQuartile = (steps: readonly number[]): number =>
  steps.toSorted((a, b) => a - b)[Math.floor(0.75 * steps.length)]!

/** Middle of a few steps, of two the shorter; one alone keeps no pace. */
const paceOf = (steps: readonly number[]): number =>
  steps.length < 2 ? 0 : steps.toSorted((a, b) => a - b)[Math.floor((steps.length - 1) / 2)]!

/**
 * Whether a step that is longer than the log's usual one keeps the pace of the steps before or after it: a logger set to another
 * interval. A gap among short steps keeps neither.
 */
export function keepsPace(step: number, before: readonly number[], after: readonly number[]): boolean {
  // The second step of a log has but the first to keep pace with.
  const pace = Math.max(before.length === 1 ? before[0]! : paceOf(before), paceOf(after))
  return step <= Math.min(READ_EVERY_MINUTES, STEPS_JOINED * pace) + 1e-9
}

/**
 * The one rule of which steps of a core log may be joined. `times` are the minutes of its rows, read or missing; the first
 * `HEAD_ROWS` count. A limit that was given wins; else two and a half times the usual step, or an hour in a log of under seven rows; in a
 * longer one that keeps no pace two and a half times the step that three in four do not exceed, at most half an hour.
 */
export function joiningOf(times: readonly number[], maxGapMinutes?: number): Joining {
  if (maxGapMinutes !== undefined) return { minutes: maxGapMinutes, byHand: false, given: true }
  const head = times.slice(0, HEAD_ROWS)
  if (head.length <= FEW_STEPS) return { minutes: HAND_MINUTES, byHand: true }
  const steps = stepsOf(head)
  const minutes = joinableMinutes(head)
  if (!uneven(steps)) return { minutes, byHand: false }
  return { minutes: Math.max(minutes, Math.min(READ_EVERY_MINUTES, STEPS_JOINED * upperQuartile(steps))), byHand: true }
}
