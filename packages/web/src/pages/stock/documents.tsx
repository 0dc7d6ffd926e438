import { paperKinds } from '@forcemeat/rulebook/pork/papers'
import type { Form, Values } from '../../state/form.ts'
import type { Reader } from '../../state/reader.ts'
import { FormChoice, FormText } from '../../ui/form.tsx'

const count = (values: Values): number => Number(values['documents'] ?? 0)

/** Papers typed so far; rows left empty do not count. */
export function documentsOf(r: Reader, values: Values): { kind: string; reference: string }[] | undefined {
  const papers = Array.from({ length: count(values) }, (_, i) => {
    const [chosen, kind, reference] = ['chosen', 'kind', 'reference'].map((f) => `documents[${i}].${f}`) as [
      string,
      string,
      string,
    ]
    const free = (values[chosen] ?? '') === ''
    if (free && !values[kind]?.trim() && !values[reference]?.trim()) return undefined
    return {
      kind: (free ? r.text(kind, { required: true }) : values[chosen]) ?? '',
      reference: r.text(reference, { required: true }) ?? '',
    }
  }).filter((d) => d !== undefined)
  return papers.length > 0 ? papers : undefined
}

/** The papers that count against Trichinella by their name; anything else is typed and proves nothing of it. */
const kinds = [
  { value: '', label: 'another paper' },
  ...Object.values(paperKinds)
    .flat()
    .map((k) => ({ value: k, label: k })),
]

/** Papers that came with the lot: a certificate, a delivery note, the proof of freezing of pork. */
export function Documents({ form, pork }: { form: Form; pork: boolean }) {
  const rows = count(form.values.value)
  return (
    <fieldset>
      <legend>Papers</legend>
      {pork && (
        <p class="hint">
          Pork that is eaten without cooking must have been treated against trichinae or come from a source that is free
          of them: choose the paper that says so. Any other paper is kept, and proves nothing of trichinae.
        </p>
      )}
      {Array.from({ length: rows }, (_, i) => (
        <div class="row" key={i}>
          {pork && (
            <FormChoice form={form} name={`documents[${i}].chosen`} label={`Paper ${i + 1}: kind`} options={kinds} />
          )}
          {(!pork || !form.values.value[`documents[${i}].chosen`]) && (
            <FormText
              form={form}
              name={`documents[${i}].kind`}
              label={`Paper ${i + 1}: what it is`}
              placeholder="delivery note"
            />
          )}
          <FormText form={form} name={`documents[${i}].reference`} label={`Paper ${i + 1}: number`} />
        </div>
      ))}
      <button type="button" disabled={rows >= 20} onClick={() => form.set('documents', String(rows + 1))}>
        Add a paper
      </button>
    </fieldset>
  )
}
