import { useResource } from '../../state/resource.ts'
import { instant, mass, percent, temperature } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { purposeWords, type RoomView } from './plan-views.ts'
import { RoomForm } from './room-form.tsx'

/** Rooms, with what hangs in each. */
export function Rooms() {
  const all = useResource<{ rooms: readonly RoomView[] }>('/api/rooms')
  return (
    <>
      <h1>Rooms</h1>
      <Shown of={all.value} what="the rooms">
        {({ rooms }) => (
          <LongList
            items={rooms}
            what="rooms"
            text={(r) => `${r.room} ${r.name} ${r.hanging.map((h) => h.batch).join(' ')}`}
            empty="No room yet. Add the room the sausage ferments or dries in below: its air, the unit that takes the water out, what it holds."
          >
            {(shown) => (
              <Sheet
                caption="Rooms"
                rows={shown}
                rowKey={(r) => r.room}
                columns={[
                  {
                    head: 'Room',
                    names: true,
                    cell: (r) => <a href={`/plan/rooms/${encodeURIComponent(r.room)}`}>{r.name}</a>,
                  },
                  { head: 'Code', keep: true, cell: (r) => r.room },
                  { head: 'Use', cell: (r) => (r.retired ? 'out of use' : purposeWords[r.purpose]) },
                  {
                    head: 'Air',
                    cell: (r) => `${temperature(r.tempC)}${r.rhPct === undefined ? '' : `, ${percent(r.rhPct)}`}`,
                  },
                  { head: 'Holds', num: true, cell: (r) => mass(r.capacityKg) },
                  {
                    head: 'Hangs there',
                    cell: (r) =>
                      r.hanging.length === 0 ? (
                        <span class="quiet">nothing</span>
                      ) : (
                        r.hanging.map((h) => (
                          <p key={h.batch}>
                            <a href={`/batches/${encodeURIComponent(h.batch)}`}>{h.batch}</a>{' '}
                            <span class="quiet">since {instant(h.since)}</span>
                          </p>
                        ))
                      ),
                  },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
      <h2>Add a room</h2>
      <RoomForm />
    </>
  )
}
