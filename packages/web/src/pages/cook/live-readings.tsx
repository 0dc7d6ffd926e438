import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused } from '../../api.ts'
import { useForm, type Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'
import type { SentReading } from '../../work/growing-file.ts'
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
  const tempC = reader.quantity('tempC', 'temperature', { allowNegative: true })
  const rhPct = reader.quantity('rhPct', 'percent')
  const channel = reader.text('channel', { required: tempC !== undefined })
  const sensor = reader.text('sensor', { required: rhPct !== undefined })
  if (reader.faults.length === 0 && tempC === undefined && rhPct === undefined)
    reader.fault('tempC', 'is empty, and so is the humidity; allowed: either of them, or both')
  const typed = reader.text('time')
  const now = new Date()
  const at = typed === undefined ? now : instantAt(typed, now)
  if (at === undefined)
    reader.fault('time', `is ${JSON.stringify(typed)}; allowed: a time as 14:05, or nothing for now`)
  form.faults.value = reader.faults
  if (reader.faults.length > 0) return
  const readings: readonly SentReading[] = [
    ...(tempC === undefined ? [] : [{ channel: channel!, tempC, at: at!.toISOString() }]),
    ...(rhPct === undefined ? [] : [{ channel: sensor!, rhPct, at: at!.toISOString() }]),
  ]
  form.sending.value = true
  try {
    await sendReadings(batch, readings)
    form.replace({ ...form.values.value, tempC: '', rhPct: '', time: '' })
    form.done.value = 'Kept.'
  } catch (error) {
    if (!(error instanceof Refused)) throw error
    form.faults.value = error.faults.map((f) => {
      const [, i, field] = /^\[(\d)\]\.(\w+)$/.exec(f.path) ?? []
      const named = field === 'channel' && readings[Number(i)]?.rhPct !== undefined ? 'sensor' : field
      return { path: named === 'at' || named === 'minute' ? 'time' : (named ?? f.path), message: f.message }
    })
  } finally {
    form.sending.value = false
  }
}

/** A reading typed off a thermometer, a hygrometer or both: now, or at a time. */
export function TypedReading({ batch, channel = 'core' }: { batch: string; channel?: string }) {
  const form = useForm(`reading-${channel}-${batch}`, { channel, sensor: 'humidity', tempC: '', rhPct: '', time: '' })
  return (
    <EntryForm
      form={form}
      fields={['tempC', 'rhPct', 'time', 'channel', 'sensor']}
      label="Type a reading"
      action="Keep the reading"
      onSubmit={() => void sendTyped(form, batch)}
    >
      <div class="stage-row">
        <FormQuantity form={form} name="tempC" kind="temperature" label="Reading" allowNegative />
        <FormQuantity form={form} name="rhPct" kind="percent" label="Humidity" />
        <FormText form={form} name="time" label="At" placeholder="now" hint="14:05; empty is now." numeric />
        <FormText
          form={form}
          name="channel"
          label="Probe"
          hint={channel === 'core' ? 'core, core 2, house' : `${channel}, ${channel} 2`}
        />
        <FormText form={form} name="sensor" label="Humidity kept as" hint="Another name than the probe’s." />
      </div>
    </EntryForm>
  )
}

/** How to post from a logger's own program. */
export function HowToPost({
  batch,
  channels = ['core', 'house'],
}: {
  batch: string
  channels?: readonly [string, string]
}) {
  const shown = useMemo(() => signal(`${location.origin}/api/feed/${encodeURIComponent(batch)}/readings`), [batch])
  return (
    <details>
      <summary>Readings from a program</summary>
      <p>
        Post a list of readings; each with its channel, a temperature in °C or a relative humidity in %, and the instant
        or the minute from the start. A channel reads one of the two:
      </p>
      <pre class="code">{`POST ${shown.value}
[{ "channel": "${channels[0]}", "tempC": ${channels[0] === 'core' ? 58.4 : 24.1}, "at": "${new Date().toISOString().slice(0, 19)}Z" },
 { "channel": "${channels[1]}", "tempC": ${channels[0] === 'core' ? 72 : 23.8}, "minute": 84 },
 { "channel": "humidity", "rhPct": ${channels[0] === 'core' ? 45 : 91.5}, "minute": 84 }]`}</pre>
      <p class="hint">A reading sent again is kept once. Up to 5000 at a time.</p>
    </details>
  )
}
