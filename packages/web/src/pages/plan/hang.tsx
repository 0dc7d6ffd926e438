import { useResource } from '../../state/resource.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { BatchView } from '../../state/views.ts'
import { today } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import type { RoomView } from './plan-views.ts'

const nowTime = (): string => new Date().toTimeString().slice(0, 5)

/** A batch hung in this room, or one of its batches taken out. */
export function Hang({ room, rooms }: { room: RoomView; rooms: readonly RoomView[] }) {
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=200')
  const form = useForm(`hang-${room.room}`, { way: 'in', on: today(), time: nowTime() })
  const out = form.values.value['way'] === 'out'
  const here = new Set(room.hanging.map((h) => h.batch))
  const where = new Map(rooms.flatMap((r) => r.hanging.map((h) => [h.batch, r.name] as const)))
  const open = (batches.value.value?.batches ?? []).filter((b) => b.state !== 'packed')
  const offered = out
    ? room.hanging.map((h) => ({ value: h.batch, label: h.batch }))
    : open
        .filter((b) => !here.has(b.batch))
        .map((b) => ({
          value: b.batch,
          label: `${b.batch}, ${b.recipeName}${where.has(b.batch) ? `, hangs in ${where.get(b.batch)}` : ''}`,
        }))
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const [on, time] = [r.text('on', { required: true }), r.text('time', { required: true })]
        const at = new Date(`${on}T${time}`)
        if (on && time && Number.isNaN(at.getTime()))
          r.fault('time', `is ${JSON.stringify(time)}; allowed: hours and minutes, as 14:30`)
        return {
          kind: 'batch.place',
          body: {
            batch: r.text('batch', { required: true }),
            ...(v['way'] === 'out' ? {} : { room: room.room }),
            at: Number.isNaN(at.getTime()) ? '' : at.toISOString(),
            ...compact({ note: r.text('note') }),
          },
        }
      },
      fieldFor: { at: 'time' },
      clear: { way: form.values.value['way'] ?? 'in', on: today(), time: nowTime() },
    })
  return (
    <EntryForm
      form={form}
      fields={['batch', 'on', 'time', 'note']}
      label="Hang or take out"
      action={out ? 'Take it out' : 'Hang it here'}
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormChoice
          form={form}
          name="way"
          label="What is done"
          options={[
            { value: 'in', label: 'hang a batch here' },
            { value: 'out', label: 'take a batch out' },
          ]}
        />
        <FormChoice
          form={form}
          name="batch"
          label="Batch"
          options={[{ value: '', label: offered.length > 0 ? 'choose a batch' : 'none' }, ...offered]}
        />
        <FormText form={form} name="on" type="date" label="On" required />
        <FormText form={form} name="time" label="At" required placeholder="14:30" />
      </div>
      <FormText form={form} name="note" label="Note" />
    </EntryForm>
  )
}
