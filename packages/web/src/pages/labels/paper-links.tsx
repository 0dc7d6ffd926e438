import type { Form } from '../../state/form.ts'
import { useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import { day } from '../../ui/figures.ts'
import { FormChoice, FormText } from '../../ui/form.tsx'

const figures = [
  ['across', 'Labels across', ''],
  ['down', 'Labels down', ''],
  ['marginXMm', 'Margin left and right', 'mm'],
  ['marginYMm', 'Margin top and bottom', 'mm'],
  ['gutterXMm', 'Gutter between columns', 'mm'],
  ['gutterYMm', 'Gutter between rows', 'mm'],
] as const

/** The sheet as typed, as the end of an address. */
function sheetQuery(form: Form): string {
  const values = form.values.value
  const said = figures.flatMap(([name]) => {
    const typed = (values[name] ?? '').trim().replace(',', '.')
    return typed === '' ? [] : [`&${name}=${encodeURIComponent(typed)}`]
  })
  return `&sheet=${values['paper'] ?? 'A4'}${said.join('')}`
}

type Packed = { readonly packs: readonly { readonly pack: string; readonly on: string }[] }

/** Which packing of the batch is printed, where its packs are of several. */
function PackingChoice({ batch, form }: { batch: string; form: Form }) {
  const seen = useResource<Packed>(`/api/batches/${encodeURIComponent(batch)}`)
  const packs = seen.value.value?.packs ?? []
  if (packs.length < 2) return null
  return (
    <FormChoice
      form={form}
      name="packing"
      label="Printed for the packing"
      options={[
        { value: '', label: 'all of them, dated by the earliest' },
        ...packs.map((p) => ({ value: p.pack, label: `${p.pack}, packed ${day(p.on)}` })),
      ]}
    />
  )
}

type Props = { label: string; place: string; batch: string | undefined; frozen: boolean }

/** The approved label on paper: one, or a sheet of them by rows and columns. */
export function PaperLinks({ label, place, batch, frozen }: Props) {
  const form = useForm(`label-sheet-${label}-${place}-${batch ?? ''}`, { paper: 'A4' })
  const said = (name: string): string => {
    const typed = (form.values.value[name] ?? '').trim()
    return typed === '' ? '' : `&${name}=${encodeURIComponent(typed)}`
  }
  // A label approved for a recipe has no lot before its batch is named.
  const of = batch === undefined ? said('batch') : `&batch=${encodeURIComponent(batch)}`
  const paper = (ending: string, rest: string) =>
    `/paper/label/${encodeURIComponent(label)}.${ending}?place=${place}${of}${said('packing')}${frozen ? said('frozenOn') : ''}${rest}`
  if (of === '')
    return (
      <FormText
        form={form}
        name="batch"
        label="Batch it is printed for"
        hint="This label is approved for a recipe: the lot and the date are those of the batch."
      />
    )
  return (
    <>
      {batch === undefined && <FormText form={form} name="batch" label="Batch it is printed for" />}
      {batch !== undefined && <PackingChoice batch={batch} form={form} />}
      {frozen && (
        <FormText
          form={form}
          name="frozenOn"
          label="This batch was frozen on"
          type="date"
          hint="The day entered for the label where it is left empty and the batch is the one it was approved with."
        />
      )}
      <p class="actions">
        <a class="button" href={paper('pdf', '')} target="_blank" rel="noreferrer">
          PDF, one
        </a>
        <a class="button" href={paper('pdf', sheetQuery(form))} target="_blank" rel="noreferrer">
          PDF, a sheet {form.values.value['paper'] ?? 'A4'}
        </a>
        <a class="button" href={paper('svg', '')} download={`${label}-${place}.svg`}>
          SVG
        </a>
      </p>
      <details>
        <summary>The sheet: paper, rows and columns, margins and gutters</summary>
        <p class="hint">What is left empty is as many as fit, 8 mm of margin and 3 mm of gutter.</p>
        <FormChoice
          form={form}
          name="paper"
          label="Paper"
          options={[
            { value: 'A4', label: 'A4' },
            { value: 'Letter', label: 'Letter' },
          ]}
        />
        {figures.map(([name, text, unit]) => (
          <FormText key={name} form={form} name={name} label={text} numeric {...(unit ? { unit } : {})} />
        ))}
      </details>
    </>
  )
}
