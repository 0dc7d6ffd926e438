/**
 * Tells a probe that has left the meat, or a reading that is none, from a core that warms or cools.
 *
 * Heat reaches a core by conduction, so a core cannot leap and stand still. The quickest one asked about is that of a 16 mm cylinder
 * whose surface takes the new temperature at once (no film), at a diffusivity of 1.7e-7 m²/s, above any meat's: of what is
 * still to come, a minute leaves at least e^(-5.783 a 60 / R²) = 40 % for later, and no minute brings over 52 % of the whole
 * (Fourier-Bessel series; the tests hold the filter to it). So a step of 20 °C or more after which less than `LEFT` of it
 * follows, or of over 55 °C in a minute, is no core's. Thinner pieces may leap so, and then the caller says so.
 */
const LEFT = 0.34
const LEFT_PER_MINUTE = 0.95
const LEAP_C = 20
const LEAP_C_PER_MIN = 55
/** Past this a thin core may be through with a step, and nothing can be told from it, minutes. */
const LEAP_MINUTES = 5.5
/** Steps are measured over at least this, so that fast loggers show their leaps too, minutes. */
const STEP_MINUTES = 1
/** A course counts as flat beside a step up to this share of its slope. */
const FLAT = 0.2
/** One reading that stands out of two that agree by this much, °C, is none; common practice, no source. */
const SPIKE_C = 10
const SPIKE_MINUTES = 15
/** From this far a core that leaps onto the temperature of the house is a probe in the house, °C; common practice, no source. */
const HOUSE_C = 5
const SAME = 1e-9

/** Why readings before this one were not believed. */
export type Doubt = { readonly why: 'probe-out' | 'spike'; readonly leap: 'up' | 'down' }

export type Sink = {
  /** A reading that can be believed; `missing` where rows without a reading lie before it, `doubt` where readings before it were dropped. */
  readonly reading: (minute: number, tempC: number, missing: boolean, doubt: Doubt | undefined) => void
}

type Raw = { readonly t: number; readonly x: number; readonly house: number; readonly missing: boolean }

/** Least share of a step of `dt` minutes that a core still has before it, with a margin of a seventh. */
const leftAfter = (dt: number): number => LEFT * Math.exp(-LEFT_PER_MINUTE * (dt - 1))

const flatBefore = (o: Raw | undefined, a: Raw, b: Raw): boolean =>
  o === undefined || Math.abs(a.x - o.x) / (a.t - o.t) <= (FLAT * Math.abs(b.x - a.x)) / (b.t - a.t)

function leaps(o: Raw | undefined, a: Raw, b: Raw, c: Raw): boolean {
  const [dt, after] = [b.t - a.t, c.t - b.t]
  const step = Math.abs(b.x - a.x)
  if (step > LEAP_C_PER_MIN * dt) return true
  if (dt > LEAP_MINUTES || !flatBefore(o, a, b)) return false
  const follows = Math.abs(c.x - b.x) * Math.max(1, dt / after)
  if (step >= LEAP_C && follows <= leftAfter(dt) * step) return true
  // Onto the house: NaN where none is logged, and no comparison holds.
  const far = Math.abs(a.x - b.house)
  const near = leftAfter(dt) * far
  return (
    far >= HOUSE_C &&
    Math.abs(b.house - a.house) <= FLAT * far &&
    Math.abs(b.x - b.house) <= near &&
    Math.abs(c.x - c.house) <= near
  )
}

const spikes = (o: Raw | undefined, a: Raw, b: Raw, c: Raw): boolean =>
  Math.abs(b.x - a.x) >= SPIKE_C &&
  Math.abs(c.x - a.x) <= FLAT * Math.abs(b.x - a.x) &&
  b.t - a.t <= SPIKE_MINUTES &&
  c.t - b.t <= SPIKE_MINUTES &&
  flatBefore(o, a, b)

const way = (a: Raw, b: Raw): Doubt['leap'] => (b.x > a.x ? 'up' : 'down')

/**
 * A filter in front of `sink`. A reading is held back until two more steps have shown that none leapt before it. `accept` lets every
 * reading through as real. `end` tells whether the probe was out when the log ended.
 */
export function createDropoutFilter(sink: Sink, accept = false) {
  let recent: Raw[] = []
  // Places in `recent`: first reading not handed on; and, each at least a minute apart, before the newest: b, a, o.
  let held = 0
  let [o, a, b] = [-1, -1, -1]
  let out: Doubt | undefined
  let doubt: Doubt | undefined

  const stepBack = (from: number, place: number): number => {
    let i = place
    while (i + 1 < from && recent[i + 1]!.t <= recent[from]!.t - STEP_MINUTES + SAME) i++
    return i
  }
  const find = (last: number): void => {
    b = stepBack(last, b)
    a = b < 0 ? -1 : stepBack(b, a)
    o = a < 0 ? -1 : stepBack(a, o)
  }
  const handOn = (until: number): void => {
    for (; held <= until; held++) {
      const r = recent[held]!
      sink.reading(r.t, r.x, r.missing, doubt)
      doubt = undefined
    }
  }
  const trim = (): void => {
    const drop = Math.min(held, o < 0 ? 0 : o)
    if (drop < 1024) return
    recent = recent.slice(drop)
    held -= drop
    o -= drop
    a -= drop
    b -= drop
  }

  const settle = (n: number): void => {
    if (a < 0) return
    const [before, from, to, next] = [recent[o], recent[a]!, recent[b]!, recent[n]!]
    const leapt = leaps(before, from, to, next)
    if (out !== undefined) {
      if (leapt && way(from, to) !== out.leap) {
        const settled = Math.abs(next.x - to.x) <= 0.05 * Math.abs(to.x - from.x)
        doubt = out
        out = undefined
        held = settled ? b : n
      } else held = n + 1
    } else if (spikes(before, from, to, next)) {
      handOn(a)
      doubt = { why: 'spike', leap: way(from, to) }
      recent.splice(a + 1, n - a - 1)
      held = a + 1
      b = a = o = -1
      find(recent.length - 1)
    } else if (leapt) {
      handOn(a)
      out = { why: 'probe-out', leap: way(from, to) }
      held = n + 1
    } else handOn(a)
  }

  /** Take a reading in; `house` beside it where one is logged, `missing` where rows without a reading came before. */
  const push = (t: number, x: number, missing = false, house = NaN): void => {
    if (accept) {
      sink.reading(t, x, missing, undefined)
      return
    }
    recent.push({ t, x, house, missing })
    const n = recent.length - 1
    find(n)
    settle(n)
    trim()
  }

  /** Hand on what is held back; a last leap that nothing after it explains is not believed. Call once. */
  const end = (): Doubt | undefined => {
    const n = recent.length - 1
    if (n < 0 || out !== undefined) return out
    if (b >= 0) {
      const [from, to] = [recent[b]!, recent[n]!]
      const [dt, step] = [to.t - from.t, Math.abs(to.x - from.x)]
      const known = a >= 0 && dt <= LEAP_MINUTES && step >= LEAP_C && flatBefore(recent[a], from, to)
      if (known || step > LEAP_C_PER_MIN * dt) {
        handOn(b)
        return { why: 'probe-out', leap: way(from, to) }
      }
    }
    handOn(n)
    return undefined
  }
  return { push, end }
}
