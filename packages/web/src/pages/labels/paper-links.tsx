import type { Form } from '../../state/form.ts'
import { useForm } from '../../state/form.ts'
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

/** The approved label on paper: one, or a sheet of them by rows and columns. */
export function PaperLinks({ label, place, batch }: { label: string; place: string; batch: string | undefined }) {
  const form = useForm('label-sheet', { paper: 'A4' })
  const paper = (ending: string, rest: string) =>
    `/paper/label/${encodeURIComponent(label)}.${ending}?place=${place}${batch ? `&batch=${encodeURIComponent(batch)}` : ''}${rest}`
  return (
    <>
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
