import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { LotView } from '../../state/views.ts'
import { mass, today } from '../../ui/figures.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'

/** Count a lot, move it, take a part off it. */
export function HandleLot({ lot: l }: { lot: LotView }) {
  return (
    <>
      <details>
        <summary>Count it</summary>
        <Count lot={l} />
      </details>
      <details>
        <summary>Move it to another place</summary>
        <Move lot={l} />
      </details>
      <details>
        <summary>Take a part off as a lot of its own</summary>
        <Split lot={l} />
      </details>
    </>
  )
}

/** What was counted against what the record says; the difference is recorded with its explanation. */
function Count({ lot: l }: { lot: LotView }) {
  const form = useForm(`count-${l.lot}`, { on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        const countedKg = r.quantity('countedKg', 'mass', { required: true })
        const on = r.text('on', { required: true })
        const difference = countedKg === undefined ? 0 : Number((countedKg - l.balanceKg).toFixed(6))
        const note = r.text('note', { required: difference !== 0 })
        return {
          kind: 'lot.adjust',
          body: { lot: l.lot, kg: difference, reason: 'count', countedKg, on, ...compact({ note }) },
        }
      },
      done: 'The count is recorded.',
    })
  return (
    <EntryForm
      form={form}
      fields={['countedKg', 'on', 'note', 'kg']}
      label="Count this lot"
      action="Record the count"
      quiet
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormQuantity
          form={form}
          name="countedKg"
          kind="mass"
          label="Counted"
          required
          hint={`The record says ${mass(l.balanceKg)}.`}
        />
        <FormText form={form} name="on" type="date" label="Counted on" required />
      </div>
      <FormText form={form} name="note" label="What explains the difference" />
    </EntryForm>
  )
}

function Move({ lot: l }: { lot: LotView }) {
  const form = useForm(`move-${l.lot}`, { on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'lot.move',
        body: {
          lot: l.lot,
          place: r.text('place', { required: true }),
          on: r.text('on', { required: true }),
          ...compact({ tempC: r.quantity('tempC', 'temperature'), note: r.text('note') }),
        },
      }),
      done: 'Moved.',
    })
  return (
    <EntryForm
      form={form}
      fields={['place', 'on', 'tempC', 'note']}
      label="Move this lot"
      action="Record the move"
      quiet
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormText form={form} name="place" label="To" required hint={`It is in ${l.place ?? 'no place named'} now.`} />
        <FormQuantity form={form} name="tempC" kind="temperature" label="Its temperature" />
        <FormText form={form} name="on" type="date" label="Moved on" required />
      </div>
      <FormText form={form} name="note" label="Note on the move" />
    </EntryForm>
  )
}

function Split({ lot: l }: { lot: LotView }) {
  const form = useForm(`split-${l.lot}`, { on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'lot.split',
        body: {
          from: l.lot,
          lot: r.text('lot', { required: true }),
          kg: r.quantity('kg', 'mass', { required: true }),
          on: r.text('on', { required: true }),
          ...compact({ place: r.text('place'), note: r.text('note') }),
        },
      }),
      done: 'The part is a lot of its own now.',
    })
  return (
    <EntryForm
      form={form}
      fields={['lot', 'kg', 'on', 'place', 'note']}
      label="Take a part off"
      action="Take it off"
      quiet
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormText form={form} name="lot" label="Code of the part" required />
        <FormQuantity form={form} name="kg" kind="mass" label="Weight of the part" required />
        <FormText form={form} name="place" label="Where the part goes" />
        <FormText form={form} name="on" type="date" label="Taken off on" required />
      </div>
      <FormText form={form} name="note" label="Note on the part" />
    </EntryForm>
  )
}
