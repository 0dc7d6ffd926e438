import { useEffect } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { submit, useForm, type Form } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { InstrumentView } from '../../state/views.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { editable, today } from '../../ui/figures.ts'

type Method = {
  readonly value: string
  readonly label: string
  readonly unit: string
  readonly reference?: string
  readonly how: string
}

const ice: Method = {
  value: 'ice-point',
  label: 'ice point',
  unit: '°C',
  reference: '0',
  how: 'Crushed ice just wet with water, stirred, the probe in the middle and off the walls; wait until the reading stands still.',
}
const boil: Method = {
  value: 'boiling-point',
  label: 'boiling point',
  unit: '°C',
  how: 'Water at a rolling boil, the probe off the bottom. The reference is what water boils at here.',
}
const compare = (unit: string): Method => ({
  value: 'comparison',
  label: 'comparison',
  unit,
  how: 'Side by side with an instrument that was checked itself.',
})

const methods: Readonly<Record<string, readonly Method[]>> = {
  thermometer: [ice, boil, compare('°C')],
  logger: [ice, boil, compare('°C')],
  scale: [
    {
      value: 'test-load',
      label: 'test load',
      unit: 'g',
      how: 'A known weight in the middle of the pan, near the weight the scale is used for.',
    },
    compare('g'),
  ],
  'ph-meter': [
    {
      value: 'buffer',
      label: 'buffer',
      unit: 'pH',
      reference: '7',
      how: 'Fresh buffer at the temperature it is stated for.',
    },
  ],
  'aw-meter': [
    {
      value: 'salt-standard',
      label: 'salt standard',
      unit: 'aw',
      how: 'A salt standard near the water activities measured here.',
    },
  ],
  hygrometer: [
    {
      value: 'salt-standard',
      label: 'salt standard',
      unit: '% RH',
      how: 'Over a saturated salt in a closed box, until the reading stands still.',
    },
    compare('% RH'),
  ],
  clock: [compare('s')],
}

/** Where water boils at this altitude, written into the reference. */
async function fillBoiling(form: Form, altitudeM: number): Promise<void> {
  try {
    const { boilingC } = await post<{ boilingC: number }>('/api/calc/instrument.boiling-point', { altitudeM })
    form.set('reference', editable(Math.round(boilingC * 100) / 100))
  } catch (error) {
    if (!(error instanceof Refused)) throw error
  }
}

/** A check against a reference; the next date follows from it. */
export function CheckForm({ instrument, altitudeM }: { instrument: InstrumentView; altitudeM: number | undefined }) {
  const allowed = methods[instrument.type] ?? [compare('g')]
  const first = allowed[0]!
  const tolerance = instrument.toleranceC ?? instrument.toleranceG
  const form = useForm(`check-${instrument.instrument}`, {
    method: first.value,
    reference: first.reference ?? '',
    on: today(),
    tolerance: editable(tolerance),
  })
  const method = allowed.find((m) => m.value === form.values.value['method']) ?? first
  useEffect(() => {
    if (method.value === 'boiling-point' && altitudeM !== undefined) void fillBoiling(form, altitudeM)
    else if (method.reference !== undefined) form.set('reference', method.reference)
  }, [method.value])
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'instrument.check',
        body: {
          instrument: instrument.instrument,
          method: method.value,
          unit: method.unit,
          reference: r.number('reference', { required: true }),
          reading: r.number('reading', { required: true }),
          tolerance: r.number('tolerance', { required: true }),
          on: r.text('on', { required: true }),
          ...compact({ note: r.text('note') }),
        },
      }),
      done: 'Check recorded.',
    })
  return (
    <EntryForm
      form={form}
      fields={['method', 'reference', 'reading', 'tolerance', 'on', 'note']}
      label="Record a check"
      action="Record the check"
      onSubmit={() => void send()}
    >
      <FormChoice
        form={form}
        name="method"
        label="How it is checked"
        options={allowed.map(({ value, label }) => ({ value, label }))}
        hint={method.how}
      />
      <div class="row top">
        <FormText
          form={form}
          name="reference"
          label="Reference"
          numeric
          unit={method.unit}
          required
          {...(method.value === 'boiling-point' && altitudeM === undefined
            ? { hint: "The kitchen's altitude is not set, so the boiling point cannot be worked out here." }
            : {})}
          {...(method.value === 'boiling-point' && altitudeM !== undefined
            ? { hint: `Water boils at this at ${altitudeM} m.` }
            : {})}
        />
        <FormText form={form} name="reading" label="Reading" numeric unit={method.unit} required />
        <FormText form={form} name="tolerance" label="Largest error allowed" numeric unit={method.unit} required />
        <FormText form={form} name="on" label="On" type="date" required />
      </div>
      <FormText form={form} name="note" label="Note" />
    </EntryForm>
  )
}
