import type { Form, Values } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { InstrumentView } from '../../state/views.ts'
import { FormChoice } from '../../ui/form.tsx'

const looks = [
  { name: 'packaging', label: 'Packaging', values: ['sound', 'damaged'] },
  { name: 'condition', label: 'Smell, colour, surface', values: ['good', 'doubtful', 'bad'] },
  { name: 'labels', label: 'Labels and papers', values: ['complete', 'incomplete'] },
  { name: 'vehicle', label: 'Vehicle', values: ['clean', 'not-clean'] },
] as const

/** What was looked at; nothing where nothing was. */
export function arrivalOf(values: Values): object | undefined {
  const seen = compact({
    ...Object.fromEntries(looks.map((l) => [l.name, values[`arrival.${l.name}`] || undefined])),
    instrument: values['arrival.instrument'] || undefined,
  })
  return Object.keys(seen).length > 0 ? seen : undefined
}

/** Checks at the door. */
export function Arrival({ form, instruments }: { form: Form; instruments: readonly InstrumentView[] }) {
  const thermometers = instruments.filter((i) => (i.type === 'thermometer' || i.type === 'logger') && !i.retired)
  return (
    <fieldset>
      <legend>Looked at on arrival</legend>
      <div class="columns">
        {looks.map((l) => (
          <FormChoice
            key={l.name}
            form={form}
            name={`arrival.${l.name}`}
            label={l.label}
            options={[
              { value: '', label: 'not looked at' },
              ...l.values.map((v) => ({ value: v, label: v.replace('-', ' ') })),
            ]}
          />
        ))}
        <FormChoice
          form={form}
          name="arrival.instrument"
          label="Temperature read on"
          options={[
            { value: '', label: 'not said' },
            ...thermometers.map((i) => ({ value: i.instrument, label: i.name })),
          ]}
        />
      </div>
    </fieldset>
  )
}
