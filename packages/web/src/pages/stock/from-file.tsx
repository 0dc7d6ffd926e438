import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused, sendBytes } from '../../api.ts'
import { record } from '../../state/form.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { decimal } from '../../ui/figures.ts'
import { Faults } from '../../ui/notes.tsx'

type Row = {
  readonly row: number
  readonly cells: readonly string[]
  readonly body?: object
  readonly faults: readonly { readonly cell: string; readonly column: string; readonly message: string }[]
}
type Preview = {
  readonly kind: string
  readonly columns: readonly { readonly head: string; readonly to?: string }[]
  readonly rows: readonly Row[]
  readonly good: number
}

const kinds = [
  { value: 'lots', label: 'lots' },
  { value: 'businesses', label: 'businesses' },
]
const heads: Readonly<Record<string, string>> = {
  lots: 'lot, material, weight, received; and as you have them: supplier, supplier lot, use by, arrival temperature, price per kg, lean as sold, fat, fat spread, fat basis, place, note',
  businesses: 'code, name, as; and as you have them: address, contact, approval',
}

/** Lots or businesses out of CSV or a workbook: shown first, each bad cell by name; recorded only when asked. */
export function FromFile() {
  const kind = useMemo(() => signal('lots'), [])
  const shown = useMemo(() => signal<Preview | undefined>(undefined), [])
  const error = useMemo(() => signal<Refused | undefined>(undefined), [])
  const done = useMemo(() => signal(''), [])
  const key = useMemo(() => signal(''), [])
  const read = async (file: File | undefined): Promise<void> => {
    if (!file) return
    done.value = ''
    shown.value = undefined
    error.value = undefined
    try {
      shown.value = await sendBytes<Preview>('POST', `/api/import/${kind.value}/read?decimal=${decimal}`, file)
      key.value = crypto.randomUUID()
    } catch (e) {
      if (!(e instanceof Refused)) throw e
      error.value = e
    }
  }
  const send = async (): Promise<void> => {
    const p = shown.value
    if (!p) return
    try {
      const drafts = p.rows.flatMap((r) => (r.body ? [{ kind: p.kind, body: r.body }] : []))
      const entries = await record(drafts, key.value)
      done.value = entries.length > 0 ? `${entries.length} recorded.` : 'Kept on this screen until the server answers.'
      shown.value = undefined
    } catch (e) {
      if (!(e instanceof Refused)) throw e
      error.value = e
    }
  }
  return (
    <>
      <h1>From a file</h1>
      <p>
        CSV in UTF-8, or a workbook (its first sheet). A first row of heads: {heads[kind.value]}. Dates as 2026-11-25.
        Nothing is recorded before you have seen it.
      </p>
      <div class="row top">
        <ChoiceField label="What it holds" value={kind.value} options={kinds} onInput={(v) => (kind.value = v)} />
        <label class="field">
          File
          <input
            type="file"
            accept=".csv,.tsv,.txt,.xlsx"
            onChange={(e) => {
              void read(e.currentTarget.files?.[0])
              e.currentTarget.value = ''
            }}
          />
        </label>
      </div>
      <Faults error={error.value} />
      <p role="status" class="done">
        {done.value}
      </p>
      {shown.value && <Shown preview={shown.value} send={() => void send()} />}
    </>
  )
}

function Shown({ preview: p, send }: { preview: Preview; send: () => void }) {
  const bad = p.rows.length - p.good
  const unused = p.columns.filter((c) => c.to === undefined).map((c) => c.head)
  return (
    <>
      <p class="figure-line">
        <strong>{p.good}</strong> of {p.rows.length} rows can be recorded
        {bad > 0 && <span class="late">; {bad} cannot</span>}.
        {unused.length > 0 && ` Columns left out: ${unused.join(', ')}.`}
      </p>
      {bad > 0 && (
        <div class="faults" role="alert">
          <ul>
            {p.rows
              .flatMap((r) => r.faults)
              .slice(0, 200)
              .map((f) => (
                <li key={f.cell + f.message}>
                  <strong>
                    {f.cell} {f.column}
                  </strong>{' '}
                  {f.message}
                </li>
              ))}
          </ul>
        </div>
      )}
      <div class="sheet" tabIndex={0} role="region" aria-label="Rows of the file">
        <table>
          <caption class="visually-hidden">Rows of the file</caption>
          <thead>
            <tr>
              <th scope="col">Row</th>
              {p.columns.map((c) => (
                <th key={c.head} scope="col">
                  {c.head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {p.rows.slice(0, 200).map((r) => (
              <tr key={r.row}>
                <th scope="row">{r.body ? r.row : <span class="late">{r.row}, not taken</span>}</th>
                {p.columns.map((c, i) => (
                  <td key={c.head}>{r.cells[i] ?? ''}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="actions">
        <button type="button" class="main" disabled={p.good === 0} onClick={send}>
          Record {p.good} {p.good === 1 ? 'row' : 'rows'}
        </button>
      </p>
    </>
  )
}
