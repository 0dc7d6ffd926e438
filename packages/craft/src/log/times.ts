import { numberAt, stampAt, type Calendar } from './bytes.ts'
import type { Answers, Question, TimeForm } from './format.ts'

const encoder = new TextEncoder()
export const DATE = /^(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})(?:[ T,]+\d{1,2}:\d{2}.*)?$/
export const CLOCK = /^\d{1,4}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?: ?[AaPp]\.?[Mm]\.?)?$/
const NUMBER = /^[-+]?\d+(?:[.,]\d+)?$/

export const looksLikeTime = (cell: string): boolean => DATE.test(cell) || CLOCK.test(cell)
export const looksLikeNumber = (cell: string): boolean => NUMBER.test(cell)

export type TimeRead = {
  readonly form: TimeForm
  readonly offset: boolean
  readonly notes: string[]
  readonly questions: Question[]
}

const seconds = (cell: string, form: Calendar): number => {
  const bytes = encoder.encode(cell)
  return stampAt(bytes, 0, bytes.length, form)
}

/** Steps between stamps under an order of day and month: usual step, and the longest, seconds. */
function steps(cells: readonly string[], form: Calendar): { usual: number; longest: number } | undefined {
  const at = cells.map((c) => seconds(c, form))
  if (at.some(Number.isNaN)) return undefined
  const gaps = at.slice(1).map((t, i) => Math.abs(t - at[i]!))
  const sorted = gaps.toSorted((a, b) => a - b)
  return { usual: sorted[Math.floor(sorted.length / 2)] ?? 0, longest: sorted.at(-1) ?? 0 }
}

/** Order of day and month, or a question where nothing in the cells says it. */
function calendarOf(
  dates: readonly string[],
  stamps: readonly string[],
  answers: Answers,
): Omit<TimeRead, 'offset'> & { form: Calendar } {
  const parts = dates.map((c) => DATE.exec(c)!)
  const first = parts.map((p) => Number(p[1]))
  const second = parts.map((p) => Number(p[3]))
  if (parts.some((p) => p[1]!.length === 4)) return { form: 'ymd', notes: [], questions: [] }
  if (answers.dateOrder !== undefined)
    return { form: answers.dateOrder, notes: ['dates: order as answered'], questions: [] }
  if (first.some((n) => n > 12))
    return { form: 'dmy', notes: ['dates: day first, a first number is above 12'], questions: [] }
  if (second.some((n) => n > 12))
    return { form: 'mdy', notes: ['dates: month first, a second number is above 12'], questions: [] }
  const [dmy, mdy] = [steps(stamps, 'dmy'), steps(stamps, 'mdy')]
  const day = 86_400
  if (dmy && mdy && dmy.longest < 2 * day && mdy.longest > 20 * day)
    return { form: 'dmy', notes: ['dates: day first, the days then follow each other'], questions: [] }
  if (dmy && mdy && mdy.longest < 2 * day && dmy.longest > 20 * day)
    return { form: 'mdy', notes: ['dates: month first, the days then follow each other'], questions: [] }
  if (first.every((n, i) => n === second[i]))
    return { form: 'dmy', notes: ['dates: day and month are the same number'], questions: [] }
  const text = `The date ${JSON.stringify(dates[0])} can be day or month first; nothing in the file says which.`
  return { form: 'dmy', notes: [], questions: [{ about: 'date-order', text, choices: ['dmy', 'mdy'] }] }
}

/** How times given as plain numbers are meant. */
function numbered(cells: readonly string[], name: string, answers: Answers): TimeRead {
  const values = cells.map((c) => {
    const bytes = encoder.encode(c.replace(',', '.'))
    return numberAt(bytes, 0, bytes.length, 46)
  })
  const plain = (form: TimeForm, notes: string[] = []): TimeRead => ({ form, offset: false, notes, questions: [] })
  const least = Math.min(...values)
  if (least >= 1e9 && least < 2e10) return plain('epoch-s', ['times: seconds since 1970 (UTC)'])
  if (least >= 1e12 && least < 2e13) return plain('epoch-ms', ['times: milliseconds since 1970 (UTC)'])
  if (answers.timeUnit === 'seconds' || answers.timeUnit === 'minutes' || answers.timeUnit === 'hours')
    return plain(`elapsed-${answers.timeUnit}`)
  if (/\b(s|sec|secs|seconds?)\b/i.test(name)) return plain('elapsed-seconds')
  if (/\b(m|min|mins|minutes?)\b/i.test(name)) return plain('elapsed-minutes')
  if (/\b(h|hr|hrs|hours?)\b/i.test(name)) return plain('elapsed-hours')
  if (
    least > 36_000 &&
    values.every((v) => v < 80_000) &&
    Math.max(...values) - least < 60 &&
    cells.some((c) => /[.,]/.test(c))
  )
    return plain('serial-days', ['times: days of a spreadsheet'])
  const text = `Times are plain numbers (${cells.slice(0, 3).join(', ')} …) and the heading ${JSON.stringify(name)} names no unit.`
  return {
    form: 'elapsed-minutes',
    offset: false,
    notes: [],
    questions: [{ about: 'time-unit', text, choices: ['seconds', 'minutes', 'hours'] }],
  }
}

function clocked(cells: readonly string[], name: string, answers: Answers): TimeRead {
  const plain = (form: TimeForm, notes: string[] = []): TimeRead => ({ form, offset: false, notes, questions: [] })
  const long = cells.some((c) => /:\d{2}:/.test(c))
  const elapsed = /elapsed|dur/i.test(name) || cells.some((c) => Number(/^\d+/.exec(c)![0]) > 24)
  if (long) return plain(elapsed || /^0+:00:00/.test(cells[0]!) ? 'elapsed-hms' : 'clock')
  if (answers.timeUnit === 'mm:ss') return plain('elapsed-ms')
  if (answers.timeUnit === 'hh:mm') return plain(elapsed ? 'elapsed-hms' : 'clock')
  if (/mm:ss/i.test(name)) return plain('elapsed-ms')
  if (/h+:mm/i.test(name) || cells.some((c) => /[AaPp]/.test(c))) return plain(elapsed ? 'elapsed-hms' : 'clock')
  const text = `Times such as ${JSON.stringify(cells[0])} can be hours and minutes or minutes and seconds.`
  return {
    form: 'clock',
    offset: false,
    notes: [],
    questions: [{ about: 'time-unit', text, choices: ['hh:mm', 'mm:ss'] }],
  }
}

/** Form of the time column from its cells (and the clock column beside a date column). */
export function timeFormOf(
  cells: readonly string[],
  clock: readonly string[] | undefined,
  name: string,
  answers: Answers,
): TimeRead {
  if (cells.every((c) => DATE.test(c))) {
    const read = calendarOf(cells, clock ? cells.map((c, i) => `${c} ${clock[i]!}`) : cells, answers)
    return {
      ...read,
      offset: cells.some((c) => /\d(Z|[+-]\d{2}:?\d{2})$/.test(c.replace(/^\d{1,4}-\d{1,2}-\d{1,4}/, ''))),
    }
  }
  if (cells.every((c) => CLOCK.test(c))) return clocked(cells, name, answers)
  return numbered(cells, name, answers)
}
