import { celsiusOfF } from '@forcemeat/craft/heat/fahrenheit'
import type { Track } from '@forcemeat/craft/heat/track'
import { comeUp } from '../../data/lethality/process.ts'
import type { Outcome } from './hold.ts'

export const comeUpMarks: readonly number[] = [celsiusOfF(comeUp.fromF), celsiusOfF(comeUp.toF)]

const tidy = (x: number): number => Number(x.toFixed(3))

/**
 * Time of the centre between the two temperatures of the come-up option. A log that begins above the lower one, ends below the
 * upper one or has a hole on the way says only how long it was at least.
 */
export function judgeComeUp(track: Track, toleranceC: number): Outcome {
  const [low, high] = comeUpMarks as [number, number]
  const limit = comeUp.maxMinutes
  const begun = track.at(low - toleranceC).firstUpMinute
  if (begun === undefined)
    return {
      verdict: 'cannot-tell',
      because: `the core never reached ${comeUp.fromF} °F in this log`,
      settle: 'the log of the whole cook',
    }
  const reached = track.at(high + toleranceC).firstUpMinute
  const until = reached ?? track.endMinute
  const measured = tidy(until - begun)
  const least =
    (track.at(high - toleranceC).firstUpMinute ?? track.endMinute) - (track.at(low + toleranceC).firstUpMinute ?? until)
  const found = { measured, limit, margin: tidy(limit - measured) }
  const text = `${measured} min from ${comeUp.fromF} to ${comeUp.toF} °F, at most ${limit} min`
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
  if (measured > limit + 1e-9)
    return {
      verdict: 'cannot-tell',
      because: `${text}; met or missed within the thermometer's error of ±${toleranceC} °C`,
      settle: 'a thermometer with a smaller error',
      ...found,
    }
  return { verdict: 'pass', because: text, ...found }
}
