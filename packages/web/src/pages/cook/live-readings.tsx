import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused } from '../../api.ts'
import { useForm, type Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'
import { sendReadings } from './feed-state.ts'

/** The wall clock hh:mm as the latest such instant that is not to come. */
export function instantAt(typed: string, now: Date): Date | undefined {
  const hit = /^(\d{1,2}):(\d{2})$/.exec(typed.trim())
  if (!hit || Number(hit[1]) > 23 || Number(hit[2]) > 59) return undefined
  const at = new Date(now)
  at.setHours(Number(hit[1]), Number(hit[2]), 0, 0)
  return at > now ? new Date(at.getTime() - 86_400_000) : at
}

async function sendTyped(form: Form, batch: string): Promise<void> {
  const reader = readerOf(form.values.value)
  const tempC = reader.quantity('tempC', 'temperature', { required: true, allowNegative: true })
  const channel = reader.text('channel', { required: true })
  const typed = reader.text('time')
  const now = new Date()
  const at = typed === undefined ? now : instantAt(typed, now)
  if (at === undefined)
    reader.fault('time', `is ${JSON.stringify(typed)}; allowed: a time as 14:05, or nothing for now`)
  form.faults.value = reader.faults
  if (reader.faults.length > 0 || tempC === undefined || channel === undefined) return
  form.sending.value = true
  try {
    await sendReadings(batch, [{ channel, tempC, at: at!.toISOString() }])
    form.replace({ channel, tempC: '', time: '' })
    form.done.value = 'Kept.'
  } catch (error) {
    if (!(error instanceof Refused)) throw error
    form.faults.value = error.faults.map((f) => ({
      path: f.path.replace(/^\[0\]\.(at|minute)/, 'time').replace(/^\[0\]\./, ''),
      message: f.message,
    }))
  } finally {
    form.sending.value = false
  }
}

/** A reading typed off a thermometer: now, or at a time. */
export function TypedReading({ batch, channel = 'core' }: { batch: string; channel?: string }) {
  const form = useForm(`reading-${channel}-${batch}`, { channel, tempC: '', time: '' })
  return (
    <EntryForm
      form={form}
      fields={['tempC', 'time', 'channel']}
      label="Type a reading"
      action="Keep the reading"
      onSubmit={() => void sendTyped(form, batch)}
    >
      <div class="stage-row">
        <FormQuantity form={form} name="tempC" kind="temperature" label="Reading" allowNegative />
        <FormText form={form} name="time" label="At" placeholder="now" hint="14:05; empty is now." numeric />
        <FormText form={form} name="channel" label="Probe" hint="core, core 2, house" />
      </div>
    </EntryForm>
  )
}

/** How to post from a logger's own program. */
export function HowToPost({ batch }: { batch: string }) {
  const shown = useMemo(() => signal(`${location.origin}/api/feed/${encodeURIComponent(batch)}/readings`), [batch])
  return (
    <details>
      <summary>Readings from a program</summary>
      <p>Post a list of readings; each with the probe, °C, and the instant or the minute from the start:</p>
      <pre class="code">{`POST ${shown.value}
[{ "channel": "core", "tempC": 58.4, "at": "${new Date().toISOString().slice(0, 19)}Z" },
 { "channel": "house", "tempC": 72, "minute": 84 }]`}</pre>
      <p class="hint">A reading sent again is kept once. Up to 5000 at a time.</p>
    </details>
  )
}
