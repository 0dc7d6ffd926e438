import { calledAir } from '@forcemeat/craft/log/channels'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { THIN_BLOCK_MM } from '@forcemeat/rulebook/pork/thin'
import type { Form } from '../../state/form.ts'
import { readQuantity } from '../../state/reader.ts'
import type { KitchenView, LotView } from '../../state/views.ts'
import { ChoiceField, Field } from '../../ui/field.tsx'
import { FormQuantity, FormText } from '../../ui/form.tsx'
import { Tick } from '../../ui/tick.tsx'
import { choices } from '../../ui/log-answers.ts'
import { answerTo, openCentreFile, type CentreFile } from './centre-file.ts'

/** A day and a time of this screen as an instant; without a time, what would count least: a beginning at the end of its day, an end at its start. */
export const at = (date: string | undefined, time: string | undefined, bound: 'from' | 'until'): string | undefined => {
  if (!date) return undefined
  const typed = time?.trim()
  const when = new Date(`${date}T${(typed || '00:00').padStart(5, '0')}`)
  if (Number.isNaN(when.getTime())) return undefined
  if (!typed && bound === 'from') when.setDate(when.getDate() + 1)
  return when.toISOString()
}

/** A thickness typed that a person has to say is so, mm; nothing where it is none. */
export function thinTyped(typed: string | undefined): number | undefined {
  const read = readQuantity((typed ?? '').trim(), 'length', undefined, true)
  return read.ok && read.value < THIN_BLOCK_MM ? Number(read.value.toFixed(1)) : undefined
}

/** The thickness, and, where it is thin for a block, the question whether it is so. */
function Thickness({ form, required = false, hint }: { form: Form; required?: boolean; hint?: string }) {
  const thin = thinTyped(form.values.value['thicknessMm'])
  const fault = form.faults.value.find((f) => f.path === 'thicknessConfirmed')?.message
  return (
    <div>
      <FormQuantity
        form={form}
        name="thicknessMm"
        kind="length"
        label="Thickness of the meat"
        required={required}
        {...(hint === undefined ? {} : { hint })}
      />
      {thin !== undefined && (
        <>
          <p class="late">
            {thin} mm is thin for a block of meat. Were centimetres or inches meant? A thicker block needs more days.
          </p>
          <Tick form={form} name="thicknessConfirmed" label={`It was measured: ${thin} mm`} />
          {fault !== undefined && <p class="fault">{fault}</p>}
        </>
      )}
    </div>
  )
}

/** Thickness, room and span of a freezing by the room. */
export function RoomFields({ form }: { form: Form }) {
  return (
    <>
      <div class="row top">
        <Thickness form={form} required hint="The smallest side of the piece, or of the layer in its box." />
        <FormQuantity form={form} name="roomC" kind="temperature" allowNegative label="Warmest the room was" required />
      </div>
      <div class="row top">
        <FormText form={form} name="from" type="date" label="Cold from" required />
        <FormText form={form} name="fromTime" label="At (24 h)" placeholder="08:00" />
        <FormText form={form} name="until" type="date" label="Held until" required />
        <FormText form={form} name="untilTime" label="At (24 h)" of="the end" placeholder="08:00" />
      </div>
      <p class="hint">Without a time, the cold counts from the end of its first day until the start of its last.</p>
    </>
  )
}

/** The file of a centre log and which of its columns is the centre. */
export function CentreFields({
  form,
  file,
  column,
}: {
  form: Form
  file: { value: CentreFile | undefined }
  column: string
}) {
  const open = file.value
  const fault = form.faults.value.find((f) => f.path === 'file')?.message ?? open?.trouble
  return (
    <>
      <div class="row top">
        <Field
          label="Log of the centre"
          hint={open?.name ?? 'A file of the logger: any delimiter, °C or °F.'}
          fault={fault}
        >
          {({ id, describedBy, invalid }) => (
            <input
              id={id}
              type="file"
              accept=".csv,.txt,.tsv,.log,text/*"
              aria-describedby={describedBy}
              aria-invalid={invalid}
              onChange={(e) => {
                const chosen = e.currentTarget.files?.[0]
                if (!chosen) return
                form.set('file', chosen.name)
                form.set('column', '')
                void openCentreFile(chosen).then((f) => (file.value = f))
              }}
            />
          )}
        </Field>
        {open && open.columns.length > 1 && (
          <ChoiceField
            label="Which column is the centre"
            value={column}
            options={[{ value: '', label: 'choose' }, ...open.columns.map((c) => ({ value: c, label: c }))]}
            onInput={(c) => form.set('column', c)}
            fault={form.faults.value.find((f) => f.path === 'column')?.message}
          />
        )}
        <Thickness form={form} />
      </div>
      <CentreQuestions form={form} file={file} column={column} />
    </>
  )
}

/** What the file does not say: its unit, the order of its dates, when it began; and whether a column called like the air is the centre. */
function CentreQuestions({
  form,
  file,
  column,
}: {
  form: Form
  file: { value: CentreFile | undefined }
  column: string
}) {
  const open = file.value
  if (!open || open.trouble !== undefined) return null
  return (
    <>
      {open.questions.map((q) => (
        <ChoiceField
          key={q.about}
          label={q.text}
          value=""
          options={[{ value: '', label: 'choose' }, ...q.choices.map((c) => ({ value: c, label: choices[c] ?? c }))]}
          onInput={(said) => {
            const name = answerTo[q.about]
            if (said !== '' && name !== undefined) file.value = open.answered({ [name]: said })
          }}
        />
      ))}
      {open.questions.length === 0 && !open.dated && (
        <div class="row top">
          <FormText
            form={form}
            name="from"
            type="date"
            label="First reading taken on"
            required
            hint="The file bears no date."
          />
          <FormText form={form} name="fromTime" label="At (24 h)" placeholder="08:00" />
        </div>
      )}
      {column !== '' && calledAir(column) && (
        <p class="late">
          {column} is called like the air of a room. Was the probe in the centre of the thickest piece? Say so in the
          note, or no batch is released by it.
        </p>
      )}
    </>
  )
}

const placeOf: Readonly<Record<string, 'US' | 'EU'>> = { US: 'US', 'US-home': 'US', EU: 'EU', GB: 'EU' }

/** What the calculation is asked, from what is typed; nothing while something it needs is missing or cannot be read. */
export function askedOf(
  form: Form,
  l: LotView,
  kitchen: KitchenView | undefined,
  file: CentreFile | undefined,
  column: string,
) {
  const v = form.values.value
  const read = (name: string, kind: 'length' | 'temperature'): number | undefined => {
    const typed = (v[name] ?? '').trim()
    if (typed === '') return undefined
    const found = readQuantity(typed, kind, undefined, true)
    return found.ok ? Number(found.value.toFixed(6)) : undefined
  }
  const material = findMaterial(l.material)
  const species = material?.id === 'horse' ? 'horse' : material?.species === 'wild-boar' ? 'wild-boar' : 'pork'
  const places = [...new Set((kitchen?.kitchen?.jurisdictions ?? []).flatMap((j) => placeOf[j] ?? []))]
  const toleranceC = kitchen?.instruments.find((i) => i.instrument === v['instrument'])?.toleranceC
  const shared = {
    species,
    ...(places.length > 0 ? { jurisdictions: places } : {}),
    ...(toleranceC === undefined ? {} : { toleranceC }),
  }
  const thicknessMm = read('thicknessMm', 'length')
  if (v['way'] === 'frozen-centre') {
    if (!file || file.trouble !== undefined || file.questions.length > 0 || !column) return undefined
    const log = file.log(column)
    return log.length < 2 ? undefined : { ...shared, thicknessMm: thicknessMm ?? 1, log }
  }
  const storageC = read('roomC', 'temperature')
  if (thicknessMm === undefined || storageC === undefined) return undefined
  const [from, until] = [at(v['from'], v['fromTime'], 'from'), at(v['until'], v['untilTime'], 'until')]
  const days = from && until ? (Date.parse(until) - Date.parse(from)) / 86_400_000 : undefined
  return {
    ...shared,
    thicknessMm,
    storageC,
    ...(days !== undefined && days >= 0 ? { days: Number(days.toFixed(6)) } : {}),
  }
}
