import { InvalidInput } from '@forcemeat/craft/calculation'
import type { DecimalMark } from '@forcemeat/craft/quantity/number-text'
import { parseDrafts, type Draft, type Ledger } from '@forcemeat/ledger'
import { imports, type Field, type ImportKind } from './fields.ts'
import { cellName, readTable } from './table.ts'

export type CellFault = { readonly cell: string; readonly column: string; readonly message: string }
export type PreviewRow = {
  readonly row: number
  readonly cells: readonly string[]
  /** The entry it would be; absent where a cell is wrong. */
  readonly body?: object
  readonly faults: readonly CellFault[]
}
export type Preview = {
  readonly kind: string
  readonly columns: readonly { readonly head: string; readonly to?: string }[]
  readonly rows: readonly PreviewRow[]
  readonly good: number
}

const plainHead = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[()[\]_:]/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()

/** Which column goes where. @throws InvalidInput for a needed column that is missing, or two for one field */
function columnsOf(heads: readonly string[], fields: readonly Field[]): (Field | undefined)[] {
  const found = heads.map((h) => fields.find((f) => [f.head, ...(f.also ?? [])].includes(plainHead(h))))
  const faults = []
  for (const f of fields) {
    const at = found.flatMap((x, i) => (x === f ? [i] : []))
    if (at.length > 1)
      faults.push({
        path: cellName(at[1]!, 1),
        message: `is ${JSON.stringify(heads[at[1]!]!.slice(0, 40))}, and ${cellName(at[0]!, 1)} is the ${f.head} already; allowed: one column for it`,
      })
    if (f.required && at.length === 0)
      faults.push({
        path: 'row 1',
        message: `has no column for the ${f.head}; allowed: ${[f.head, ...(f.also ?? [])].join(', ')}`,
      })
  }
  if (faults.length > 0) throw new InvalidInput(faults)
  return found
}

/** Read one row into the body of an entry, every bad cell named. */
function readRow(
  cells: readonly string[],
  columns: readonly (Field | undefined)[],
  heads: readonly string[],
  row: number,
  decimal: DecimalMark,
) {
  const body: Record<string, unknown> = {}
  const faults: CellFault[] = []
  columns.forEach((field, i) => {
    if (!field) return
    const text = cells[i] ?? ''
    const at = { cell: cellName(i, row), column: heads[i]! }
    if (text === '') {
      if (field.required) faults.push({ ...at, message: `is empty; allowed: the ${field.head}` })
      return
    }
    const read = field.read(text, decimal)
    if ('fault' in read) faults.push({ ...at, message: read.fault })
    else body[field.to] = read.value
  })
  return { body, faults }
}

/** Faults of an entry's own shape, each at the cell it came from. */
function shapeFaults(
  kind: string,
  body: object,
  columns: readonly (Field | undefined)[],
  heads: readonly string[],
  row: number,
): CellFault[] {
  try {
    parseDrafts([{ kind, by: 'import', body }])
    return []
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return error.faults.map(({ path, message }) => {
      const to = path.replace(/^body\./, '').replace(/[.[].*$/, '')
      const i = columns.findIndex((f) => f?.to === to)
      return { cell: i < 0 ? `row ${row}` : cellName(i, row), column: heads[i] ?? '', message }
    })
  }
}

/** Codes of the rows that the record has already, or that come twice in the file. */
async function taken(ledger: Ledger, kind: ImportKind, codes: readonly string[]): Promise<ReadonlySet<string>> {
  if (kind === 'businesses') return new Set((await ledger.businesses()).map((b) => b.business))
  const known = new Set<string>()
  for (const code of new Set(codes)) if (await ledger.lot(code)) known.add(code)
  return known
}

/** What a file would add to the record: each row as an entry, or what is wrong with which of its cells. Nothing is recorded. */
export async function preview(
  ledger: Ledger,
  kind: ImportKind,
  bytes: Uint8Array,
  decimal: DecimalMark,
): Promise<Preview> {
  const { kind: fact, named, fields } = imports[kind]
  const { heads, rows: given } = await readTable(bytes)
  const columns = columnsOf(heads, fields)
  const nameAt = columns.findIndex((f) => f?.to === named)
  const known = await taken(
    ledger,
    kind,
    given.map((r) => r[nameAt] ?? ''),
  )
  const seen = new Set<string>()
  const rows = given.map((cells, i): PreviewRow => {
    const row = i + 2
    const { body, faults } = readRow(cells, columns, heads, row, decimal)
    // What is empty or could not be read is named already.
    const wrong = new Set(faults.map((f) => f.cell))
    const shape = shapeFaults(fact, body, columns, heads, row).filter(
      (f) => !wrong.has(f.cell) && (faults.length === 0 || !f.cell.startsWith('row')),
    )
    const all = [...faults, ...shape]
    const code = cells[nameAt] ?? ''
    if (code !== '' && (known.has(code) || seen.has(code)))
      all.push({
        cell: cellName(nameAt, row),
        column: heads[nameAt]!,
        message: `is ${JSON.stringify(code.slice(0, 60))}, which ${known.has(code) ? 'the record has' : 'an earlier row has'} already; allowed: a new code`,
      })
    seen.add(code)
    return { row, cells, faults: all, ...(all.length === 0 ? { body } : {}) }
  })
  return {
    kind: fact satisfies Draft['kind'],
    columns: heads.map((head, i) => ({ head, ...(columns[i] ? { to: columns[i].to } : {}) })),
    rows,
    good: rows.filter((r) => r.body !== undefined).length,
  }
}
