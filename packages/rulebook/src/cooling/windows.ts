import type { Hole, Span, Track } from '@forcemeat/craft/heat/track'
import { REWARMED_C, type Window } from '../../data/cooling/options.ts'

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

const reasons: Readonly<Record<Hole['why'], string>> = {
  'no-reading': 'there is no reading',
  'long-step': 'there is no reading',
  'probe-out': 'the probe left the product',
  spike: 'a reading stands out as no core can',
}

const unseen = (h: Hole, track: Track): string =>
  `${reasons[h.why]}${h.why === 'no-reading' ? ` (steps over ${tidy(track.joinedMinutes)} min are not joined)` : ''} from minute ${tidy(h.fromMinute)} to ${tidy(h.toMinute)}`

const hidden = (s: Span | undefined): boolean => s !== undefined && s.from !== s.to

/**
 * Minutes the core took through one window after its peak: from first passing below the upper temperature to last passing below
 * the lower one before the end of the cooling, the longest and the shortest it can have been. What widens it: the thermometer's error, and
 * holes, in which the upper edge counts from the start and the lower one from the end. A core that warms again over the upper temperature fails.
 */
export function judgeWindow(window: Window, track: Track, finalC: number, toleranceC: number): WindowOutcome {
  const asked = judgeTo(window, track, finalC, toleranceC)
  if (window.orToC === undefined || asked.verdict !== 'fail') return asked
  const warmer = judgeTo({ ...window, toC: window.orToC }, track, finalC, toleranceC)
  if (warmer.verdict === 'fail') return asked
  return {
    ...asked,
    verdict: 'cannot-tell',
    reason: `${warmer.verdict === 'pass' ? 'met' : 'perhaps met'} to ${tidy(window.orToC)} °C and missed to ${tidy(window.toC)} °C: sources disagree on which is the end`,
    settle: 'read the end of the option in its source',
  }
}

function judgeTo(window: Window, track: Track, finalC: number, toleranceC: number): WindowOutcome {
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

  const highest = Math.max(track.peakC, track.startC)
  const enters = highest >= fromC - PRINTED_C - 1e-9
  const hottest = fromC + toleranceC
  // Earliest the window can have begun and latest it can have ended.
  const passed = track.at(hottest).lastDownMinute
  const begun = track.at(hottest).firstDown
  const start =
    begun?.from ??
    (highest < hottest + 1e-9
      ? track.chillStartMinute
      : passed !== undefined && passed < track.chillStartMinute
        ? passed
        : undefined)
  const ended = track.spanBefore(toC - toleranceC, finalC - toleranceC)
  const surelyBegun = track.at(fromC - toleranceC).firstDown?.to ?? begun?.to ?? start
  const soonestEnd = track.spanBefore(toC + toleranceC, finalC + toleranceC)

  if (start === undefined || track.endC > hottest) {
    const lost = track.holes.at(-1)
    const open = lost !== undefined && lost.afterC === undefined ? `; ${unseen(lost, track)}` : ''
    return tell(
      `the log ends at ${tidy(track.endC)} °C, before the core passed ${window.shown}${open}`,
      'the log of the whole chill',
    )
  }
  const stop = ended?.to ?? track.endMinute
  const longest = stop - start
  const shortest = Math.max(0, (soonestEnd?.from ?? track.endMinute) - (surelyBegun ?? start))
  if (enters && !within(shortest)) return { verdict: 'fail', window, minutes: tidy(longest) }
  if (!enters)
    return soonestEnd !== undefined && !within(soonestEnd.from - track.startMinute)
      ? { verdict: 'fail', window, minutes: tidy(soonestEnd.from - track.startMinute) }
      : tell(
          `the log begins at ${tidy(track.startC)} °C and never shows the core at the upper end of ${window.shown}`,
          'the log from the end of the cook on',
        )
  /** Until when the core was back over a temperature it had cooled through. */
  const backOver = (c: number): number | undefined => {
    const entered = track.at(c - toleranceC).firstDown
    const warm = track.spanBefore(c + REWARMED_C + toleranceC, finalC - toleranceC)
    return entered !== undefined && warm !== undefined && warm.to > entered.to + SAME_MINUTES ? warm.to : undefined
  }
  const warmUntil = backOver(fromC)
  if (warmUntil !== undefined)
    return {
      verdict: 'fail',
      window,
      minutes: tidy(longest),
      reason: `the core warmed again over ${tidy(fromC)} °C until minute ${tidy(warmUntil)}: it did not cool continuously`,
    }
  const blind = track.holes.filter((h) => h.toMinute > start && h.fromMinute < stop + SAME_MINUTES)
  // A lost reading hides no warming; between readings by hand the times are known if the two edges lie in different steps.
  const bounded = (h: Hole): boolean =>
    (h.why === 'long-step' && !(hidden(begun) && hidden(ended) && start === h.fromMinute && stop === h.toMinute)) ||
    (h.toMinute - h.fromMinute <= track.joinedMinutes + SAME_MINUTES && h.why !== 'probe-out')
  const hides = within(longest) ? blind.find((h) => !bounded(h)) : blind[0]
  if (hides !== undefined)
    return tell(
      `${tidy(shortest)} to ${tidy(longest)} min are possible; ${unseen(hides, track)}`,
      'a second probe or hand readings of that time',
      longest,
    )
  if (ended === undefined && track.endC > toC - toleranceC)
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
  const inside = window.stepOfOthersC === undefined ? undefined : backOver(window.stepOfOthersC)
  if (inside !== undefined)
    return tell(
      `the core warmed again over ${tidy(window.stepOfOthersC!)} °C until minute ${tidy(inside)}; this form has no step there, but asks that the core cool continuously`,
      'whether that was continuous cooling, judged by a qualified person',
      longest,
    )
  return { verdict: 'pass', window, minutes: tidy(longest) }
}
