import { useResource } from '../../state/resource.ts'
import { day, instant, mass, number, percent } from '../../ui/figures.ts'
import { Faults } from '../../ui/notes.tsx'
import type { RoomView, SlowView } from '../plan/plan-views.ts'
import { inDegrees } from '../slow/lines.ts'
import { Part } from './part.tsx'

/** Batches that ferment and dry, late ones first; and what hangs in which room. */
export function SlowToday() {
  const slow = useResource<{ batches: readonly SlowView[] }>('/api/slow')
  const rooms = useResource<{ rooms: readonly RoomView[] }>('/api/rooms')
  const { value, error } = slow.value
  const standing = rooms.value.value?.rooms.filter((r) => !r.retired) ?? []
  return (
    <>
      {(value?.batches.length ?? 0) > 0 && (
        <Part head="Drying and fermenting">
          {value!.batches.map((b) => (
            <SlowBatch key={b.batch} batch={b} />
          ))}
        </Part>
      )}
      {error && <Faults error={error} />}
      {standing.length > 0 && (
        <Part head="In the rooms">
          {standing.map((r) => (
            <li key={r.room}>
              <a class="lead" href={`/plan/rooms/${encodeURIComponent(r.room)}`}>
                {r.name}
              </a>{' '}
              {r.hanging.length === 0 ? <span class="quiet">empty</span> : r.hanging.map((h) => h.batch).join(', ')}
            </li>
          ))}
        </Part>
      )}
    </>
  )
}

function SlowBatch({ batch: b }: { batch: SlowView }) {
  const facts = [
    ...(b.room ? [`in ${b.room.name} since ${day(b.room.since)}`] : []),
    ...(b.lastPh ? [`pH ${number(b.lastPh.value)}`] : []),
    ...(b.loss
      ? [`${percent(b.loss.pct)} lost${b.targetLossPct === undefined ? '' : ` of ${percent(b.targetLossPct)}`}`]
      : []),
    ...(b.lastAw ? [`water activity ${number(b.lastAw.value)}`] : []),
  ]
  return (
    <li>
      <a class="lead" href={`/batches/${encodeURIComponent(b.batch)}`}>
        {b.batch}
      </a>{' '}
      {b.recipeName}, {mass(b.mixKg)} as stuffed
      {facts.length > 0 && <p>{facts.join('; ')}.</p>}
      <Ready batch={b} />
      {b.hoursLeft?.map((h) => (
        <p key={h.jurisdiction} class={(h.hoursLeft ?? 1) <= 0 ? 'late' : undefined}>
          {(h.hoursLeft ?? 0) <= 0
            ? `No degree-hours left by the ${h.jurisdiction} count.`
            : `About ${number(h.hoursLeft, 2)} h left of its degree-hours by the ${h.jurisdiction} count, at the last temperature${h.runsOutAt ? `: until ${instant(h.runsOutAt)}` : ''}.`}
        </p>
      ))}
      {b.hoursDoubts && <p>Of its degree-hours: {inDegrees(b.hoursDoubts.join('; '))}.</p>}
      {b.crustRiskOn && <p class="late">Its rim may crust from {day(b.crustRiskOn)}: moister or slower air.</p>}
      {b.waitsFor.length > 0 && <p class={b.late ? 'late' : undefined}>Waits for {b.waitsFor.join('; ')}.</p>}
    </li>
  )
}

function Ready({ batch: { ready, unknown } }: { batch: SlowView }) {
  if (!ready) return unknown ? <p class="quiet">No ready day: {unknown}.</p> : null
  const band =
    ready.early === undefined
      ? ''
      : ready.late === undefined
        ? `, ${day(ready.early)} at the earliest, no latest day`
        : `, between ${day(ready.early)} and ${day(ready.late)}`
  return (
    <p>
      Likely ready <strong>{day(ready.likely)}</strong>
      {band} <span class="quiet">by {ready.by}</span>
      {unknown && <span class="quiet">: {unknown}</span>}
    </p>
  )
}
