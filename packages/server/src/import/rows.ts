import { InvalidInput } from '@forcemeat/craft/calculation'
import type { DecimalMark } from '@forcemeat/craft/quantity/number-text'
import { parseDrafts } from '@forcemeat/ledger'
import type { Field } from './fields.ts'
import { cellName } from './table.ts'

export type CellFault = { readonly cell: string; readonly column: string; readonly message: string }
export type Columns = readonly (Field | undefined)[]

const plainHead = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[()[\]_:]/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()

/** Which column goes where. @throws InvalidInput for a needed column that is missing, or two for one field */
export function columnsOf(heads: readonly string[], fields: readonly Field[]): (Field | undefined)[] {
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

type Written = {
  readonly row: number
  readonly decimal: DecimalMark
  /** Cells that are numbers, and not text. */
  readonly numbers: ReadonlySet<string>
}

/** Read one row into the fields of an entry, every bad cell named. */
export function readRow(
  cells: readonly string[],
  columns: Columns,
  heads: readonly string[],
  { row, decimal, numbers }: Written,
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
    const read = field.read(text, numbers.has(at.cell) ? '.' : decimal)
    if ('fault' in read) faults.push({ ...at, message: read.fault })
    else body[field.to] = read.value
  })
  // A decimal comma between commas splits a figure in two; half of it would pass for the whole.
  cells.slice(heads.length).forEach((text, i) => {
    if (text !== '')
      faults.push({
        cell: cellName(heads.length + i, row),
        column: '',
        message: `is ${JSON.stringify(text.slice(0, 40))} and stands under no head; allowed: as many cells as heads, and a text or figure with the delimiter in it between double quotes`,
      })
  })
  return { body, faults }
}

/** Faults of an entry's own shape, each at the cell it came from. */
export function shapeFaults(
  kind: string,
  body: object,
  columns: Columns,
  heads: readonly string[],
  row: number,
): CellFault[] {
  try {
    parseDrafts([{ kind, by: 'import', body }])
    return []
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return error.faults.map(({ path, message }) => {
      const to = path
        .replace(/^body\./, '')
        .replace(/^lines\[\d+\]\./, '')
        .replace(/[.[].*$/, '')
      const i = columns.findIndex((f) => f?.to === to)
      return { cell: i < 0 ? `row ${row}` : cellName(i, row), column: heads[i] ?? '', message }
    })
  }
}
