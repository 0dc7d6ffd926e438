import type { Form } from '../../state/form.ts'
import type { Reader } from '../../state/reader.ts'
import { FormText } from '../../ui/form.tsx'

/** How far ahead of this screen's clock a reading may be said to be taken, ms. */
const AHEAD_MS = 5 * 60_000

/** Instant of a day and a time of this screen's zone; now where neither is typed, and today where only the time is. */
export function readTaken(r: Reader, now = new Date()): string | undefined {
  const [day, time] = [r.text('day'), r.text('time')]
  if (day === undefined && time === undefined) return now.toISOString()
  const [, hour, minute] = /^(\d{1,2})[:.](\d{2})$/.exec(time ?? '') ?? []
  if (time === undefined) return r.fault('time', 'is empty; allowed: a time such as 14:30, or no day either for now')
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59)
    return r.fault('time', `is ${JSON.stringify(time)}; allowed: a time from 0:00 to 23:59, such as 14:30`)
  const on = day === undefined ? now : new Date(`${day}T00:00:00`)
  if (Number.isNaN(on.getTime()) || (day !== undefined && !/^\d{4}-\d{2}-\d{2}$/.test(day)))
    return r.fault('day', `is ${JSON.stringify(day)}; allowed: a date`)
  const at = new Date(on.getFullYear(), on.getMonth(), on.getDate(), Number(hour), Number(minute))
  if (at.getTime() > now.getTime() + AHEAD_MS)
    return r.fault('time', `is ahead of this screen's clock; allowed: when it was taken`)
  return at.toISOString()
}

/** Day and time of something done by hand; both empty is now. */
export function TakenFields({ form, what = 'taken' }: { form: Form; what?: string }) {
  return (
    <>
      <FormText form={form} name="day" label={`Day ${what}`} type="date" hint="Empty: today." />
      <FormText form={form} name="time" label={`Time ${what}`} placeholder="now" hint="Empty: now. Or 14:30." />
    </>
  )
}
