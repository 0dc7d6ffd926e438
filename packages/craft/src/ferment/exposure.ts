import { joinableMinutes, statedMinutes } from '../heat/reading.ts'

type Reading = { readonly hour: number; readonly tempC: number | null }

/** Integral of max(0, T − base) along a straight line over `dt`, exact. */
const above = (t1: number, t2: number, base: number, dt: number): number => {
  const a = t1 - base
  const b = t2 - base
  if (a <= 0 && b <= 0) return 0
  if (a >= 0 && b >= 0) return ((a + b) / 2) * dt
  const top = Math.max(a, b)
  return ((top / 2) * top * dt) / Math.abs(b - a)
}

export type Exposure = {
  readonly degreeHours: number
  readonly highestC: number
  readonly hole: { readonly from: number; readonly to: number } | undefined
}

/**
 * Degrees above `baseC` times hours, from the first reading to hour `until`, with the highest temperature on the way. Readings are
 * joined by straight lines. A hole is a missing reading or a step longer than the log's usual spacing, or than an hour where it has none;
 * nothing is counted across it.
 *
 * @param stated whether the readings are the corners of a course somebody states, and not a log
 */
export function exposure(log: readonly Reading[], baseC: number, until: number, stated = false): Exposure {
  const joinable = (stated ? statedMinutes : joinableMinutes)(distinct(log.map((r) => r.hour * 60))) / 60
  let degreeHours = 0
  let highestC = -Infinity
  let hole: Exposure['hole']
  let last: { hour: number; tempC: number } | undefined
  for (const r of log) {
    if (r.hour > until) break
    if (r.tempC === null) {
      hole ??= { from: last?.hour ?? log[0]!.hour, to: r.hour }
      last = undefined
      continue
    }
    highestC = Math.max(highestC, r.tempC)
    if (last) {
      if (r.hour - last.hour > joinable) hole ??= { from: last.hour, to: r.hour }
      else degreeHours += above(last.tempC, r.tempC, baseC, r.hour - last.hour)
    }
    last = { hour: r.hour, tempC: r.tempC }
  }
  return { degreeHours, highestC, hole }
}

const distinct = (sorted: readonly number[]): number[] => sorted.filter((x, i) => i === 0 || x > sorted[i - 1]!)
