/** Numbers and times read straight from bytes: no text is made for a cell. */

const ZERO = 48
/** One digit more may follow a figure under this and all stay exact. */
const MOST_EXACT = 1e14
const POWERS = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`))

/**
 * Number in `buf[from, to)`, with an optional unit (°, C, F, %) behind it; NaN for anything else. Up to 15 digits it is the very
 * double that parsing the text would give; decimals beyond them, as programs print them, are left off; more whole digits are no reading.
 */
export function numberAt(buf: Uint8Array, from: number, to: number, decimal: number): number {
  let i = from
  while (i < to && (buf[i] === 32 || buf[i] === 9)) i++
  let negative = false
  if (buf[i] === 45 || buf[i] === 43) negative = buf[i++] === 45
  let mantissa = 0
  let digits = 0
  let shift = 0
  for (; i < to; i++) {
    const d = buf[i]! - ZERO
    if (d < 0 || d > 9) break
    mantissa = mantissa * 10 + d
    digits++
  }
  if (i < to && buf[i] === decimal) {
    for (i++; i < to; i++) {
      const d = buf[i]! - ZERO
      if (d < 0 || d > 9) break
      digits++
      if (mantissa >= MOST_EXACT || shift >= POWERS.length - 1) continue
      mantissa = mantissa * 10 + d
      shift++
    }
  }
  if (digits === 0 || mantissa >= 10 * MOST_EXACT) return NaN
  if (i < to && (buf[i] === 101 || buf[i] === 69)) return exponentAt(buf, i, to, negative ? -mantissa : mantissa, shift)
  for (; i < to; i++) {
    const b = buf[i]!
    // Space, tab, percent, degree sign (one byte or two), C, F.
    if (b !== 32 && b !== 9 && b !== 37 && b !== 0xc2 && b !== 0xb0 && b !== 67 && b !== 70) return NaN
  }
  const value = shift === 0 ? mantissa : mantissa / POWERS[shift]!
  return negative ? -value : value
}

function exponentAt(buf: Uint8Array, at: number, to: number, mantissa: number, shift: number): number {
  let i = at + 1
  let down = false
  if (buf[i] === 45 || buf[i] === 43) down = buf[i++] === 45
  let power = 0
  const first = i
  for (; i < to; i++) {
    const d = buf[i]! - ZERO
    if (d < 0 || d > 9) return NaN
    power = power * 10 + d
  }
  if (i === first || power > 22) return NaN
  const net = (down ? -power : power) - shift
  if (Math.abs(net) > 22) return NaN
  return net < 0 ? mantissa / POWERS[-net]! : mantissa * POWERS[net]!
}

/** Days from 1970-01-01 of a Gregorian date; NaN where there is no such day. */
export function dayNumber(y: number, m: number, d: number): number {
  if (m < 1 || m > 12 || d < 1 || d > 31) return NaN
  const leap = (y % 4 === 0 && y % 100 !== 0) || y % 400 === 0
  if (d > (m === 2 ? (leap ? 29 : 28) : m === 4 || m === 6 || m === 9 || m === 11 ? 30 : 31)) return NaN
  const yy = m <= 2 ? y - 1 : y
  const era = Math.floor(yy / 400)
  const yoe = yy - era * 400
  const doy = Math.floor((153 * (m + (m > 2 ? -3 : 9)) + 2) / 5) + d - 1
  return era * 146097 + yoe * 365 + Math.floor(yoe / 4) - Math.floor(yoe / 100) + doy - 719468
}

const group = new Float64Array(12)
let groups = 0
let fraction = 0
let half = 0
let offsetSeconds = NaN

/** Split a stamp into its whole numbers, a fraction of the last one, am/pm and an offset. False where a letter does not belong. */
function split(buf: Uint8Array, from: number, to: number, dateGroups: number): boolean {
  groups = 0
  fraction = 0
  half = 0
  offsetSeconds = NaN
  let i = from
  while (i < to) {
    const b = buf[i]!
    if (b >= 48 && b <= 57) {
      let v = 0
      for (; i < to && buf[i]! >= 48 && buf[i]! <= 57; i++) v = v * 10 + buf[i]! - ZERO
      if (groups === 12) return false
      group[groups++] = v
      // A dot or comma after the seconds begins their fraction.
      if (groups === dateGroups + 3 && i + 1 < to && (buf[i] === 46 || buf[i] === 44)) {
        let digits = 0
        for (i++; i < to && buf[i]! >= 48 && buf[i]! <= 57; i++) {
          if (digits === 9) continue
          fraction = fraction * 10 + buf[i]! - ZERO
          digits++
        }
        fraction /= POWERS[digits]!
      }
      continue
    }
    if (groups >= dateGroups + 2 && (b === 43 || b === 45)) return zone(buf, i, to)
    if (b === 90 || b === 122) offsetSeconds = 0
    else if (b === 65 || b === 97) half = 1
    else if (b === 80 || b === 112) half = 2
    else if (
      b !== 32 &&
      b !== 45 &&
      b !== 47 &&
      b !== 46 &&
      b !== 58 &&
      b !== 84 &&
      b !== 44 &&
      b !== 77 &&
      b !== 109 &&
      b !== 9
    )
      return false
    i++
  }
  return groups > 0
}

function zone(buf: Uint8Array, at: number, to: number): boolean {
  let digits = 0
  let v = 0
  for (let i = at + 1; i < to; i++) {
    if (buf[i] === 58 || buf[i] === 32) continue
    const d = buf[i]! - ZERO
    if (d < 0 || d > 9) return false
    v = v * 10 + d
    digits++
  }
  if (digits !== 2 && digits !== 4) return false
  const minutes = digits === 2 ? v * 60 : Math.floor(v / 100) * 60 + (v % 100)
  offsetSeconds = (buf[at] === 45 ? -60 : 60) * minutes
  return true
}

/** Seconds of the clock part from group `k` on; NaN where it is no time of day (or, for `long`, no duration). */
function clockSeconds(k: number, long: boolean): number {
  let h = groups > k ? group[k]! : 0
  const m = groups > k + 1 ? group[k + 1]! : 0
  const s = groups > k + 2 ? group[k + 2]! : 0
  if (groups > k + 3 || m > 59 || s > 59 || (!long && h > 24)) return NaN
  if (half > 0) {
    if (h < 1 || h > 12) return NaN
    h = (h % 12) + (half === 2 ? 12 : 0)
  }
  return h * 3600 + m * 60 + s + fraction
}

export type Calendar = 'ymd' | 'dmy' | 'mdy'

/** Seconds since 1970 of a stamp with a date, as written (an offset, where one is, is taken off); NaN where it is none. */
export function stampAt(buf: Uint8Array, from: number, to: number, form: Calendar): number {
  if (!split(buf, from, to, 3) || groups < 3) return NaN
  const [a, b, c] = [group[0]!, group[1]!, group[2]!]
  const year = form === 'ymd' ? a : c
  const day = dayNumber(
    year < 100 ? 2000 + year : year,
    form === 'dmy' || form === 'ymd' ? b : a,
    form === 'ymd' ? c : form === 'dmy' ? a : b,
  )
  const clock = clockSeconds(3, false)
  return day * 86400 + clock - (Number.isNaN(offsetSeconds) ? 0 : offsetSeconds)
}

/** Seconds of a clock time or a duration hh:mm[:ss]; with `short`, of mm:ss. NaN where it is none. */
export function durationAt(buf: Uint8Array, from: number, to: number, short = false): number {
  if (!split(buf, from, to, 0) || groups < 2) return NaN
  if (short && groups === 2) return group[1]! > 59 ? NaN : group[0]! * 60 + group[1]! + fraction
  return clockSeconds(0, true)
}
