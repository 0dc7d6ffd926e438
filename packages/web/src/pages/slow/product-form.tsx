import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { readTaken, TakenFields } from './taken.tsx'

/** What is measured of the product, what it can be, and which instrument reads it. */
const kinds = {
  aw: { label: 'water activity', low: 0.5, high: 1, type: 'aw-meter' },
  'moisture-protein': { label: 'moisture to protein, by analysis', low: 0.3, high: 6, type: '' },
  ph: { label: 'pH', low: 3.5, high: 7.5, type: 'ph-meter' },
} as const
type Kind = keyof typeof kinds

const unitOf: Readonly<Record<Kind, string>> = { aw: 'aw', 'moisture-protein': 'kg/kg', ph: 'pH' }

/** A measured figure of the drying product: it stands, whatever the course computes. */
export function ProductForm({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const form = useForm(`dry-measure-${batch}`, { what: 'aw', instrument: '', day: '', time: '' })
  const what = (form.values.value['what'] ?? 'aw') as Kind
  const kind = kinds[what]
  const tools = kitchen.instruments.filter((i) => i.type === kind.type && !i.retired)
  const chosen = tools.some((t) => t.instrument === form.values.value['instrument'])
    ? form.values.value['instrument']!
    : ''
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        const value = r.number('value', { required: true })
        if (value !== undefined && (value < kind.low || value > kind.high))
          r.fault('value', `is ${value}; allowed: ${kind.low} to ${kind.high} for ${kind.label}`)
        return {
          kind: 'batch.measure',
          body: {
            batch,
            step: 'dry',
            what,
            taken: readTaken(r),
            unit: unitOf[what],
            ...compact({ value, instrument: chosen || undefined, piece: r.text('piece'), note: r.text('note') }),
          },
        }
      },
      clear: { what, instrument: chosen, day: '', time: '' },
      fieldFor: { taken: 'time' },
    })
  return (
    <EntryForm
      form={form}
      fields={['what', 'value', 'instrument', 'day', 'time', 'piece', 'note']}
      label="Record a measured figure"
      action="Record it"
      onSubmit={() => void send()}
    >
      <div class="stage-row">
        <FormChoice
          form={form}
          name="what"
          label="What is measured"
          options={Object.entries(kinds).map(([value, k]) => ({ value, label: k.label }))}
        />
        <FormText
          form={form}
          name="value"
          label="Reading"
          numeric
          required
          unit={what === 'ph' ? 'pH' : unitOf[what]}
        />
        {kind.type !== '' && (
          <FormChoice
            form={form}
            name="instrument"
            label="Meter"
            options={[{ value: '', label: 'not named' }, ...tools.map((t) => ({ value: t.instrument, label: t.name }))]}
          />
        )}
        <TakenFields form={form} />
        <FormText form={form} name="piece" label="Piece" hint="Where one is marked." />
        <FormText form={form} name="note" label="Note" hint="Core or rim, and the laboratory's number." />
      </div>
    </EntryForm>
  )
}
