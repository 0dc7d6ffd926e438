import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { readTaken, TakenFields } from '../slow/taken.tsx'
import { MeasuredSoFar } from './measured-so-far.tsx'
import type { BatchProps } from './one-batch.tsx'

const steps = ['receive', 'grind', 'mix', 'stuff', 'smoke', 'cook', 'chill', 'ferment', 'dry', 'pack'] as const
const whats = {
  temperature: { label: 'temperature', unit: '°C' },
  ph: { label: 'pH', unit: 'pH' },
  aw: { label: 'water activity', unit: 'aw' },
  weight: { label: 'weight', unit: 'kg' },
  humidity: { label: 'humidity', unit: '% RH' },
  'moisture-protein': { label: 'moisture to protein', unit: 'kg/kg' },
  nitrite: { label: 'nitrite in the finished product, by analysis, as sodium nitrite', unit: 'mg/kg' },
  nitrate: { label: 'nitrate in the finished product, by analysis, as sodium nitrate', unit: 'mg/kg' },
  note: { label: 'a note only', unit: '' },
} as const
type What = keyof typeof whats

/** What such a figure can be; outside it the hand slipped, or the meter is dead. */
const ranges: Readonly<Partial<Record<What, { low: number; high: number }>>> = {
  ph: { low: 3, high: 8 },
  aw: { low: 0.5, high: 1 },
  humidity: { low: 0, high: 100 },
  'moisture-protein': { low: 0.3, high: 6 },
  nitrite: { low: 0, high: 2000 },
  nitrate: { low: 0, high: 5000 },
}

const types: Readonly<Record<What, readonly string[]>> = {
  temperature: ['thermometer', 'logger'],
  ph: ['ph-meter'],
  aw: ['aw-meter'],
  weight: ['scale'],
  humidity: ['hygrometer', 'logger'],
  'moisture-protein': [],
  nitrite: [],
  nitrate: [],
  note: [],
}

/** Readings taken by hand along the way. */
export function Measures({ batch: b, kitchen }: BatchProps) {
  const form = useForm(`measure-${b.batch}`, { step: 'mix', what: 'temperature' })
  const what = (form.values.value['what'] ?? 'temperature') as What
  const tools = kitchen.instruments.filter((i) => types[what].includes(i.type) && !i.retired)
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const value =
          what === 'temperature'
            ? r.quantity('value', 'temperature', { required: true })
            : what === 'weight'
              ? r.quantity('value', 'mass', { required: true })
              : what === 'note'
                ? undefined
                : r.number('value', { required: true })
        if (what === 'note') r.text('note', { required: true })
        const range = ranges[what]
        if (range && value !== undefined && (value < range.low || value > range.high))
          r.fault('value', `is ${value}; allowed: ${range.low} to ${range.high} for ${whats[what].label}`)
        return {
          kind: 'batch.measure',
          body: {
            batch: b.batch,
            step: v['step'],
            what,
            taken: readTaken(r),
            ...compact({
              value,
              unit: value === undefined ? undefined : whats[what].unit,
              instrument: v['instrument'] || undefined,
              note: r.text('note'),
            }),
          },
        }
      },
      clear: { step: form.values.value['step'] ?? 'mix', what, instrument: form.values.value['instrument'] ?? '' },
    })
  return (
    <>
      <EntryForm
        form={form}
        fields={['step', 'what', 'value', 'instrument', 'day', 'time', 'note']}
        label="Record a measure"
        action="Record the measure"
        onSubmit={() => void send()}
      >
        <div class="row top">
          <FormChoice form={form} name="step" label="Step" options={steps.map((s) => ({ value: s, label: s }))} />
          <FormChoice
            form={form}
            name="what"
            label="What is measured"
            options={Object.entries(whats).map(([value, w]) => ({ value, label: w.label }))}
          />
          {what === 'temperature' && (
            <FormQuantity form={form} name="value" kind="temperature" label="Reading" required />
          )}
          {what === 'weight' && <FormQuantity form={form} name="value" kind="mass" label="Reading" required />}
          {what !== 'temperature' && what !== 'weight' && what !== 'note' && (
            <FormText form={form} name="value" label="Reading" numeric unit={whats[what].unit} required />
          )}
          {what !== 'note' && (
            <FormChoice
              form={form}
              name="instrument"
              label="Measured with"
              options={[
                { value: '', label: 'nothing named' },
                ...tools.map((t) => ({ value: t.instrument, label: t.name })),
              ]}
            />
          )}
          <TakenFields form={form} />
          <FormText form={form} name="note" label="Note" />
        </div>
      </EntryForm>
      {(b.recipeKind === 'fermented' || b.recipeKind === 'dried') && (
        <p>
          pH, water activity, marked pieces and where it hangs are quicker under{' '}
          <a href={`/batches/${encodeURIComponent(b.batch)}/slow`}>Ferment and dry</a>.
        </p>
      )}
      <p>
        <a class="button" href={`/curves?batch=${encodeURIComponent(b.batch)}`}>
          Attach a logger's file
        </a>
      </p>
      <h2>Measured so far</h2>
      <MeasuredSoFar batch={b} kitchen={kitchen} />
      {b.curves.length > 0 && (
        <>
          <h2>Curves</h2>
          <ul class="entries">
            {b.curves.map((c) => (
              <li key={c.seq}>
                <a class="lead" href={`/curves/${encodeURIComponent(b.batch)}/${c.seq}`}>
                  {c.purpose.replaceAll('-', ' ')}
                </a>{' '}
                {c.fileName}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}
