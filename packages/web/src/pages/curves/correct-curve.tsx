import { go } from '../../router.ts'
import { submit, useForm, type Values } from '../../state/form.ts'
import { compact, type Reader } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { editable } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { BeginsFields, beginOf, readBegin } from './begins.tsx'
import type { RecordedCurve } from './recorded-view.ts'

const slowPurpose = (purpose: string | undefined): boolean => purpose === 'ferment' || purpose === 'dry'

const roles = ['core', 'house', 'surface', 'wet-bulb', 'humidity', 'ignore'] as const
const field = (i: number, name: string): string => `channels[${i}].${name}`

/** The curve told again with what was wrong put right. */
function corrected(curve: RecordedCurve, r: Reader, values: Values): object {
  const said = (name: string): string | undefined => values[name]?.trim() || undefined
  return compact({
    batch: curve.batch,
    purpose: values['purpose'] ?? curve.purpose,
    file: curve.file,
    fileName: curve.fileName,
    reading: compact({
      ...curve.reading,
      unit: said('reading.unit'),
      dateOrder: said('reading.dateOrder'),
      clockChange: said('reading.clockChange'),
    }),
    channels: curve.channels.map((c, i) => {
      const offsetC = r.number(field(i, 'offsetC'))
      return compact({
        column: c.column,
        role: values[field(i, 'role')] ?? c.role,
        instrument: said(field(i, 'instrument')),
        offsetC: offsetC === 0 ? undefined : offsetC,
      })
    }),
    chillStartMinute: r.number('chillStartMinute'),
    clockOffsetMinutes: r.number('clockOffsetMinutes') || undefined,
    startsAt: slowPurpose(values['purpose']) && said('begins.day') ? readBegin(r) : curve.startsAt,
    note: said('note'),
  })
}

/** A probe that read high, a clock that was wrong, a column taken for another: a new entry, with why; the old one stays readable. */
export function CorrectCurve({ curve, kitchen }: { curve: RecordedCurve; kitchen: KitchenView }) {
  const probes = kitchen.instruments.filter((i) => i.type === 'logger' || i.type === 'thermometer')
  const form = useForm(`correct-curve-${curve.seq}`, {
    purpose: curve.purpose,
    why: '',
    'reading.unit': curve.reading['unit'] ?? '',
    'reading.dateOrder': curve.reading['dateOrder'] ?? '',
    'reading.clockChange': curve.reading['clockChange'] ?? '',
    chillStartMinute: editable(curve.chillStartMinute),
    clockOffsetMinutes: editable(curve.clockOffsetMinutes),
    ...beginOf(curve.startsAt),
    note: curve.note ?? '',
    ...Object.fromEntries(
      curve.channels.flatMap((c, i) => [
        [field(i, 'role'), c.role],
        [field(i, 'instrument'), c.instrument ?? ''],
        [field(i, 'offsetC'), editable(c.offsetC)],
      ]),
    ),
  })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, values) => {
        const why = r.text('why', { required: true })
        const body = corrected(curve, r, values)
        return why ? { kind: 'batch.curve', body, corrects: curve.seq, why } : undefined
      },
      after: ([made]) => made && go(`/curves/${encodeURIComponent(curve.batch)}/${made.seq}`, { replace: true }),
    })
  const names = curve.channels.flatMap((_, i) => ['role', 'instrument', 'offsetC'].map((n) => field(i, n)))
  return (
    <details>
      <summary>Correct this curve: an offset of a probe, a wrong clock, where the chill begins</summary>
      <EntryForm
        form={form}
        fields={[
          'why',
          'chillStartMinute',
          'clockOffsetMinutes',
          'begins.day',
          'begins.time',
          'purpose',
          'note',
          'reading.unit',
          'reading.dateOrder',
          'reading.clockChange',
          ...names,
        ]}
        label="Correct this curve"
        action="Record the correction"
        onSubmit={() => void send()}
      >
        {curve.channels.map((c, i) => (
          <div class="stage-row" key={c.column}>
            <FormChoice
              form={form}
              name={field(i, 'role')}
              label={`${c.column} is`}
              options={roles.map((r) => ({ value: r, label: r === 'ignore' ? 'not used' : r }))}
            />
            <FormText
              form={form}
              name={field(i, 'offsetC')}
              label="Added to its readings"
              of={c.column}
              numeric
              unit="°C"
              hint="−0.4 where it read 0.4 °C high."
            />
            <FormChoice
              form={form}
              name={field(i, 'instrument')}
              label="Thermometer"
              of={c.column}
              options={[
                { value: '', label: 'not known' },
                ...probes.map((p) => ({ value: p.instrument, label: p.name })),
              ]}
            />
          </div>
        ))}
        <div class="stage-row">
          <FormText
            form={form}
            name="clockOffsetMinutes"
            label="Added to its clock"
            numeric
            unit="min"
            hint="−7 where the logger ran 7 minutes fast."
          />
          <FormChoice
            form={form}
            name="reading.clockChange"
            label="A jump of an hour"
            options={[
              { value: '', label: 'as the file says' },
              { value: 'shift', label: 'the clock was changed' },
              { value: 'as-read', label: 'it was not' },
            ]}
          />
          <FormText
            form={form}
            name="chillStartMinute"
            label="Chill begins at minute"
            numeric
            unit="min"
            hint="Empty: read off the curve."
          />
          <FormChoice
            form={form}
            name="reading.unit"
            label="Unit of the file"
            options={[
              { value: '', label: 'as the file says' },
              { value: 'C', label: '°C' },
              { value: 'F', label: '°F' },
            ]}
          />
        </div>
        {slowPurpose(form.values.value['purpose']) && <BeginsFields form={form} />}
        <FormText
          form={form}
          name="note"
          label="Note"
          hint="Where several batches were cooked together: name the others and say so."
        />
        <FormText form={form} name="why" label="Why it is corrected" required />
      </EntryForm>
    </details>
  )
}
