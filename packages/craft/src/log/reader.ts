import { celsiusOfF } from '../heat/fahrenheit.ts'
import { durationAt, numberAt, stampAt } from './bytes.ts'
import { createNarrower } from './decode.ts'
import { columnsOf, type AnomalyKind, type Answers, type LogFormat, type Question } from './format.ts'

/** No core, house or freezer of a kitchen is outside this; loggers mark a broken probe with figures far beyond, °C. */
const [COLDEST_C, HOTTEST_C] = [-90, 400] as const
/** A humidity sensor in saturated air reads a few % over, and is taken for 100; more is no reading. Common practice, no source. */
export const OVER_SATURATED_PCT = 105
/** A clock changed for summer jumps by this much, s. */
const HOUR = 3600
/** Steps this many times the usual one are noted as a gap; the verdicts have their own, stated limit. */
const GAP_STEPS = 2.5

export type LogSink = {
  /** One row: minutes from the first row; a value a column as `columnsOf` orders them, °C or % RH, NaN where there is no reading. */
  readonly row: (minute: number, values: Float64Array, row: number) => void
  /** A row whose time lies before one already read. */
  readonly late?: (minute: number, values: Float64Array, row: number) => void
  readonly anomaly: (kind: AnomalyKind, row: number, channel: number | undefined, text: string) => void
}

const seen = (buf: Uint8Array, from: number, to: number): string => {
  let s = ''
  for (let i = from; i < Math.min(to, from + 24); i++) s += String.fromCharCode(buf[i]!)
  return s.trim()
}

/** End of a cell without the letters RH behind its percent sign. */
function beforeLetters(buf: Uint8Array, from: number, to: number): number {
  let end = to
  while (end > from && (buf[end - 1] === 32 || (buf[end - 1]! | 32) === 104 || (buf[end - 1]! | 32) === 114)) end--
  return end
}

/**
 * Read a logger file chunk by chunk, as `format` says it is written, holding nothing but the row at hand. Call `end` once.
 * Rows that cannot be read as they stand go to `sink.anomaly` and are never made up.
 */
export function createLogReader(format: LogFormat, sink: LogSink, answers: Answers = {}) {
  const { time } = format
  const channels = columnsOf(format)
  const narrow = createNarrower(format.encoding)
  const newline = format.newline === 'lf' ? 10 : 13
  const delimiter = format.delimiter.charCodeAt(0)
  const decimal = format.decimal.charCodeAt(0)
  const blanks = delimiter === 32
  const width = Math.max(time.column, time.timeColumn ?? 0, ...channels.map((c) => c.column)) + 1
  // For each column: -1 not wanted, -2 the time, -3 the clock beside a date, else the channel.
  const wanted = new Int16Array(width).fill(-1)
  wanted[time.column] = -2
  if (time.timeColumn !== undefined) wanted[time.timeColumn] = -3
  for (const [i, c] of channels.entries()) wanted[c.column] = i
  const fahrenheit = channels.map((c) => c.unit === 'F')
  const percent = channels.map((c) => c.unit === '%RH')
  const values = new Float64Array(channels.length)
  const calendar = time.form === 'ymd' || time.form === 'dmy' || time.form === 'mdy' ? time.form : undefined
  const wallClock = (calendar !== undefined && !time.offset) || time.form === 'clock'
  const step = (format.stepMinutes ?? 1) * 60
  const slack = Math.max(1, step / 2)

  let row = 0
  let rows = 0
  let tail: Uint8Array | undefined
  let first = NaN
  let last = NaN
  let dayShift = 0
  let clockShift = 0
  let clockChanges = 0

  const timeOf = (buf: Uint8Array, from: number, to: number): number => {
    switch (time.form) {
      case 'ymd':
      case 'dmy':
      case 'mdy':
        return stampAt(buf, from, to, time.form)
      case 'clock':
      case 'elapsed-hms':
        return durationAt(buf, from, to)
      case 'elapsed-ms':
        return durationAt(buf, from, to, true)
      default: {
        const n = numberAt(buf, from, to, decimal)
        const scale =
          time.form === 'epoch-ms'
            ? 0.001
            : time.form === 'serial-days'
              ? 86_400
              : time.form === 'elapsed-minutes'
                ? 60
                : time.form === 'elapsed-hours'
                  ? HOUR
                  : 1
        return n * scale
      }
    }
  }

  const reading = (buf: Uint8Array, from: number, to: number, channel: number): number => {
    const n = numberAt(buf, from, percent[channel] ? beforeLetters(buf, from, to) : to, decimal)
    if (n !== n) {
      const text = seen(buf, from, to)
      sink.anomaly(text === '' ? 'no-reading' : 'not-a-reading', row, channel, text)
      return NaN
    }
    if (percent[channel] && n >= 0 && n <= OVER_SATURATED_PCT) return Math.min(n, 100)
    const c = fahrenheit[channel] ? celsiusOfF(n) : n
    if (!percent[channel] && c >= COLDEST_C && c <= HOTTEST_C) return c
    sink.anomaly('out-of-range', row, channel, seen(buf, from, to))
    return NaN
  }

  const place = (stamp: number): void => {
    let at = stamp + dayShift + clockShift
    if (Number.isNaN(first)) first = at
    else {
      if (time.form === 'clock' && at < last - 43_200) {
        dayShift += 86_400
        at += 86_400
      }
      let delta = at - last
      const back = wallClock && Math.abs(delta - step + HOUR) <= slack && step < HOUR
      const forward =
        wallClock && Math.abs(delta - step - HOUR) <= slack && (((last % 86_400) + 86_400) % 86_400) / HOUR < 4
      if (back || forward) {
        clockChanges++
        sink.anomaly(back ? 'clock-back' : 'clock-forward', row, undefined, '')
        if (answers.clockChange === 'shift') {
          clockShift += back ? HOUR : -HOUR
          at += back ? HOUR : -HOUR
          delta = at - last
        }
      }
      if (delta <= 0) {
        sink.anomaly(delta === 0 ? 'repeated-time' : 'out-of-order', row, undefined, '')
        if (delta < 0) sink.late?.((at - first) / 60, values, row)
        return
      }
      if (delta > GAP_STEPS * step) sink.anomaly('gap', row, undefined, `${Number((delta / 60).toFixed(2))} min`)
    }
    last = at
    rows++
    sink.row((at - first) / 60, values, row)
  }

  const line = (buf: Uint8Array, from: number, lineEnd: number): void => {
    row++
    if (row < format.dataRow) return
    let to = lineEnd
    if (to > from && buf[to - 1] === 13) to--
    if (to === from) return
    let stamp = NaN
    let clock = 0
    let column = 0
    let got = 0
    let i = from
    let [stampFrom, stampTo] = [from, from]
    if (blanks) while (i < to && buf[i] === 32) i++
    for (; column < width && i <= to; column++) {
      let a = i
      let b: number
      if (buf[i] === 34 && i < to) {
        a = ++i
        while (i < to && !(buf[i] === 34 && buf[i + 1] !== 34)) i += buf[i] === 34 ? 2 : 1
        b = i
        while (i < to && buf[i] !== delimiter) i++
      } else {
        while (i < to && buf[i] !== delimiter) i++
        b = i
      }
      i++
      if (blanks) while (i < to && buf[i] === 32) i++
      const want = wanted[column]!
      if (want === -1) continue
      got++
      if (want === -2) {
        stamp = timeOf(buf, a, b)
        stampFrom = a
        stampTo = b
      } else if (want === -3) clock = durationAt(buf, a, b)
      else values[want] = reading(buf, a, b, want)
    }
    const at = stamp + clock
    if (at !== at) {
      sink.anomaly('bad-time', row, undefined, seen(buf, stampFrom, stampTo))
      return
    }
    if (got < channels.length + (time.timeColumn === undefined ? 1 : 2)) {
      sink.anomaly('short-row', row, undefined, '')
      for (const [k, c] of channels.entries()) if (c.column >= column) values[k] = NaN
    }
    place(at)
  }

  const feed = (chunk: Uint8Array): void => {
    const buf = narrow(chunk)
    let from = 0
    if (tail !== undefined) {
      const end = buf.indexOf(newline)
      const head = end < 0 ? buf : buf.subarray(0, end)
      const joined = new Uint8Array(tail.length + head.length)
      joined.set(tail)
      joined.set(head, tail.length)
      if (end < 0) {
        tail = joined
        return
      }
      tail = undefined
      line(joined, 0, joined.length)
      from = end + 1
    }
    for (let end = buf.indexOf(newline, from); end >= 0; end = buf.indexOf(newline, from)) {
      line(buf, from, end)
      from = end + 1
    }
    if (from < buf.length) tail = buf.slice(from)
  }

  /** Read what is left after the last newline. */
  const end = (): void => {
    if (tail !== undefined) line(tail, 0, tail.length)
    tail = undefined
  }

  const questions = (): Question[] =>
    clockChanges === 0 || answers.clockChange !== undefined
      ? []
      : [
          {
            about: 'clock-change',
            text: 'The clock jumps by an hour. Was it changed while logging?',
            choices: ['shift', 'as-read'],
          },
        ]

  return { feed, end, questions, rows: () => rows, firstStamp: () => first }
}
