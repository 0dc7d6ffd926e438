/** Calendar arithmetic on ISO dates; no clock and no zone. */

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const

type Day = { readonly year: number; readonly month: number; readonly day: number }

const read = (iso: string): Day => ({
  year: Number(iso.slice(0, 4)),
  month: Number(iso.slice(5, 7)),
  day: Number(iso.slice(8, 10)),
})

const write = (time: number): string => new Date(time).toISOString().slice(0, 10)

const timeOf = ({ year, month, day }: Day): number => Date.UTC(year, month - 1, day)

/** A date so many days on. */
export const addDays = (iso: string, days: number): string => write(timeOf(read(iso)) + days * 86_400_000)

const daysIn = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate()

/** The same day of the month so many months on, or the last day where the month is shorter. */
export function addMonths(iso: string, count: number): string {
  const { year, month, day } = read(iso)
  const at = year * 12 + (month - 1) + count
  const y = Math.floor(at / 12)
  const m = (at % 12) + 1
  return write(timeOf({ year: y, month: m, day: Math.min(day, daysIn(y, m)) }))
}

/** Day, month and year, in that order and in words. */
export function inWords(iso: string): string {
  const { year, month, day } = read(iso)
  return `${day} ${months[month - 1]!} ${year}`
}

/** Months as Canada abbreviates them, one abbreviation for both languages (Food and Drug Regulations, B.01.007(5)). */
const bilingual = ['JA', 'FE', 'MR', 'AL', 'MA', 'JN', 'JL', 'AU', 'SE', 'OC', 'NO', 'DE'] as const

/** Year, month and day in that order, the month abbreviated for English and French at once. */
export function inTwoLanguages(iso: string): string {
  const { year, month, day } = read(iso)
  return `${year} ${bilingual[month - 1]!} ${String(day).padStart(2, '0')}`
}

/** The last month that ends on or before the date, in words: its own where the date is its last day. */
export function lastWholeMonth(iso: string): string {
  const { year, month, day } = read(iso)
  const whole = day === daysIn(year, month)
  const at = year * 12 + (month - 1) - (whole ? 0 : 1)
  return `${months[at % 12]!} ${Math.floor(at / 12)}`
}

/** The last year that ends on or before the date. */
export function lastWholeYear(iso: string): string {
  const { year, month, day } = read(iso)
  return String(month === 12 && day === 31 ? year : year - 1)
}
