import type { Form, Values } from '../../state/form.ts'
import type { Reader } from '../../state/reader.ts'
import { FormText } from '../../ui/form.tsx'

/** Stamps before this count from the log's own start, seconds. */
const FIRST_DATED_S = 86_400 * 365

/** What the file's own clock says, as texts to be confirmed or put right. */
export function beginTexts(stamp: number | undefined): Values {
  if (stamp === undefined || stamp < FIRST_DATED_S) return { 'begins.day': '', 'begins.time': '' }
  const [day = '', time = ''] = new Date(stamp * 1000).toISOString().split('T')
  return { 'begins.day': day, 'begins.time': time.slice(0, 5) }
}

/** An instant that was told, as texts of this screen's zone. */
export function beginOf(startsAt: string | undefined): Values {
  if (startsAt === undefined) return { 'begins.day': '', 'begins.time': '' }
  const d = new Date(startsAt)
  // The wall clock of this zone, written as if it were UTC.
  return beginTexts((d.getTime() - d.getTimezoneOffset() * 60_000) / 1000)
}

/** Instant of the first reading, by the zone of this screen. */
export function readBegin(r: Reader): string | undefined {
  const day = r.text('begins.day', { required: true })
  const time = r.text('begins.time', { required: true })
  if (day === undefined || time === undefined) return undefined
  const [, hour, minute] = /^(\d{1,2})[:.](\d{2})$/.exec(time) ?? []
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59)
    return r.fault('begins.time', `is ${JSON.stringify(time)}; allowed: a time from 0:00 to 23:59, such as 14:30`)
  const at = new Date(`${day}T${hour.padStart(2, '0')}:${minute}:00`)
  if (Number.isNaN(at.getTime())) return r.fault('begins.day', `is ${JSON.stringify(day)}; allowed: a date`)
  if (at.getTime() > Date.now()) return r.fault('begins.day', 'is ahead of this screen’s clock; allowed: when it began')
  return at.toISOString()
}

/** When the log began by this kitchen's clock: readings by hand are put on it by their instants. */
export function BeginsFields({ form }: { form: Form }) {
  return (
    <div class="stage-row">
      <FormText
        form={form}
        name="begins.day"
        label="The log begins on"
        type="date"
        hint="The file names no zone: this kitchen’s day and time of its first reading."
      />
      <FormText form={form} name="begins.time" label="At" placeholder="14:30" />
    </div>
  )
}
