import { createDropoutFilter } from './dropout.ts'
import { joinableMinutes, type Reading } from './reading.ts'

/** Readings this close to a mark are on it: float noise of a unit conversion, far below any thermometer's last digit. */
const ON_MARK_C = 1e-9
/** Holes kept for the record; more are counted only. */
const HOLES_KEPT = 500

/** A stretch in which nobody knows the core temperature. */
export type Hole = {
  readonly fromMinute: number
  readonly toMinute: number
  readonly why: 'no-reading' | 'probe-out'
  /** Last reading before and first after, °C; `afterC` is missing where the log ends in the hole. */
  readonly beforeC: number
  readonly afterC?: number
}

/** What a log says about one temperature. Times in minutes of the log; absent where it never happened. */
export type AtMark = {
  /** True where a reading was at or above the mark. */
  readonly reached: boolean
  /** Longest unbroken time at or above the mark, holes not counted. */
  readonly longestMinutes: number
  readonly longestFrom?: number
  /** All time at or above the mark, holes not counted. */
  readonly totalMinutes: number
  readonly firstUpMinute?: number
  /** First passing below the mark after the chill began. */
  readonly firstDownMinute?: number
  /** Last passing below the mark. */
  readonly lastDownMinute?: number
}

export type Track = {
  readonly readings: number
  readonly startMinute: number
  readonly startC: number
  readonly endMinute: number
  readonly endC: number
  readonly peakC: number
  /** Last minute at the peak; the chill is taken to begin here unless said otherwise. */
  readonly peakMinute: number
  readonly chillStartMinute: number
  readonly holes: readonly Hole[]
  readonly holeCount: number
  /** Longest step joined by a straight line, minutes. */
  readonly joinedMinutes: number
  /** @throws RangeError for a temperature that was not among the marks. */
  readonly at: (tempC: number) => AtMark
  /** Last passing below `tempC` before the core first passed below `finalC` after the chill began; absent if it never did either. */
  readonly downBefore: (tempC: number, finalC: number) => number | undefined
}

export type TrackOptions = {
  /** Temperatures that will be asked about, °C. */
  readonly marksC: readonly number[]
  /** Longest step between readings joined by a straight line, minutes. */
  readonly joinedMinutes: number
  readonly chillStartMinute?: number
  /** Take every sudden fall as the core's own. */
  readonly acceptFalls?: boolean
}

/**
 * Walk a log once, in constant memory, and remember what each marked temperature saw. Between two readings no further apart than
 * `joinedMinutes` the core is taken on a straight line; over a longer step, a missing reading longer than that, or a probe out
 * of the product nothing is assumed.
 */
export function createTracker({ marksC, joinedMinutes, chillStartMinute, acceptFalls = false }: TrackOptions) {
  const marks = Float64Array.from(new Set(marksC)).toSorted()
  const n = marks.length
  const nothing = () => new Float64Array(n).fill(NaN)
  const [up, firstUp, firstDown, lastDown, longestFrom] = [nothing(), nothing(), nothing(), nothing(), nothing()]
  const longest = new Float64Array(n).fill(-1)
  const total = new Float64Array(n)
  const before: (Float64Array | undefined)[] = Array.from({ length: n })
  const holes: Hole[] = []
  let holeCount = 0
  let readings = 0
  let level = 0
  let above = 0
  let [startMinute, startC, t0, x0, peakC, peakMinute] = [0, 0, 0, 0, -Infinity, 0]
  let outAt: number | undefined

  const chillFrom = () => chillStartMinute ?? peakMinute
  const levelOf = (x: number, from: number): number => {
    let l = from
    while (l < n && marks[l]! <= x + ON_MARK_C) l++
    while (l > 0 && marks[l - 1]! > x + ON_MARK_C) l--
    return l
  }
  // Marks strictly below a reading: a core that reaches a mark from above has cooled to it, whether or not it goes on.
  const aboveOf = (x: number, from: number): number => {
    let l = from
    while (l < n && marks[l]! < x - ON_MARK_C) l++
    while (l > 0 && marks[l - 1]! >= x - ON_MARK_C) l--
    return l
  }
  const rise = (i: number, t: number): void => {
    up[i] = t
    if (Number.isNaN(firstUp[i]!)) firstUp[i] = t
    if (longest[i]! < 0) {
      longest[i] = 0
      longestFrom[i] = t
    }
  }
  const close = (i: number, t: number): void => {
    const held = t - up[i]!
    total[i] = total[i]! + held
    if (held > longest[i]!) {
      longest[i] = held
      longestFrom[i] = up[i]!
    }
    up[i] = NaN
  }
  const fall = (i: number, t: number): void => {
    lastDown[i] = t
    if (t < chillFrom()) return
    if (!Number.isNaN(firstDown[i]!) && firstDown[i]! >= chillFrom()) return
    firstDown[i] = t
    before[i] = lastDown.slice()
  }
  const crossing = (i: number, t1: number, x1: number): number => {
    const share = (marks[i]! - x0) / (x1 - x0)
    return t0 + Math.min(1, Math.max(0, share)) * (t1 - t0)
  }
  const hole = (t1: number, x1: number, next: number, why: Hole['why']): void => {
    holeCount++
    if (holes.length < HOLES_KEPT) holes.push({ fromMinute: t0, toMinute: t1, why, beforeC: x0, afterC: x1 })
    for (let i = 0; i < level; i++) close(i, t0)
    // A fall across a hole began no earlier than its start and ended no later than its end: keep the longer reading of both.
    for (let i = above - 1; i >= aboveOf(x1, above); i--) fall(i, t1)
    for (let i = 0; i < next; i++) rise(i, t1)
  }

  const reading = (t: number, x: number): void => {
    if (readings === 0) {
      startMinute = t
      startC = x
      level = levelOf(x, 0)
      above = aboveOf(x, 0)
      for (let i = 0; i < level; i++) rise(i, t)
    } else if (x0 !== x || outAt !== undefined || t - t0 > joinedMinutes) {
      const next = levelOf(x, level)
      const nextAbove = aboveOf(x, above)
      if (outAt !== undefined) hole(t, x, next, 'probe-out')
      else if (t - t0 > joinedMinutes + ON_MARK_C) hole(t, x, next, 'no-reading')
      else {
        for (let i = level; i < next; i++) rise(i, crossing(i, t, x))
        for (let i = level - 1; i >= next; i--) close(i, crossing(i, t, x))
        for (let i = above - 1; i >= nextAbove; i--) fall(i, crossing(i, t, x))
      }
      above = nextAbove
      level = next
      outAt = undefined
    }
    if (x >= peakC) {
      peakC = x
      peakMinute = t
    }
    t0 = t
    x0 = x
    readings++
  }
  const filter = createDropoutFilter({ reading, out: (t) => (outAt = t) }, acceptFalls)

  /** Close the walk. `lastMinute` is the time of the last row, read or missing. @throws RangeError where nothing was read. */
  const finish = (lastMinute: number): Track => {
    filter.end()
    if (readings === 0) throw new RangeError('the log holds no core reading')
    if (outAt !== undefined || lastMinute - t0 > ON_MARK_C) {
      holeCount++
      holes.push({
        fromMinute: t0,
        toMinute: lastMinute,
        why: outAt === undefined ? 'no-reading' : 'probe-out',
        beforeC: x0,
      })
    }
    for (let i = 0; i < level; i++) close(i, t0)
    const index = (tempC: number): number => {
      const i = marks.indexOf(tempC)
      if (i < 0) throw new RangeError(`${tempC} °C is not among the marks of this track`)
      return i
    }
    const known = (x: number): number | undefined => (Number.isNaN(x) ? undefined : x)
    const down = (i: number): number | undefined => {
      const t = known(firstDown[i]!)
      return t !== undefined && t >= chillFrom() ? t : undefined
    }
    return {
      readings,
      startMinute,
      startC,
      endMinute: t0,
      endC: x0,
      peakC,
      peakMinute,
      chillStartMinute: chillFrom(),
      holes,
      holeCount,
      joinedMinutes,
      at: (tempC) => {
        const i = index(tempC)
        const times = {
          longestFrom: known(longestFrom[i]!),
          firstUpMinute: known(firstUp[i]!),
          firstDownMinute: down(i),
          lastDownMinute: known(lastDown[i]!),
        }
        const found = Object.fromEntries(Object.entries(times).filter(([, t]) => t !== undefined))
        return {
          reached: longest[i]! >= 0,
          longestMinutes: Math.max(0, longest[i]!),
          totalMinutes: total[i]!,
          ...found,
        }
      },
      downBefore: (tempC, finalC) => {
        const [i, f] = [index(tempC), index(finalC)]
        const last = down(f) === undefined ? lastDown[i]! : (before[f]?.[i] ?? NaN)
        return Number.isNaN(last) || last < chillFrom() ? undefined : last
      },
    }
  }
  return { push: filter.push, finish }
}

/** Track of a whole log. Readings that are null only widen the step they lie in. */
export function trackLog(
  log: readonly Reading[],
  options: Omit<TrackOptions, 'joinedMinutes'> & { joinedMinutes?: number },
): Track {
  const joinedMinutes = options.joinedMinutes ?? joinableMinutes(log.map((r) => r.minute))
  const tracker = createTracker({ ...options, joinedMinutes })
  for (const { minute, coreC } of log) if (coreC !== null) tracker.push(minute, coreC)
  return tracker.finish(log.at(-1)!.minute)
}
