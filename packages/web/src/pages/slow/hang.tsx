import { useResource } from '../../state/resource.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { EntryView, KitchenView } from '../../state/views.ts'
import { instant, percent, temperature } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { personName } from '../record/about.ts'
import { readTaken, TakenFields } from './taken.tsx'

type Room = {
  readonly room: string
  readonly name: string
  readonly purpose: string
  readonly tempC: number
  readonly rhPct?: number
  readonly retired?: boolean
}

const OUT = 'out'

/** A text of an entry's body; empty where it has none. */
const textIn = (e: EntryView, field: string): string => {
  const value = e.body[field]
  return typeof value === 'string' ? value : ''
}

/** What a room is set to, behind its name. */
const setTo = (r: Room): string =>
  `${r.name}, ${temperature(r.tempC)}${r.rhPct === undefined ? '' : `, ${percent(r.rhPct)}`}`

/** Hang the batch in a room, or take it out of every room; and where it hung so far, with who and when. */
export function Hang({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const rooms = useResource<{ rooms: readonly Room[] }>('/api/rooms').value
  const entries = useResource<{ entries: readonly EntryView[] }>(
    `/api/entries?limit=1000&kind=batch.place&about=${encodeURIComponent(`batch:${batch}`)}`,
  ).value
  const form = useForm(`hang-${batch}`, { room: '', day: '', time: '' })
  const all = rooms.value?.rooms ?? []
  const nameOf = (room: string): string =>
    room === '' ? 'out of every room' : (all.find((r) => r.room === room)?.name ?? room)
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const chosen = v['room'] ?? ''
        if (chosen === '') r.fault('room', 'is empty; allowed: one of the rooms, or taken out')
        return {
          kind: 'batch.place',
          body: {
            batch,
            at: readTaken(r),
            ...compact({ room: chosen === OUT ? undefined : chosen, note: r.text('note') }),
          },
        }
      },
      fieldFor: { at: 'time' },
    })
  return (
    <Shown of={rooms} what="the rooms">
      {() => (
        <>
          {all.length === 0 ? (
            <p class="empty">
              No room is in the record yet. <a href="/plan">Add the rooms in Plan</a>, and batches can be hung in them.
            </p>
          ) : (
            <EntryForm
              form={form}
              fields={['room', 'day', 'time', 'note']}
              label="Hang the batch"
              action={form.values.value['room'] === OUT ? 'Take it out' : 'Hang it there'}
              onSubmit={() => void send()}
            >
              <div class="stage-row">
                <FormChoice
                  form={form}
                  name="room"
                  label="Room"
                  options={[
                    { value: '', label: 'choose' },
                    ...all.filter((r) => !r.retired).map((r) => ({ value: r.room, label: setTo(r) })),
                    { value: OUT, label: 'taken out of every room' },
                  ]}
                />
                <TakenFields form={form} what={form.values.value['room'] === OUT ? 'taken out' : 'hung'} />
                <FormText form={form} name="note" label="Note" />
              </div>
            </EntryForm>
          )}
          <Shown of={entries} what="where it hung">
            {({ entries: found }) => {
              const rows = found.filter((e) => e.supersededBy === undefined)
              return rows.length === 0 ? (
                <p class="quiet">It was not hung in a room yet.</p>
              ) : (
                <Sheet
                  caption="Where the batch hung"
                  rows={rows}
                  rowKey={(e) => e.seq}
                  columns={[
                    { head: 'When', keep: true, cell: (e) => instant(textIn(e, 'at')) },
                    { head: 'Room', names: true, cell: (e) => nameOf(textIn(e, 'room')) },
                    { head: 'By', cell: (e) => personName(kitchen, e.by) },
                    { head: 'Note', cell: (e) => textIn(e, 'note') },
                    { head: 'Entry', num: true, cell: (e) => <a href={`/record/${e.seq}`}>{e.seq}</a> },
                  ]}
                />
              )
            }}
          </Shown>
        </>
      )}
    </Shown>
  )
}
