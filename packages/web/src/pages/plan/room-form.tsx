import { submit, useForm, type FactDraft, type Values } from '../../state/form.ts'
import { compact, type Reader } from '../../state/reader.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { editable, editableQuantity } from '../../ui/figures.ts'
import { purposeWords, type RoomView } from './plan-views.ts'

const purposes = (Object.keys(purposeWords) as RoomView['purpose'][]).map((p) => ({ value: p, label: purposeWords[p] }))
const fields = [
  'room',
  'name',
  'tempC',
  'rhPct',
  'airSpeedMPerS',
  'capacityKg',
  'unit.airM3PerHour',
  'unit.coilTempC',
  'unit.coilRhPct',
  'unit.hoursPerDay',
  'freshAir.m3PerHour',
  'freshAir.tempC',
  'freshAir.rhPct',
  'note',
  'why',
]

const valuesOf = (r: RoomView): Values => ({
  room: r.room,
  name: r.name,
  purpose: r.purpose,
  tempC: editableQuantity(r.tempC, 'temperature', '°C'),
  rhPct: editable(r.rhPct),
  airSpeedMPerS: editable(r.airSpeedMPerS),
  capacityKg: editableQuantity(r.capacityKg, 'mass', 'kg'),
  'unit.airM3PerHour': editable(r.unit?.airM3PerHour),
  'unit.coilTempC': editableQuantity(r.unit?.coilTempC, 'temperature', '°C'),
  'unit.coilRhPct': editable(r.unit?.coilRhPct),
  'unit.hoursPerDay': editable(r.unit?.hoursPerDay),
  'freshAir.m3PerHour': editable(r.freshAir?.m3PerHour),
  'freshAir.tempC': editableQuantity(r.freshAir?.tempC, 'temperature', '°C'),
  'freshAir.rhPct': editable(r.freshAir?.rhPct),
  retired: r.retired ? 'yes' : '',
  note: r.note ?? '',
  why: '',
})

/** A group of fields of which the first says whether there is any: all of what it needs, or nothing. */
function group(r: Reader, v: Values, name: string, read: () => object): object | undefined {
  const typed = Object.keys(v).some((k) => k.startsWith(`${name}.`) && (v[k] ?? '').trim() !== '')
  return typed ? read() : undefined
}

function bodyOf(r: Reader, v: Values, retired: boolean): object {
  return {
    room: r.text('room', { required: true }),
    name: r.text('name', { required: true }),
    purpose: v['purpose'],
    tempC: r.quantity('tempC', 'temperature', { required: true, allowNegative: true }),
    ...compact({
      rhPct: r.quantity('rhPct', 'percent'),
      airSpeedMPerS: r.number('airSpeedMPerS'),
      capacityKg: r.quantity('capacityKg', 'mass'),
      unit: group(r, v, 'unit', () => ({
        airM3PerHour: r.number('unit.airM3PerHour', { required: true }),
        coilTempC: r.quantity('unit.coilTempC', 'temperature', { required: true, allowNegative: true }),
        ...compact({
          coilRhPct: r.quantity('unit.coilRhPct', 'percent'),
          hoursPerDay: r.number('unit.hoursPerDay'),
        }),
      })),
      freshAir: group(r, v, 'freshAir', () => ({
        m3PerHour: r.number('freshAir.m3PerHour', { required: true }),
        tempC: r.quantity('freshAir.tempC', 'temperature', { required: true, allowNegative: true }),
        rhPct: r.quantity('freshAir.rhPct', 'percent', { required: true }),
      })),
      note: r.text('note'),
    }),
    ...(retired ? { retired: true } : {}),
  }
}

/** A room as it is added, or corrected where one is given. */
export function RoomForm({ room }: { room?: RoomView }) {
  const form = useForm(room ? `room-${room.room}-${room.seq}` : 'room', room ? valuesOf(room) : { purpose: 'dry' })
  const retired = form.values.value['retired'] === 'yes'
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v): FactDraft => ({
        kind: 'room.add',
        body: bodyOf(r, v, retired),
        ...(room ? { corrects: room.seq, why: r.text('why', { required: true }) ?? '' } : {}),
      }),
      ...(room ? { clear: false as const } : {}),
    })
  const label = room ? `Correct ${room.name}` : 'Add a room'
  return (
    <EntryForm form={form} fields={fields} label={label} action={label} onSubmit={() => void send()} quiet={!!room}>
      <div class="columns">
        <FormText form={form} name="name" label="Name" required />
        {!room && <FormText form={form} name="room" label="Code" required hint="Letters, digits, dots and dashes." />}
        <FormChoice form={form} name="purpose" label="What it does" options={purposes} />
        <FormQuantity form={form} name="tempC" kind="temperature" label="Set temperature" required allowNegative />
        <FormQuantity form={form} name="rhPct" kind="percent" label="Set humidity" />
        <FormText form={form} name="airSpeedMPerS" label="Air past the pieces" numeric unit="m/s" />
        <FormQuantity form={form} name="capacityKg" kind="mass" label="Most it holds, as stuffed" />
      </div>
      <fieldset>
        <legend>Unit that takes the water out</legend>
        <div class="columns">
          <FormText form={form} name="unit.airM3PerHour" label="Air through its coil" numeric unit="m³/h" />
          <FormQuantity
            form={form}
            name="unit.coilTempC"
            kind="temperature"
            label="Air as it leaves the coil"
            allowNegative
            hint="Before it is warmed again."
          />
          <FormQuantity
            form={form}
            name="unit.coilRhPct"
            kind="percent"
            label="Humidity of that air"
            hint="100 % where none is said."
          />
          <FormText
            form={form}
            name="unit.hoursPerDay"
            label="Hours it runs a day"
            numeric
            unit="h"
            hint="24 where none is said."
          />
        </div>
      </fieldset>
      <fieldset>
        <legend>Fresh air let in</legend>
        <div class="columns">
          <FormText form={form} name="freshAir.m3PerHour" label="How much" numeric unit="m³/h" />
          <FormQuantity form={form} name="freshAir.tempC" kind="temperature" label="Its temperature" allowNegative />
          <FormQuantity form={form} name="freshAir.rhPct" kind="percent" label="Its humidity" />
        </div>
      </fieldset>
      <FormText form={form} name="note" label="Note on the room" />
      {room && (
        <>
          <label class="tick">
            <input
              type="checkbox"
              checked={retired}
              onInput={(e) => form.set('retired', e.currentTarget.checked ? 'yes' : '')}
            />
            Out of use
          </label>
          <FormText form={form} name="why" label="Why it is corrected" required />
        </>
      )}
    </EntryForm>
  )
}
