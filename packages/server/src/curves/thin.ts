/** Channels on one axis of minutes; null is a reading that is not there. */
export type Series = {
  readonly minutes: readonly number[]
  readonly channels: readonly { readonly values: readonly (number | null)[] }[]
}

/** Most points a thinned series keeps. */
export const mostPoints = 2000

/** Index of the lowest, the highest and one missing reading of a channel within [from, to). */
function marksOf(values: readonly (number | null)[], from: number, to: number, keep: Set<number>): void {
  let [low, high, hole] = [-1, -1, -1]
  for (let i = from; i < to; i += 1) {
    const v = values[i]
    if (v === null || v === undefined) hole = hole < 0 ? i : hole
    else {
      if (low < 0 || v < values[low]!) low = i
      if (high < 0 || v > values[high]!) high = i
    }
  }
  for (const i of [low, high, hole]) if (i >= 0) keep.add(i)
}

/** First, last, and the marks of each of so many equal stretches. */
function marked({ minutes, channels }: Series, stretches: number): Set<number> {
  const n = minutes.length
  const keep = new Set([0, n - 1])
  for (let s = 0; s < stretches; s += 1) {
    const [from, to] = [Math.floor((s * n) / stretches), Math.floor(((s + 1) * n) / stretches)]
    for (const { values } of channels) marksOf(values, from, to, keep)
  }
  return keep
}

/**
 * Indexes, ascending, of the readings to show: all where they are few; else the first, the last, and of each of many equal stretches
 * every channel's lowest and highest reading and one of its gaps. An extreme is never thinned away, and a hole never closed.
 */
export function thin(series: Series, most = mostPoints): number[] {
  const n = series.minutes.length
  if (n <= most) return Array.from({ length: n }, (_, i) => i)
  let stretches = Math.max(1, Math.floor((most - 2) / (3 * Math.max(1, series.channels.length))))
  let keep = marked(series, stretches)
  // A flat stretch has one mark where three were allowed for: what is left over goes into finer stretches.
  for (stretches *= 2; stretches < n; stretches *= 2) {
    const finer = marked(series, stretches)
    if (finer.size > most) break
    keep = finer
  }
  return [...keep].sort((a, b) => a - b)
}
