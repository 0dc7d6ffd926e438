import type { Answers, Question } from '@forcemeat/craft/log/format'
import { readLog } from '@forcemeat/craft/log/read'

export type GrowingRequest = { readonly bytes: Uint8Array; readonly answers: Answers; readonly offsetMinutes: number }
export type SentReading = {
  readonly channel: string
  readonly tempC: number
  readonly at?: string
  readonly minute?: number
}
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
    .replaceAll(/[^\p{L}\p{N} ._()-]/gu, ' ')
    .trim()
    .slice(0, 60)

/** All core and house readings of a file that is still being written; a last line cut short is left for the next time. */
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
  const readings = read.channels
    .filter((c) => c.role !== 'other')
    .flatMap((c) =>
      c.series.flatMap((p): SentReading[] => {
        if (p.tempC === null) return []
        const channel = channelName(c.name) || c.role
        return [
          dated
            ? { channel, tempC: p.tempC, at: new Date(first + p.minute * 60_000).toISOString() }
            : { channel, tempC: p.tempC, minute: p.minute + offsetMinutes },
        ]
      }),
    )
  return { readings, questions: [] }
}
