import type { ThermometerDoubt } from '@forcemeat/craft/heat/lethality'

/** Said where nobody gave the thermometer's error: it then counts as none, which is never true of a thermometer. */
export const errorUnknownNote = "; the thermometer's error is not given and counts as nothing"

/** Said beside a time that is the longest, or the shortest, the thermometer allows; nothing where its error is none. */
export const atTheMost = (toleranceC: number): string =>
  toleranceC > 0 ? `, at the most the error of ±${toleranceC} °C allows` : ''

/** Said of a thermometer past its check. */
export const checkOverdueDoubt: ThermometerDoubt = {
  because: "the thermometer's check is overdue",
  settle: 'check the thermometer (ice point, boiling point); if it reads true, record the check',
}
