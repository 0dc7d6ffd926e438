import type { CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { COURSE_CHECKED } from '@forcemeat/craft/dry/how-checked'
import type { Forecast } from '@forcemeat/craft/dry/outlook'
import { number, percent } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { dayOfWeek } from './clock-now.ts'

const DAY = 86_400_000

export const dateOf = (start: number, day: number): string => dayOfWeek(start + day * DAY)

type Ready = NonNullable<CourseOutput['readyDay']>

/** "between Tue 3 and Mon 9 Dec, likely Fri 6 Dec". */
export const readyWords = (start: number, { early, likely, late }: Ready): string =>
  late === undefined
    ? `not before ${dateOf(start, early)}, likely ${dateOf(start, likely)}; no latest day can be given`
    : `between ${dateOf(start, early)} and ${dateOf(start, late)}, likely ${dateOf(start, likely)}`

/** The date, and how sure it is. */
export function ReadyDate({
  start,
  ready,
  fitted,
  waits,
}: {
  start: number
  ready: Ready | undefined
  fitted: boolean
  /** Which of several targets the date waits for. */
  waits?: string | undefined
}) {
  if (!ready) return <p class="standing">No ready date: see what is said below.</p>
  const checked = fitted ? COURSE_CHECKED.fitted : COURSE_CHECKED.unfitted
  return (
    <p class="standing">
      <strong>Ready {readyWords(start, ready)}</strong>
      <br />
      {waits && (
        <>
          {waits}
          <br />
        </>
      )}
      <span class="quiet">
        {ready.likely === 0
          ? 'The target is met as stuffed.'
          : `Day ${number(ready.early, 3)} to ${ready.late === undefined ? 'not known' : number(ready.late, 3)}, likely ${number(ready.likely, 3)}. `}
        {fitted ? 'Fitted to the weighings; ' : 'From published figures, no weighing yet; '}9 in 10 batches fall in it
        if the assumed spreads hold; of {checked.dates} dates reckoned for published batches {checked.held} did.
      </span>
    </p>
  )
}

/** What was foretold after each weighing. */
export function Forecasts({ start, forecasts, due }: { start: number; forecasts: readonly Forecast[]; due: number }) {
  if (due === 0) return null
  return (
    <section>
      <h2>What was foretold after each weighing</h2>
      {forecasts.length < due && (
        <p class="quiet" role="status">
          Reckoning {forecasts.length + 1} of {due}…
        </p>
      )}
      <Sheet
        caption="Forecast after each weighing"
        rows={forecasts}
        rowKey={(f) => f.day}
        columns={[
          { head: 'Weighed', names: true, keep: true, cell: (f) => dateOf(start, f.day) },
          { head: 'Day', num: true, cell: (f) => number(f.day, 3) },
          { head: 'Loss', num: true, cell: (f) => percent(f.weightLossPct) },
          { head: 'Early', keep: true, cell: (f) => (f.readyDay ? dateOf(start, f.readyDay.early) : '–') },
          { head: 'Likely', keep: true, cell: (f) => (f.readyDay ? dateOf(start, f.readyDay.likely) : '–') },
          {
            head: 'Late',
            keep: true,
            cell: (f) => (f.readyDay?.late === undefined ? '–' : dateOf(start, f.readyDay.late)),
          },
          {
            head: 'Band, days',
            num: true,
            cell: (f) => (f.readyDay?.late === undefined ? '–' : number(f.readyDay.late - f.readyDay.early, 2)),
          },
        ]}
      />
    </section>
  )
}
