/**
 * Tells a probe that has left the meat from a core that cools. Heat reaches a core by conduction, so its slope cannot break: a fall
 * of more than 25 °C in a minute, or a fall of 20 °C between two readings up to 15 minutes apart with a flat course on both
 * sides, is a probe out of the product. The figures are common practice, no source: the core of a 20 mm sausage in stirred ice
 * water, by conduction, stays under them. Thinner pieces may not, and then the caller says so.
 */
const FALL_C_PER_MIN = 25
const BREAK_C = 20
const BREAK_MINUTES = 15
const FLAT_SHARE = 0.2

export type Sink = {
  /** A reading that can be believed. */
  readonly reading: (minute: number, tempC: number) => void
  /** The probe left the product after this minute; readings that follow are not of the core until `reading` comes again. */
  readonly out: (minute: number) => void
}

/** A filter in front of `sink`, one reading behind what is pushed. `accept` lets every fall through as real. */
export function createDropoutFilter(sink: Sink, accept = false) {
  let isOut = false
  let n = 0
  // The last three raw readings: a (older, emitted), b (waiting), and the slope into a.
  let ta = 0
  let xa = 0
  let slopeBefore = NaN
  let tb = 0
  let xb = 0
  // Two readings about a minute apart behind b, so that fast loggers show their falls too.
  let tOld = 0
  let xOld = 0
  let tNew = 0
  let xNew = 0

  const breaks = (sign: 1 | -1, tc: number, xc: number): boolean => {
    const newer = tb - tNew >= 1
    const change = sign * (xb - (newer ? xNew : xOld))
    if (change > FALL_C_PER_MIN * Math.max(1, tb - (newer ? tNew : tOld))) return true
    const dt = tb - ta
    if (dt > BREAK_MINUTES || sign * (xb - xa) < BREAK_C || Number.isNaN(slopeBefore) || Number.isNaN(tc)) return false
    const slope = Math.abs(xb - xa) / dt
    const after = Math.abs(xc - xb) / (tc - tb)
    return Math.abs(slopeBefore) < FLAT_SHARE * slope && after < FLAT_SHARE * slope
  }

  const settle = (tc: number, xc: number): void => {
    if (accept || n === 1) sink.reading(tb, xb)
    else if (!isOut && breaks(-1, tc, xc)) {
      isOut = true
      sink.out(ta)
    } else if (isOut && breaks(1, tc, xc)) {
      isOut = false
      sink.reading(tb, xb)
    } else if (!isOut) sink.reading(tb, xb)
  }

  const push = (t: number, x: number): void => {
    if (n > 0) {
      settle(t, x)
      slopeBefore = n > 1 ? (xb - xa) / (tb - ta) : NaN
      ta = tb
      xa = xb
      if (n === 1 || tb - tNew >= 1) {
        tOld = n === 1 ? tb : tNew
        xOld = n === 1 ? xb : xNew
        tNew = tb
        xNew = xb
      }
    }
    tb = t
    xb = x
    n++
  }

  /** Let the last reading through; call once, at the end. */
  const end = (): void => {
    if (n > 0) settle(NaN, NaN)
  }
  return { push, end }
}
