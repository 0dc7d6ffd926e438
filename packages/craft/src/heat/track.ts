import { createCoreWalk, walkLog, type CoreSink, type HoleReason } from './core-walk.ts'
import type { Doubt } from './dropout.ts'
import { HAND_MINUTES, type Joining, type Reading } from './reading.ts'

/** Readings this close to a mark are on it: float noise of a unit conversion, far below any thermometer's last digit. */
const ON_MARK_C = 1e-9
/** Hand readings are noted to a tenth: one this close to a mark, on either side of a long step, was taken at it, °C. */
const NOTED_C = 0.1
/** Holes kept for the record; more are counted only. */
const HOLES_KEPT = 500

/** A stretch in which nobody knows the core temperature. */
export type Hole = {
  readonly fromMinute: number
  readonly toMinute: number
  /** `long-step`: longer between readings taken by hand than may be joined. */
  readonly why: HoleReason
  /** Which way the readings leapt, for a probe that was out. */
  readonly leap?: Doubt['leap']
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
  /** First passing up through the mark, as early and as late as it can have been. */
  readonly firstUp?: Span
  /** First passing below the mark after the chill began, as early as it can have been. */
  readonly firstDownMinute?: number
  readonly firstDown?: Span
  /** Last passing below the mark, as late as it can have been. */
  readonly lastDownMinute?: number
}

/** When something happened: at the earliest and at the latest; the same where no hole hides it. */
export type Span = { readonly from: number; readonly to: number }

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
  /** Minutes of all holes; what a hold or a reduction counts nothing for. */
  readonly unseenMinutes: number
  /** Longest step joined by a straight line, minutes. */
  readonly joinedMinutes: number
  /** @throws RangeError for a temperature that was not among the marks. */
  readonly at: (tempC: number) => AtMark
  /** Last passing below `tempC` before the core first passed below `finalC` after the chill began; absent if it never did either. */
  readonly downBefore: (tempC: number, finalC: number) => number | undefined
  readonly spanBefore: (tempC: number, finalC: number) => Span | undefined
}

export type TrackOptions = {
  /** Temperatures that will be asked about, °C. */
  readonly marksC: readonly number[]
  /** Longest step between readings joined by a straight line, minutes; the log's own pace decides unless given. */
  readonly joinedMinutes?: number
  readonly chillStartMinute?: number
  /** Take every sudden fall as the core's own. */
  readonly acceptFalls?: boolean
}

/**
 * Remembers what each marked temperature saw of a walk, in constant memory. On a line the core is where the line is; in a hole nothing is
 * assumed, but that over a long step by hand of at most an hour it stayed above what both ends are above.
 */
export function createTrackSink({ marksC, chillStartMinute }: Pick<TrackOptions, 'marksC' | 'chillStartMinute'>) {
  const marks = Float64Array.from(new Set(marksC)).toSorted()
  const n = marks.length
  const nothing = () => new Float64Array(n).fill(NaN)
  const [up, firstUp, firstUpFrom, longestFrom] = [nothing(), nothing(), nothing(), nothing()]
  const [firstDown, firstDownTo, lastDown, lastDownFrom] = [nothing(), nothing(), nothing(), nothing()]
  const longest = new Float64Array(n).fill(-1)
  const total = new Float64Array(n)
  const before: ({ readonly to: Float64Array; readonly from: Float64Array } | undefined)[] = Array.from({ length: n })
  const holes: Hole[] = []
  let holeCount = 0
  let unseen = 0
  let readings = 0
  let level = 0
  let above = 0
  let [startMinute, startC, t0, x0, peakC, peakMinute] = [0, 0, 0, 0, -Infinity, 0]

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
  const rise = (i: number, t: number, from = t): void => {
    up[i] = t
    if (Number.isNaN(firstUp[i]!)) {
      firstUp[i] = t
      firstUpFrom[i] = from
    }
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
  const fall = (i: number, t: number, from = t): void => {
    lastDown[i] = t
    lastDownFrom[i] = from
    if (t < chillFrom()) return
    if (!Number.isNaN(firstDown[i]!) && firstDownTo[i]! >= chillFrom()) return
    firstDown[i] = from
    firstDownTo[i] = t
    before[i] = { to: lastDown.slice(), from: lastDownFrom.slice() }
  }
  const crossing = (i: number, t1: number, x1: number): number => {
    const share = (marks[i]! - x0) / (x1 - x0)
    return t0 + Math.min(1, Math.max(0, share)) * (t1 - t0)
  }
  const hole = (t1: number, x1: number, next: number, why: HoleReason, leap?: Doubt['leap']): void => {
    holeCount++
    if (holes.length < HOLES_KEPT)
      holes.push({ fromMinute: t0, toMinute: t1, why, ...(leap && { leap }), beforeC: x0, afterC: x1 })
    const byHand = why === 'long-step'
    // By hand what both ends are above counts as held, but not for longer than a core is left alone.
    const counted = byHand && t1 - t0 <= HAND_MINUTES
    if (!counted) unseen += t1 - t0
    const kept = counted ? Math.min(level, next) : 0
    for (let i = kept; i < level; i++) close(i, t0)
    // A fall across a hole began no earlier than its start and ended no later than its end, but where a reading stands at the mark.
    for (let i = above - 1; i >= aboveOf(x1, above); i--) {
      const atStart = byHand && x0 <= marks[i]! + NOTED_C
      const atEnd = byHand && x1 >= marks[i]! - NOTED_C
      fall(i, atStart ? t0 : t1, atEnd && !atStart ? t1 : t0)
    }
    for (let i = kept; i < next; i++) rise(i, t1, byHand && x1 <= marks[i]! + NOTED_C ? t1 : t0)
  }

  const reading: CoreSink = (t, x, link, leap) => {
    if (link === 'first') {
      startMinute = t
      startC = x
      level = levelOf(x, 0)
      above = aboveOf(x, 0)
      for (let i = 0; i < level; i++) rise(i, t)
    } else if (x0 !== x || link !== 'line') {
      const next = levelOf(x, level)
      const nextAbove = aboveOf(x, above)
      if (link !== 'line') hole(t, x, next, link, leap)
      else {
        for (let i = level; i < next; i++) rise(i, crossing(i, t, x))
        for (let i = level - 1; i >= next; i--) close(i, crossing(i, t, x))
        for (let i = above - 1; i >= nextAbove; i--) fall(i, crossing(i, t, x))
      }
      above = nextAbove
      level = next
    }
    if (x >= peakC) {
      peakC = x
      peakMinute = t
    }
    t0 = t
    x0 = x
    readings++
  }

  /** Close the walk. `lastMinute` is the time of the last row, read or missing. @throws RangeError where nothing was read. */
  const finish = (lastMinute: number, joining: Joining, out: Doubt | undefined): Track => {
    if (readings === 0) throw new RangeError('the log holds no core reading')
    if (out !== undefined || lastMinute - t0 > ON_MARK_C) {
      holeCount++
      unseen += lastMinute - t0
      const why = out === undefined ? 'no-reading' : 'probe-out'
      holes.push({ fromMinute: t0, toMinute: lastMinute, why, ...(out && { leap: out.leap }), beforeC: x0 })
    }
    for (let i = 0; i < level; i++) close(i, t0)
    const index = (tempC: number): number => {
      const i = marks.indexOf(tempC)
      if (i < 0) throw new RangeError(`${tempC} °C is not among the marks of this track`)
      return i
    }
    const known = (x: number): number | undefined => (Number.isNaN(x) ? undefined : x)
    const down = (i: number): number | undefined => {
      const t = known(firstDownTo[i]!)
      return t !== undefined && t >= chillFrom() ? t : undefined
    }
    const span = (from: number, to: number | undefined): Span | undefined =>
      to === undefined ? undefined : { from, to }
    const spanBefore = (tempC: number, finalC: number): Span | undefined => {
      const [i, f] = [index(tempC), index(finalC)]
      const last = down(f) === undefined ? { to: lastDown, from: lastDownFrom } : before[f]
      const to = last?.to[i] ?? NaN
      return Number.isNaN(to) || to < chillFrom() ? undefined : { from: last!.from[i]!, to }
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
      unseenMinutes: unseen,
      joinedMinutes: joining.minutes,
      at: (tempC) => {
        const i = index(tempC)
        const times = {
          longestFrom: known(longestFrom[i]!),
          firstUpMinute: known(firstUp[i]!),
          firstUp: span(firstUpFrom[i]!, known(firstUp[i]!)),
          firstDownMinute: down(i) === undefined ? undefined : firstDown[i]!,
          firstDown: span(firstDown[i]!, down(i)),
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
      downBefore: (tempC, finalC) => spanBefore(tempC, finalC)?.to,
      spanBefore,
    }
  }
  return { reading, finish }
}

const ways = ({ joinedMinutes, acceptFalls = false }: TrackOptions) => ({
  acceptFalls,
  ...(joinedMinutes === undefined ? {} : { maxGapMinutes: joinedMinutes }),
})

/** A track of readings as they come; see `createCoreWalk`. */
export function createTracker(options: TrackOptions) {
  const track = createTrackSink(options)
  const walk = createCoreWalk([track.reading], ways(options))
  return {
    push: walk.push,
    /** `lastMinute` is the time of the last row, read or missing. @throws RangeError where nothing was read. */
    finish: (lastMinute: number): Track => {
      const { joining, out } = walk.end()
      return track.finish(lastMinute, joining, out)
    },
  }
}

/** Track of a whole log. */
export function trackLog(log: readonly Reading[], options: TrackOptions): Track {
  const track = createTrackSink(options)
  const { joining, out } = walkLog(log, [track.reading], ways(options))
  return track.finish(log.at(-1)!.minute, joining, out)
}
