import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { today } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { readTaken, TakenFields } from './taken.tsx'

/** What meat and sausage can be; a reading outside it is a slip of the hand or a dead probe. */
const PH = { low: 3.5, high: 7.5 } as const

/** Says before the reading is typed what it will be worth: the meter's own check of that day. */
function MeterWarning({ kitchen, meter, day }: { kitchen: KitchenView; meter: string; day: string }) {
  const found = kitchen.instruments.find((i) => i.instrument === meter)
  if (!found)
    return (
      <p class="caution">
        <strong>Caution</strong> Without the meter named, the reading shows on the curve and ends no count.
      </p>
    )
  const last = found.lastCheck
  // A later check does not tell of this day; the record knows, and the table below says it.
  if (last && last.on > day) return null
  if (last?.on === day && last.method === 'buffer' && last.withinTolerance)
    return <p class="quiet">It counts after two buffers that day, one of them at pH 4.7 or below.</p>
  return (
    <p class="caution" role="status">
      <strong>Caution</strong> {found.name}{' '}
      {last?.on === day && !last.withinTolerance ? 'failed its check that day' : 'has no check in buffer on that day'}:
      the reading ends no count of degree-hours.{' '}
      <a href={`/instruments/${encodeURIComponent(meter)}`}>Check it in buffer first</a>
    </p>
  )
}

/** A pH read on the batch, with the meter it came from. */
export function PhForm({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const meters = kitchen.instruments.filter((i) => i.type === 'ph-meter' && !i.retired)
  const only = meters.length === 1 ? meters[0]!.instrument : ''
  const form = useForm(`ph-${batch}`, { instrument: only, day: '', time: '' })
  const { instrument = '', day } = form.values.value
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        const ph = r.number('value', { required: true })
        if (ph !== undefined && (ph < PH.low || ph > PH.high))
          r.fault('value', `is ${ph}; allowed: ${PH.low} to ${PH.high}, what sausage can be`)
        const taken = readTaken(r)
        return {
          kind: 'batch.measure',
          body: {
            batch,
            step: 'ferment',
            what: 'ph',
            taken,
            unit: 'pH',
            ...compact({
              value: ph,
              instrument: instrument || undefined,
              piece: r.text('piece'),
              note: r.text('note'),
            }),
          },
        }
      },
      clear: { instrument, day: '', time: '' },
      fieldFor: { taken: 'time' },
    })
  return (
    <EntryForm
      form={form}
      fields={['value', 'instrument', 'day', 'time', 'piece', 'note']}
      label="Record a pH"
      action="Record the pH"
      onSubmit={() => void send()}
    >
      <div class="stage-row">
        <FormText form={form} name="value" label="pH" numeric required />
        <FormChoice
          form={form}
          name="instrument"
          label="Meter"
          options={[{ value: '', label: 'not named' }, ...meters.map((m) => ({ value: m.instrument, label: m.name }))]}
        />
        <TakenFields form={form} />
        <FormText form={form} name="piece" label="Piece" hint="Where one is marked." />
        <FormText form={form} name="note" label="Note" />
      </div>
      <MeterWarning kitchen={kitchen} meter={instrument} day={day || today()} />
    </EntryForm>
  )
}
