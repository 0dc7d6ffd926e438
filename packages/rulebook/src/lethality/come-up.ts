import { celsiusOfF } from '@forcemeat/craft/heat/fahrenheit'
import type { Track } from '@forcemeat/craft/heat/track'
import { comeUp } from '../../data/lethality/process.ts'
import { atTheMost } from './error.ts'
import type { Outcome } from './hold.ts'

export const comeUpMarks: readonly number[] = [celsiusOfF(comeUp.fromF), celsiusOfF(comeUp.toF)]

const tidy = (x: number): number => Number(x.toFixed(3))

/**
 * Time of the centre between the two temperatures of the come-up option, at the shortest and the longest it can have been. A log that begins
 * above the lower one, ends below the upper one, or hides the whole come-up in one hole says only how long it was at least.
 */
export function judgeComeUp(track: Track, toleranceC: number): Outcome {
  const [low, high] = comeUpMarks as [number, number]
  const limit = comeUp.maxMinutes
  const begun = track.at(low - toleranceC).firstUp
  if (begun === undefined)
    return {
      verdict: 'cannot-tell',
      because: `the core never reached ${comeUp.fromF} °F in this log`,
      settle: 'the log of the whole cook',
    }
  const reached = track.at(high + toleranceC).firstUp
  const measured = tidy((reached?.to ?? track.endMinute) - begun.from)
  const soonest = track.at(high - toleranceC).firstUp?.from ?? track.endMinute
  const least = tidy(Math.max(0, soonest - (track.at(low + toleranceC).firstUp?.to ?? soonest)))
  const found = { measured, limit, margin: tidy(limit - measured) }
  const hidden = track.holes.find(
    (h) =>
      (begun.from !== begun.to && h.fromMinute === begun.from) ||
      (reached !== undefined && reached.from !== reached.to && h.toMinute === reached.to),
  )
  const range = hidden === undefined ? `${measured}` : `${least} to ${measured}`
  const text = `${range} min from ${comeUp.fromF} to ${comeUp.toF} °F${atTheMost(toleranceC)}; allowed at most ${limit} min`
  if (least > limit + 1e-9) return { verdict: 'fail', because: text, ...found }
  if (track.startC > low + 1e-9)
    return {
      verdict: 'cannot-tell',
      because: `the log begins at ${tidy(track.startC)} °C, above ${comeUp.fromF} °F: ${measured} min is the least it can have been`,
      settle: 'when the product left 10 °C (50 °F), or a log that begins there',
      ...found,
    }
  if (reached === undefined)
    return {
      verdict: 'cannot-tell',
      because: `the core did not reach ${comeUp.toF} °F in this log`,
      settle: 'the log of the whole cook',
      ...found,
    }
  const all = hidden !== undefined && begun.from === hidden.fromMinute && reached.to === hidden.toMinute
  if (hidden !== undefined && (all || measured > limit + 1e-9))
    return {
      verdict: 'cannot-tell',
      because: `${text}; no reading that can be believed from minute ${tidy(hidden.fromMinute)} to ${tidy(hidden.toMinute)}`,
      settle: 'a second probe or hand readings of that time',
      ...found,
    }
  if (measured > limit + 1e-9)
    return {
      verdict: 'cannot-tell',
      because: `${text}; met or missed within the thermometer's error of ±${toleranceC} °C`,
      settle: 'a thermometer with a smaller error',
      ...found,
    }
  return { verdict: 'pass', because: text, ...found }
}
