import { dayOf as dayAt } from '@forcemeat/rulebook/batch/local-day'
import type { RecordedFact } from './facts-of.ts'

/** First and last day an instrument may have been used. */
export type Span = { readonly from: string; readonly to: string }

const dayOf = (instant: string): string => instant.slice(0, 10)

/** A reading was taken on one day at the kitchen, whenever it was written down. */
export function daysOfMeasure({ taken }: Pick<RecordedFact<'batch.measure'>, 'taken'>, timeZone?: string): Span {
  const day = dayAt({ timeZone }, taken)
  return { from: day, to: day }
}

/** A curve was logged between the batch's day and its recording. */
export function daysOfCurve(on: string, { at }: Pick<RecordedFact<'batch.curve'>, 'at'>): Span {
  const recorded = dayOf(at)
  return on < recorded ? { from: on, to: recorded } : { from: recorded, to: on }
}

/** A treatment was measured from its begin to its end, or on its day where neither is said. */
export const daysOfTreatment = ({
  from,
  until,
  on,
}: Pick<RecordedFact<'lot.treat'>, 'from' | 'until' | 'on'>): Span => ({
  from: from === undefined ? on : dayOf(from),
  to: until === undefined ? on : dayOf(until),
})
