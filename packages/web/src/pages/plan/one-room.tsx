import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { day, instant, inScreenUnits, mass, percent, temperature } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { Working } from '../../ui/working.tsx'
import { Hang } from './hang.tsx'
import { LoadPlot } from './load-plot.tsx'
import { purposeWords, type CalendarRow, type CalendarView, type RoomView } from './plan-views.ts'
import { RoomForm } from './room-form.tsx'

const spans = ['14', '42', '90', '180'].map((d) => ({ value: d, label: `${d} days` }))

/** One room: its calendar, what hangs there, the water against what is taken away, turns for what waits. */
export function OneRoom({ room: code }: { room: string }) {
  const days = useMemo(() => signal('42'), [])
  const without = useMemo(() => signal<readonly string[]>([]), [])
  const rooms = useResource<{ rooms: readonly RoomView[] }>('/api/rooms')
  const query = new URLSearchParams({ days: days.value, without: without.value.join(',') })
  const calendar = useResource<CalendarView>(`/api/rooms/${encodeURIComponent(code)}/calendar?${query.toString()}`)
  const toggle = (batch: string): void => {
    without.value = without.value.includes(batch) ? without.value.filter((b) => b !== batch) : [...without.value, batch]
  }
  return (
    <>
      <p>
        <a href="/plan/rooms">All rooms</a>
      </p>
      <Shown of={calendar.value} what="the room">
        {(c) => (
          <>
            <h1>{c.room.name}</h1>
            <RoomFacts room={c.room} />
            {c.unknown === undefined ? (
              <>
                <Water calendar={c} />
                <div class="row top">
                  <ChoiceField label="Shown" value={days.value} options={spans} onInput={(v) => (days.value = v)} />
                </div>
                {c.load.length > 0 && c.rows.length > 0 && <LoadPlot load={c.load} />}
                <Calendar calendar={c} toggle={toggle} />
                <LoadTable calendar={c} />
              </>
            ) : (
              <>
                <p class="late">{c.unknown}</p>
                <Hanging room={c.room} />
              </>
            )}
            <h2>Hang a batch, or take one out</h2>
            <Hang room={c.room} rooms={rooms.value.value?.rooms ?? []} />
            <details>
              <summary>Correct this room</summary>
              <RoomForm key={c.room.seq} room={c.room} />
            </details>
          </>
        )}
      </Shown>
    </>
  )
}

function RoomFacts({ room: r }: { room: RoomView }) {
  const facts = [
    ['Use', r.retired ? 'out of use' : purposeWords[r.purpose]],
    ['Set air', [temperature(r.tempC), ...(r.rhPct === undefined ? [] : [percent(r.rhPct)])].join(', ')],
    ['Air past the pieces', r.airSpeedMPerS === undefined ? 'not said' : `${r.airSpeedMPerS} m/s`],
    [
      'Unit',
      r.unit
        ? `${r.unit.airM3PerHour} m³/h off a coil at ${temperature(r.unit.coilTempC)}, ${r.unit.hoursPerDay ?? 24} h a day`
        : 'not said',
    ],
    ['Fresh air', r.freshAir ? `${r.freshAir.m3PerHour} m³/h` : 'not said'],
    ['Holds', r.capacityKg === undefined ? 'not said' : mass(r.capacityKg)],
  ] as const
  return (
    <dl class="facts">
      {facts.map(([term, said]) => (
        <>
          <dt key={term}>{term}</dt>
          <dd>{said}</dd>
        </>
      ))}
    </dl>
  )
}

type Known = Extract<CalendarView, { from: string }>

/** Whether the unit keeps up, in a sentence, with its working. */
function Water({ calendar: c }: { calendar: Known }) {
  const removed = c.load[0]?.removedKg
  if (c.rows.length === 0) return null
  const peak = c.load.reduce((a, b) => (b.allKg > a.allKg ? b : a))
  const over = removed !== undefined && peak.allKg > removed * (1 + 1e-9)
  const said = (
    <span>
      The batches give off at most <strong>{mass(peak.allKg, 3)}</strong> of water a day, on {day(peak.on)}
      {removed !== undefined && (
        <>
          ; unit and fresh air take <strong>{mass(removed, 3)}</strong> a day
        </>
      )}
      .{' '}
      {over && (
        <span class="late">
          It is too much: the air would settle near {percent(peak.settlesAtRhPct, 2)} instead of {percent(c.room.rhPct)}
          .
        </span>
      )}
    </span>
  )
  return (
    <>
      {c.working ? <Working figure={said} steps={c.working} /> : <p class="figure-line">{said}</p>}
      <ul>
        {c.warnings.map((w) => (
          <li key={w} class="quiet">
            {inScreenUnits(w)}
          </li>
        ))}
      </ul>
    </>
  )
}

function Calendar({ calendar: c, toggle }: { calendar: Known; toggle: (batch: string) => void }) {
  const byHand = c.leftOut.filter((l) => l.because === 'left out by hand')
  const cannot = c.leftOut.filter((l) => l.because !== 'left out by hand')
  return (
    <>
      <h2>What goes in and out</h2>
      {c.rows.length === 0 && (
        <p class="empty">
          Nothing hangs here, and no batch that dries waits for a turn. Plan a batch of a recipe that dries, or hang one
          below.
        </p>
      )}
      {c.rows.length > 0 && (
        <>
          <p class="hint">
            Turns by a simple rule: each batch that waits, the one that could go in first before the others, is given
            the first day from which the water of all never exceeds what is taken away and the room holds them all.
            Ready days are estimates; a checked meter tells the end. What hangs here goes out on the likely day of its
            own forecast, in the air it has had and its recipe plans, as on Today; what waits is dried in the air this
            room is set to.
          </p>
          <Sheet
            caption="Batches of the room"
            rows={c.rows}
            rowKey={(r) => r.batch}
            columns={[
              {
                head: 'Batch',
                names: true,
                cell: (r) => (
                  <>
                    <a href={`/batches/${encodeURIComponent(r.batch)}`}>{r.batch}</a>{' '}
                    <span class="quiet">{r.recipeName}</span>
                  </>
                ),
              },
              { head: 'As stuffed', num: true, cell: (r) => mass(r.kg) },
              {
                head: 'In',
                keep: true,
                cell: (r) => (r.in ? day(r.in) : <span class="late">no turn</span>),
              },
              { head: 'Out', keep: true, cell: (r) => day(r.out) },
              { head: 'Most water', num: true, cell: (r) => mass(r.peakKgPerDay, 3) },
              { head: 'To know', cell: (r) => <ToKnow row={r} from={c.from} toggle={toggle} /> },
            ]}
          />
        </>
      )}
      {byHand.length > 0 && (
        <p>
          Left out by hand:{' '}
          {byHand.map((l) => (
            <button key={l.batch} type="button" class="plain" onClick={() => toggle(l.batch)}>
              Put {l.batch} back
            </button>
          ))}
        </p>
      )}
      {cannot.map((l) => (
        <p key={l.batch} class="late">
          {l.batch} is not counted: {l.because}.
        </p>
      ))}
    </>
  )
}

/** Whether it hangs there, why it has its turn, and from when its rim is at risk. */
function ToKnow({ row: r, from, toggle }: { row: CalendarRow; from: string; toggle: (batch: string) => void }) {
  return (
    <>
      {r.crustRiskFrom && <p class="late">rim may crust from {day(r.crustRiskFrom)}, in the set air</p>}
      {r.hangs ? (
        <span class="quiet">hangs there{r.because ? `; ${r.because}` : ''}</span>
      ) : (
        <p>
          {r.asked !== r.in && r.in && <>could go in {day(r.asked)}; </>}
          {turnWords(r.because, from)}
        </p>
      )}
      {!r.hangs && (
        <button type="button" class="plain" onClick={() => toggle(r.batch)}>
          Leave {r.batch} out
        </button>
      )}
    </>
  )
}

/** A turn's reason, which counts days from the start of the calendar, with dates in their place. */
const turnWords = (because: string | undefined, from: string): string =>
  inScreenUnits(
    (because ?? '').replaceAll(/\bday (\d+)\b/g, (_, n: string) =>
      day(new Date(Date.parse(from) + Number(n) * 86_400_000).toISOString().slice(0, 10)),
    ),
  )

function LoadTable({ calendar: c }: { calendar: Known }) {
  if (c.rows.length === 0) return null
  return (
    <details>
      <summary>The water by the day</summary>
      <Sheet
        caption="Water by the day"
        rows={c.load}
        rowKey={(d) => d.on}
        columns={[
          { head: 'Day', names: true, keep: true, cell: (d) => day(d.on) },
          { head: 'Of what hangs there', num: true, cell: (d) => mass(d.hangingKg, 3) },
          { head: 'With what is to come', num: true, cell: (d) => mass(d.allKg, 3) },
          { head: 'Taken away', num: true, cell: (d) => mass(d.removedKg, 3) },
          {
            head: 'Margin',
            num: true,
            cell: (d) =>
              d.removedKg === undefined ? (
                '–'
              ) : d.removedKg < d.allKg ? (
                <span class="late">{mass(d.allKg - d.removedKg, 3)} too much</span>
              ) : (
                mass(d.removedKg - d.allKg, 3)
              ),
          },
          { head: 'In the room', num: true, cell: (d) => mass(d.roomKg) },
        ]}
      />
    </details>
  )
}

function Hanging({ room }: { room: RoomView }) {
  return (
    <>
      <h2>Hangs there</h2>
      {room.hanging.length === 0 ? (
        <p class="empty">Nothing hangs here.</p>
      ) : (
        <ul class="entries">
          {room.hanging.map((h) => (
            <li key={h.batch}>
              <a class="lead" href={`/batches/${encodeURIComponent(h.batch)}`}>
                {h.batch}
              </a>{' '}
              since {instant(h.since)}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
