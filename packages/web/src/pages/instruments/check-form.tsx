import { useEffect } from 'preact/hooks'
import { submit, useForm } from '../../state/form.ts'
import { compact, readPlain } from '../../state/reader.ts'
import type { InstrumentView, KitchenView } from '../../state/views.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { editable, inBothDegrees, today } from '../../ui/figures.ts'
import { VerdictMark } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'
import {
  differencesHere,
  recordedReading,
  recordedTolerance,
  shownReading,
  shownTolerance,
  typedUnit,
} from './check-units.ts'
import { judged, proposal } from './propose.ts'

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

const recorded = (x: number | undefined, turn: (text: string) => string): number | undefined => {
  const read = x === undefined ? undefined : readPlain(turn(editable(x)))
  return read?.ok ? read.value : x
}

/** A check against a reference; the next date follows from it. */
export function CheckForm({ instrument, kitchen }: { instrument: InstrumentView; kitchen: KitchenView['kitchen'] }) {
  const allowed = methods[instrument.type] ?? [compare('g')]
  const first = allowed[0]!
  const tolerance = instrument.toleranceC ?? instrument.toleranceG
  const altitudeM = kitchen?.altitudeM
  // What is typed is kept for each system of units by itself: 0.5 under °C is never read as 0.5 °F.
  const here = typedUnit(first.unit)
  const form = useForm(`check-${instrument.instrument}${here === first.unit ? '' : `-${here}`}`, {
    method: first.value,
    reference: shownReading(first.reference ?? '', first.unit),
    on: today(),
    tolerance: shownTolerance(editable(tolerance), first.unit),
  })
  const method = allowed.find((m) => m.value === form.values.value['method']) ?? first
  const typed = form.values.value
  const asked = {
    instrument,
    method: method.value,
    altitudeM,
    pressure: typed['pressure'] ?? '',
    reference: recordedReading(typed['reference'] ?? '', method.unit),
    reading: recordedReading(typed['reading'] ?? '', method.unit),
    tolerance: recordedTolerance(typed['tolerance'] ?? '', method.unit),
  }
  const proposed = proposal(asked)
  const verdict = judged(asked)
  // What follows from the plate, the load or the pressure is written into its field, leaving what the form says; who knows better writes over it.
  const put = (name: string, value: string | undefined): void => {
    if (value !== undefined && form.values.value[name] !== value)
      form.values.value = { ...form.values.value, [name]: value }
  }
  const again = `${form.id} ${form.key.value}`
  const reference = proposed.reference ?? method.reference
  useEffect(
    () => put('reference', reference && shownReading(reference, method.unit)),
    [method.value, proposed.reference, again],
  )
  useEffect(
    () => put('tolerance', proposed.tolerance && shownTolerance(proposed.tolerance, method.unit)),
    [method.value, proposed.tolerance, again],
  )
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'instrument.check',
        body: {
          instrument: instrument.instrument,
          method: method.value,
          unit: method.unit,
          reference: recorded(r.number('reference', { required: true }), (x) => recordedReading(x, method.unit)),
          reading: recorded(r.number('reading', { required: true }), (x) => recordedReading(x, method.unit)),
          tolerance: recorded(r.number('tolerance', { required: true }), (x) => recordedTolerance(x, method.unit)),
          on: r.text('on', { required: true }),
          ...compact({ note: r.text('note') }),
        },
      }),
      done: 'Check recorded.',
    })
  return (
    <EntryForm
      form={form}
      fields={['method', 'pressure', 'reference', 'reading', 'tolerance', 'on', 'note']}
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
      {method.value === 'boiling-point' && (
        <FormText
          form={form}
          name="pressure"
          label="Pressure at this place, where a barometer shows it"
          numeric
          unit="hPa"
          hint="Not the pressure of a weather report, which is reduced to sea level."
        />
      )}
      <div class="row top">
        <FormText
          form={form}
          name="reference"
          label="Reference"
          numeric
          unit={typedUnit(method.unit)}
          required
          {...(method.value === 'boiling-point' && altitudeM === undefined && asked.pressure === ''
            ? { hint: "The kitchen's altitude is not set: type it by a barometer above." }
            : {})}
        />
        <FormText form={form} name="reading" label="Reading" numeric unit={typedUnit(method.unit)} required />
        <FormText
          form={form}
          name="tolerance"
          label="Largest error allowed"
          numeric
          unit={typedUnit(method.unit)}
          required
        />
        <FormText form={form} name="on" label="On" type="date" required />
      </div>
      {proposed.because.map((line) => (
        <p key={line} class="hint">
          {inBothDegrees(line)}
        </p>
      ))}
      {proposed.working.length > 0 && <Working figure="How these are worked out" steps={proposed.working} />}
      {verdict && (
        <p role="status">
          <VerdictMark verdict={verdict.verdict} label={verdict.label} /> {differencesHere(verdict.because)}
        </p>
      )}
      <FormText form={form} name="note" label="Note" />
    </EntryForm>
  )
}
