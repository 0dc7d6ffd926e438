import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { spoken } from '../../ui/words.ts'

const types = ['scale', 'thermometer', 'logger', 'ph-meter', 'aw-meter', 'hygrometer', 'clock'] as const
const fields = [
  'instrument',
  'type',
  'name',
  'readabilityG',
  'accuracyClass',
  'divisionG',
  'toleranceG',
  'capacityG',
  'toleranceC',
  'resolutionC',
  'checkEveryDays',
]
const classes = [
  { value: '', label: 'none on its plate' },
  { value: 'I', label: 'I: special' },
  { value: 'II', label: 'II: high' },
  { value: 'III', label: 'III: medium' },
  { value: 'IIII', label: 'IIII: ordinary' },
]

export function AddInstrument() {
  const form = useForm('instrument', { type: 'scale', checkEveryDays: '30' })
  const type = form.values.value['type']
  const scale = type === 'scale'
  const heat = type === 'thermometer' || type === 'logger'
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'instrument.add',
        body: {
          instrument: r.text('instrument', { required: true }),
          type,
          name: r.text('name', { required: true }),
          checkEveryDays: r.number('checkEveryDays', { required: true }),
          ...(scale &&
            compact({
              readabilityG: r.quantity('readabilityG', 'mass', { unit: 'g', as: 'g', required: true }),
              toleranceG: r.quantity('toleranceG', 'mass', { unit: 'g', as: 'g' }),
              capacityG: r.quantity('capacityG', 'mass', { unit: 'kg', as: 'g' }),
              accuracyClass: v['accuracyClass'] || undefined,
              divisionG: r.quantity('divisionG', 'mass', { unit: 'g', as: 'g' }),
            })),
          ...(heat &&
            compact({
              toleranceC: r.number('toleranceC', { required: true }),
              resolutionC: r.number('resolutionC'),
            })),
        },
      }),
      after: () => go('/instruments'),
    })
  return (
    <>
      <p>
        <a href="/instruments">All instruments</a>
      </p>
      <h1>Add an instrument</h1>
      <EntryForm
        form={form}
        fields={fields}
        label="Add an instrument"
        action="Add the instrument"
        onSubmit={() => void send()}
      >
        <FormChoice form={form} name="type" label="Kind" options={types.map((t) => ({ value: t, label: spoken(t) }))} />
        <FormText form={form} name="name" label="Name" required hint="As people here call it." />
        <FormText form={form} name="instrument" label="Code" required hint="Short, as on its sticker." />
        {scale && (
          <>
            <FormQuantity
              form={form}
              name="readabilityG"
              kind="mass"
              unit="g"
              label="Smallest step it shows"
              required
            />
            <FormChoice
              form={form}
              name="accuracyClass"
              label="Accuracy class"
              options={classes}
              hint="On the plate of a scale for trade; its tolerance at each load follows from it."
            />
            <FormQuantity
              form={form}
              name="divisionG"
              kind="mass"
              unit="g"
              label="Verification interval e"
              hint="Beside the class, as e = 5 g."
            />
            <FormQuantity
              form={form}
              name="toleranceG"
              kind="mass"
              unit="g"
              label="Largest error allowed, plus or minus"
            />
            <FormQuantity form={form} name="capacityG" kind="mass" unit="kg" label="Most it weighs" />
          </>
        )}
        {heat && (
          <>
            <FormText
              form={form}
              name="toleranceC"
              label="Largest error allowed, plus or minus"
              numeric
              unit="°C"
              required
            />
            <FormText form={form} name="resolutionC" label="Smallest step it shows" numeric unit="°C" />
          </>
        )}
        <FormText form={form} name="checkEveryDays" label="Days between checks" numeric unit="days" required />
      </EntryForm>
    </>
  )
}
