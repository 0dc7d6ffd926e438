import type { Answers, Question } from '@forcemeat/craft/log/format'
import { readLog } from '@forcemeat/craft/log/read'

export type GrowingRequest = { readonly bytes: Uint8Array; readonly answers: Answers; readonly offsetMinutes: number }
export type SentReading = {
  readonly channel: string
  readonly at?: string
  readonly minute?: number
} & ({ readonly tempC: number; readonly rhPct?: undefined } | { readonly rhPct: number; readonly tempC?: undefined })
export type GrowingRead = {
  readonly readings: readonly SentReading[]
  readonly questions: readonly Question[]
  readonly trouble?: string
}

/** A stamp as a log writes it is the wall clock of this place, unless it says its offset. */
function instantOf(stampS: number, hasOffset: boolean): number {
  if (hasOffset) return stampS * 1000
  const w = new Date(stampS * 1000)
  return new Date(
    w.getUTCFullYear(),
    w.getUTCMonth(),
    w.getUTCDate(),
    w.getUTCHours(),
    w.getUTCMinutes(),
    w.getUTCSeconds(),
    w.getUTCMilliseconds(),
  ).getTime()
}

const DATED = new Set(['ymd', 'dmy', 'mdy', 'epoch-s', 'epoch-ms'])

/** A name the feed takes, out of a column's heading: its unit and signs left out. */
const channelName = (column: string): string =>
  column
    .replace(/ *[([]? *(?:°|º|deg\.?) *[CF] *[)\]]?$/i, '')
    .replace(/ *[([]? *% *(?:r\.? ?h\.?)? *[)\]]?$/i, '')
    .replaceAll(/[^\p{L}\p{N} ._()-]/gu, ' ')
    .replace(/^[^\p{L}\p{N}]+/u, '')
    .trim()
    .slice(0, 60)

/** The name of a humidity, another than any temperature's: two columns may differ by their unit alone. */
function humidityName(column: string, taken: ReadonlySet<string>): string {
  const name = channelName(column) || 'humidity'
  return taken.has(name) ? `${name.slice(0, 51)} humidity` : name
}

/** All core and house readings, and those of humidity, of a file that is still being written; a last line cut short is left for the next time. */
export function readGrowing({ bytes, answers, offsetMinutes }: GrowingRequest): GrowingRead {
  const whole = bytes.subarray(0, bytes.lastIndexOf(10) + 1)
  const read = readLog(whole, answers)
  if (read.questions.length > 0 || !read.format)
    return {
      readings: [],
      questions: read.questions,
      ...(read.format ? {} : { trouble: 'no readings were found in this file yet' }),
    }
  const { form, offset } = read.format.time
  const dated = DATED.has(form)
  const first = dated ? instantOf(read.firstStamp ?? 0, offset || form.startsWith('epoch')) : 0
  const when = (minute: number): Pick<SentReading, 'at' | 'minute'> =>
    dated ? { at: new Date(first + minute * 60_000).toISOString() } : { minute: minute + offsetMinutes }
  const temperatures = read.channels.flatMap((c) =>
    c.role === 'other' ? [] : [{ channel: channelName(c.name) || c.role, series: c.series }],
  )
  const taken = new Set(temperatures.map((c) => c.channel))
  const readings: SentReading[] = [
    ...temperatures.flatMap(({ channel, series }) =>
      series.flatMap(({ minute, tempC }) => (tempC === null ? [] : [{ channel, tempC, ...when(minute) }])),
    ),
    ...read.humidity.flatMap((c) => {
      const channel = humidityName(c.name, taken)
      return c.series.flatMap(({ minute, rhPct }) => (rhPct === null ? [] : [{ channel, rhPct, ...when(minute) }]))
    }),
  ]
  return { readings, questions: [] }
}
