import { cellsOf, delimiterOf, usualWidth } from './cells.ts'
import { channelsOf } from './channels.ts'
import { decodeHead, encodingOf } from './decode.ts'
import type { Answers, LogFormat, Question } from './format.ts'
import { durationAt, stampAt } from './bytes.ts'
import { CLOCK, DATE, looksLikeNumber, looksLikeTime, timeFormOf } from './times.ts'

/** Lines at the head that are looked at; a logger's preamble is shorter. */
const HEAD_LINES = 400
/** Bytes of a file that `sniff` needs to see. */
export const HEAD_BYTES = 65_536

export type Sniffed = {
  /** How the file will be read; where questions are open, with the first choice of each. Absent where no readings were found. */
  readonly format?: LogFormat
  /** In words, for the person who must agree. */
  readonly notes: readonly string[]
  readonly questions: readonly Question[]
}

const layout = (text: string): Sniffed => ({
  notes: [],
  questions: [{ about: 'layout', text, choices: ['a table of one row a reading: a time, then temperatures'] }],
})

const numeric = (cell: string): boolean =>
  looksLikeNumber(cell.replace(/ *(?:(?:°|deg)? *[CF]|% *(?:r\.?h\.?)?)$/i, ''))

/** First line that is a reading: as wide as the table, with a time and a number in it. */
function firstReading(rows: readonly (readonly string[])[], width: number): number {
  return rows.findIndex(
    (cells, i) =>
      Math.abs(cells.length - width) <= 1 &&
      cells.filter(numeric).length >= (cells.some(looksLikeTime) ? 1 : 2) &&
      // Two in a row, so that a serial number in the preamble is not a reading.
      (rows[i + 1] === undefined || rows[i + 1]!.some((c) => numeric(c) || looksLikeTime(c))),
  )
}

function timeColumns(
  rows: readonly (readonly string[])[],
  names: readonly string[],
): { column: number; timeColumn?: number } | undefined {
  const columns = rows[0]!.map((_, i) => i)
  const all = (i: number, test: (c: string) => boolean): boolean =>
    rows.filter((r) => test(r[i] ?? '')).length >= 0.8 * rows.length
  const date = columns.find((i) => all(i, (c) => DATE.test(c)))
  if (date !== undefined) {
    const dated = rows.some((r) => /:\d{2}/.test(r[date] ?? ''))
    const clock = dated ? undefined : columns.find((i) => i !== date && all(i, (c) => CLOCK.test(c)))
    return clock === undefined ? { column: date } : { column: date, timeColumn: clock }
  }
  const clock = columns.find((i) => all(i, (c) => CLOCK.test(c)))
  if (clock !== undefined) return { column: clock }
  const named = names.findIndex(
    (n) => /time|elapsed|minute|second|hour|epoch|stamp|^(t|min|sec|s|h)$/i.test(n) && !/temp/i.test(n),
  )
  if (named >= 0) return { column: named }
  const value = (r: readonly string[], i: number): number => Number((r[i] ?? '').replace(',', '.'))
  const rising = columns.find(
    (i) => rows.length > 2 && rows.every((r, k) => k === 0 || value(r, i) > value(rows[k - 1]!, i)),
  )
  return rising === undefined ? undefined : { column: rising }
}

function decimalOf(rows: readonly (readonly string[])[], skip: readonly number[], delimiter: string, answers: Answers) {
  if (answers.decimal !== undefined) return { decimal: answers.decimal, questions: [] as Question[] }
  const cells = rows.flatMap((r) => r.filter((_, i) => !skip.includes(i)))
  const commas = cells.filter((c) => /^[-+]?\d+,\d+/.test(c)).length
  const points = cells.filter((c) => /^[-+]?\d+\.\d+/.test(c)).length
  const questions: Question[] =
    commas > 0 && points > 0
      ? [
          {
            about: 'decimal',
            text: `Numbers are written with a comma (${commas}) and with a point (${points}).`,
            choices: [',', '.'],
          },
        ]
      : []
  return { decimal: commas > points ? (',' as const) : ('.' as const), questions, delimiter }
}

function stepOf(cells: readonly string[], clock: readonly string[] | undefined, format: LogFormat): number | undefined {
  const encoder = new TextEncoder()
  const { form } = format.time
  const scale = {
    'epoch-s': 1,
    'epoch-ms': 0.001,
    'serial-days': 86_400,
    'elapsed-seconds': 1,
    'elapsed-minutes': 60,
    'elapsed-hours': 3600,
  } as const
  const at = cells.map((c, i) => {
    const b = encoder.encode(clock === undefined ? c : `${c} ${clock[i]!}`)
    if (form === 'ymd' || form === 'dmy' || form === 'mdy') return stampAt(b, 0, b.length, form)
    if (form === 'clock' || form === 'elapsed-hms' || form === 'elapsed-ms')
      return durationAt(b, 0, b.length, form === 'elapsed-ms')
    return Number(c.replace(',', '.')) * scale[form]
  })
  const steps = at
    .slice(1)
    .map((t, i) => (t - at[i]!) / 60)
    .filter((s) => s > 0)
  return steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)]
}

/**
 * Look at the head of a logger file and say how it would be read, and what it does not say. Nothing is guessed in silence: what
 * the file leaves open is a question, and `answers` settle it.
 */
export function sniff(head: Uint8Array | string, answers: Answers = {}): Sniffed {
  const encoding = typeof head === 'string' ? 'utf-8' : encodingOf(head)
  const whole = (typeof head === 'string' ? head : decodeHead(head, encoding)).replace(/^\uFEFF/, '')
  const newline = whole.includes('\n') ? 'lf' : whole.includes('\r') ? 'cr' : 'lf'
  const lines = whole.split(newline === 'lf' ? '\n' : '\r').map((l) => l.replace(/\r$/, '').replaceAll('\0', ''))
  // The last line of a long head is cut short.
  if (whole.length > 8192 && lines.length > 2) lines.pop()
  const all = lines.slice(0, HEAD_LINES)
  const body = all.filter((l) => l.trim() !== '')
  if (body.length === 0) return layout('The file holds no line of text.')
  const sample = body.slice(Math.floor(body.length / 3))
  const delimiter = answers.delimiter ?? delimiterOf(sample)
  if (delimiter === undefined) return layout('No delimiter cuts the lines into the same number of cells.')
  const { width } = usualWidth(sample, delimiter)
  const split = all.map((l) => cellsOf(l, delimiter))
  const start = firstReading(split, width)
  if (start < 0) return layout('No row was found that holds a time and a temperature.')

  const filled = (r: readonly string[]): boolean => r.some((c) => c !== '')
  const readings = split.slice(start).filter((r) => r.length >= width - 1 && filled(r))
  const above = split.slice(0, start)
  const isUnits = (r: readonly string[]): boolean =>
    filled(r) &&
    r.every(
      (c) =>
        c === '' ||
        /^[([]? *(?:°|º|deg\.? ?)?[CF] *[)\]]?$|^[([]?(min|s|sec|h|hh:mm(:ss)?|mm:ss|date|time|%|%? ?rh)[)\]]?$/i.test(
          c,
        ),
    )
  const unitsAt = above.length > 0 && isUnits(above.at(-1)!) ? above.length - 1 : -1
  const headerAt = (unitsAt >= 0 ? above.slice(0, unitsAt) : above).findLastIndex(
    (r) => Math.abs(r.length - width) <= 1 && filled(r) && !r.every(numeric),
  )
  const header = headerAt >= 0 ? split[headerAt]! : []
  const names = Array.from({ length: width }, (_, i) => header[i] || `column ${i + 1}`)
  const units = unitsAt >= 0 ? split[unitsAt]! : []

  const columns = timeColumns(
    readings,
    names.map((n, i) => `${n} ${units[i] ?? ''}`.trim()),
  )
  if (columns === undefined) return layout('No column holds times.')
  const stamped = readings.filter((r) => columnOk(r, columns))
  const clock = columns.timeColumn === undefined ? undefined : stamped.map((r) => r[columns.timeColumn!]!)
  const stamps = stamped.map((r) => r[columns.column]!)
  if (stamps.length === 0) return layout('No row was found that holds a time and a temperature.')
  const time = timeFormOf(stamps, clock, `${names[columns.column]} ${units[columns.column] ?? ''}`, answers)
  const skip = [columns.column, ...(columns.timeColumn === undefined ? [] : [columns.timeColumn])]
  const { decimal, questions: decimalQuestions } = decimalOf(readings, skip, delimiter, answers)
  const preamble = above.slice(0, Math.max(0, headerAt)).map((r) => r.join(' '))
  const { channels, humidity, notes, questions } = channelsOf({ names, units, readings, preamble, skip, answers })

  const format: LogFormat = {
    encoding,
    newline,
    delimiter,
    decimal,
    ...(headerAt >= 0 ? { headerRow: headerAt + 1 } : {}),
    dataRow: start + 1,
    time: { ...columns, form: time.form, offset: time.offset },
    channels,
    ...(humidity.length > 0 ? { humidity } : {}),
  }
  const step = stepOf(stamps, clock, format)
  if (channels.length + humidity.length === 0) return layout('No column holds temperatures.')
  return {
    format: { ...format, ...(step === undefined ? {} : { stepMinutes: step }) },
    notes: [...time.notes, ...notes],
    questions: [...time.questions, ...decimalQuestions, ...questions],
  }
}

const columnOk = (r: readonly string[], { column, timeColumn }: { column: number; timeColumn?: number }): boolean =>
  (looksLikeTime(r[column] ?? '') || looksLikeNumber(r[column] ?? '')) &&
  (timeColumn === undefined || CLOCK.test(r[timeColumn] ?? ''))
