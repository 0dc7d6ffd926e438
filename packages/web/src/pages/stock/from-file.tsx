import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused, sendBytes } from '../../api.ts'
import { address } from '../../router.ts'
import { record } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { Faults } from '../../ui/notes.tsx'
import { DecimalMark, type DecimalReading } from './decimal-mark.tsx'

type Fault = { readonly cell: string; readonly column: string; readonly message: string }
type Row = {
  readonly row: number
  readonly cells: readonly string[]
  readonly body?: object
  readonly with?: number
  readonly same?: true
  readonly faults: readonly Fault[]
}
type Preview = {
  readonly kind: string
  readonly columns: readonly { readonly head: string; readonly to?: string }[]
  readonly rows: readonly Row[]
  readonly good: number
  readonly entries: number
  readonly same: number
  readonly decimal: DecimalReading
}
type Column = { readonly head: string; readonly required: boolean }
type Kinds = { readonly kinds: readonly { readonly name: string; readonly columns: readonly Column[] }[] }

const kinds = [
  { value: 'lots', label: 'lots' },
  { value: 'orders', label: 'orders' },
  { value: 'prices', label: 'prices of materials' },
  { value: 'selling-prices', label: 'selling prices' },
  { value: 'businesses', label: 'businesses' },
]
const notes: Readonly<Record<string, string>> = {
  orders: 'Rows with the same order code are the lines of one order. A product is named by its recipe, code or name.',
  prices: 'A material has one price from a day on, for each supplier.',
  'selling-prices': 'A product is named by its recipe, code or name.',
}

/** The first row of heads, as the server takes it. */
function Heads({ kind }: { kind: string }) {
  const all = useResource<Kinds>('/api/import').value.value?.kinds
  const columns = all?.find((k) => k.name === kind)?.columns ?? []
  const named = (required: boolean): string =>
    columns
      .filter((c) => c.required === required)
      .map((c) => c.head)
      .join(', ')
  if (columns.length === 0) return null
  return (
    <p>
      CSV in UTF-8, or a workbook (its first sheet). A first row of heads: <strong>{named(true)}</strong>; and as you
      have them: {named(false)}. Dates as 2026-11-25; decimal point or comma, one for the whole file. {notes[kind]}{' '}
      Nothing is recorded before you have seen it, and then all of what is good together or none of it.
    </p>
  )
}

/** Lots, orders, prices or businesses out of CSV or a workbook: shown first, each bad cell by name; recorded only when asked. */
export function FromFile() {
  const asked = address.value.query.get('kind') ?? ''
  const kind = useMemo(() => signal(kinds.some((k) => k.value === asked) ? asked : 'lots'), [asked])
  const shown = useMemo(() => signal<Preview | undefined>(undefined), [])
  const error = useMemo(() => signal<Refused | undefined>(undefined), [])
  const done = useMemo(() => signal(''), [])
  const key = useMemo(() => signal(''), [])
  const file = useMemo(() => signal<File | undefined>(undefined), [])
  const choose = (v: string): void => {
    kind.value = v
    shown.value = undefined
    error.value = undefined
    done.value = ''
  }
  const read = async (given: File | undefined, mark?: '.' | ','): Promise<void> => {
    if (!given) return
    file.value = given
    done.value = ''
    shown.value = undefined
    error.value = undefined
    try {
      shown.value = await sendBytes<Preview>(
        'POST',
        `/api/import/${kind.value}/read${mark ? `?decimal=${mark}` : ''}`,
        given,
      )
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
      <Heads kind={kind.value} />
      <div class="row top">
        <ChoiceField label="What it holds" value={kind.value} options={kinds} onInput={choose} />
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
      {shown.value && (
        <>
          <DecimalMark reading={shown.value.decimal} tell={(mark) => void read(file.value, mark)} />
          {!('ask' in shown.value.decimal) && <Shown preview={shown.value} send={() => void send()} />}
        </>
      )}
    </>
  )
}

/** Most rows and faults shown of a long file. */
const most = 200

function Taken({ row: r }: { row: Row }) {
  if (r.same) return <span class="quiet">{r.row}, there already</span>
  if (r.faults.length > 0) return <span class="late">{r.row}, not taken</span>
  return r.with === undefined ? (
    <>{r.row}</>
  ) : (
    <>
      {r.row} <span class="quiet">with {r.with}</span>
    </>
  )
}

function Shown({ preview: p, send }: { preview: Preview; send: () => void }) {
  const bad = p.rows.length - p.good - p.same
  const faults = p.rows.flatMap((r) => r.faults)
  const unused = p.columns.filter((c) => c.to === undefined).map((c) => c.head)
  return (
    <>
      <p class="figure-line">
        <strong>{p.good}</strong> of {p.rows.length} rows can be recorded
        {p.entries < p.good && `, as ${p.entries} ${p.entries === 1 ? 'entry' : 'entries'}`}
        {p.same > 0 && `; ${p.same} are in the record already, just so`}
        {bad > 0 && <span class="late">; {bad} cannot</span>}.
        {unused.length > 0 && ` Columns left out: ${unused.join(', ')}.`}
      </p>
      {bad > 0 && (
        <div class="faults" role="alert">
          <ul>
            {faults.slice(0, most).map((f) => (
              <li key={f.cell + f.message}>
                <strong>
                  {f.cell} {f.column}
                </strong>{' '}
                {f.message}
              </li>
            ))}
            {faults.length > most && <li>and {faults.length - most} more</li>}
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
            {p.rows.slice(0, most).map((r) => (
              <tr key={r.row}>
                <th scope="row">
                  <Taken row={r} />
                </th>
                {p.columns.map((c, i) => (
                  <td key={c.head}>{r.cells[i] ?? ''}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {p.rows.length > most && (
        <p class="hint">
          {most} of {p.rows.length} rows shown; all that are good are recorded.
        </p>
      )}
      <p class="actions">
        <button type="button" class="main" disabled={p.good === 0} onClick={send}>
          Record {p.good} {p.good === 1 ? 'row' : 'rows'}
        </button>
      </p>
    </>
  )
}
