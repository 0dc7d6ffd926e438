import type { Answers } from '@forcemeat/craft/log/format'

/** What a person said of a log that the file does not say itself, in the words of the record; empty where nothing was. */
export function readingOf({
  delimiter,
  decimal,
  unit,
  dateOrder,
  timeUnit,
  clockChange,
}: Answers): Record<string, string> {
  return {
    ...(delimiter ? { delimiter } : {}),
    ...(decimal ? { decimal } : {}),
    ...(unit ? { unit } : {}),
    ...(dateOrder ? { dateOrder: dateOrder.toUpperCase() } : {}),
    ...(timeUnit ? { timeUnit } : {}),
    ...(clockChange ? { clockChange } : {}),
  }
}
