import type { Track } from '@forcemeat/craft/heat/track'
import type { Window } from '../../data/cooling/options.ts'

/** The metric equivalents of the °F steps are printed to a tenth: a log that begins that close under a step begins at it. */
const PRINTED_C = 0.05
const SAME_MINUTES = 1e-7

export type WindowOutcome = {
  readonly verdict: 'pass' | 'fail' | 'cannot-tell'
  readonly window: Window
  /** Minutes measured, the longest the readings allow; absent where the window was never entered. */
  readonly minutes?: number
  readonly reason?: string
  readonly settle?: string
}

const tidy = (x: number): number => Number(x.toFixed(2))

/**
 * Minutes the core took through one window after its peak: from first passing below the upper temperature to last passing below
 * the lower one before the end of the cooling. With a thermometer's error both the longest and the shortest time it can have been.
 */
export function judgeWindow(window: Window, track: Track, finalC: number, toleranceC: number): WindowOutcome {
  const { fromC, toC, maxMinutes } = window
  const within = (m: number): boolean =>
    window.strictlyUnder ? m < maxMinutes - SAME_MINUTES : m <= maxMinutes + SAME_MINUTES
  const tell = (reason: string, settle: string, minutes?: number): WindowOutcome => ({
    verdict: 'cannot-tell',
    window,
    reason,
    settle,
    ...(minutes === undefined ? {} : { minutes: tidy(minutes) }),
  })
  const began = (at: number): number | undefined => track.at(at).firstDownMinute
  const ended = (at: number, final: number): number | undefined => track.downBefore(at, final)

  const highest = Math.max(track.peakC, track.startC)
  const enters = highest >= fromC - PRINTED_C - 1e-9
  const hottest = fromC + toleranceC
  // Earliest the window can have begun and latest it can have ended.
  const passed = track.at(hottest).lastDownMinute
  const start =
    began(hottest) ??
    (highest < hottest + 1e-9
      ? track.chillStartMinute
      : passed !== undefined && passed < track.chillStartMinute
        ? passed
        : undefined)
  const stop = ended(toC - toleranceC, finalC - toleranceC)
  const shortStart = began(fromC - toleranceC) ?? start
  const shortStop = ended(toC + toleranceC, finalC + toleranceC)

  if (start === undefined || track.endC > fromC + toleranceC)
    return tell(
      `the log ends at ${tidy(track.endC)} °C, before the core passed ${window.shown}`,
      'the log of the whole chill',
    )
  const longest = (stop ?? track.endMinute) - start
  const shortest = (shortStop ?? track.endMinute) - (shortStart ?? start)
  const blind = track.holes.filter((h) => h.toMinute > start && h.fromMinute < (stop ?? track.endMinute) + SAME_MINUTES)
  const unseen = blind.reduce(
    (s, h) => s + Math.min(h.toMinute, stop ?? track.endMinute) - Math.max(h.fromMinute, start),
    0,
  )
  if (enters && !within(shortest - Math.max(0, unseen))) return { verdict: 'fail', window, minutes: tidy(longest) }
  if (!enters)
    return shortStop !== undefined && !within(shortStop - track.startMinute)
      ? { verdict: 'fail', window, minutes: tidy(shortStop - track.startMinute) }
      : tell(
          `the log begins at ${tidy(track.startC)} °C and never shows the core at the upper end of ${window.shown}`,
          'the log from the end of the cook on',
        )
  if (blind.length > 0) {
    const h = blind[0]!
    const why =
      h.why === 'probe-out'
        ? 'the probe left the product'
        : `there is no reading (steps over ${tidy(track.joinedMinutes)} min are not joined)`
    return tell(
      `${why} from minute ${tidy(h.fromMinute)} to ${tidy(h.toMinute)}`,
      'a second probe or hand readings of that time',
      longest,
    )
  }
  if (stop === undefined && track.endC > toC - toleranceC)
    return tell(
      `the log ends warm, at ${tidy(track.endC)} °C after ${tidy(longest)} min of ${window.shown}`,
      'the log until the core is below the lower temperature',
      longest,
    )
  if (!within(longest))
    return tell(
      `met or missed within the thermometer's error of ±${toleranceC} °C`,
      'a thermometer with a smaller error',
      longest,
    )
  return { verdict: 'pass', window, minutes: tidy(longest) }
}
