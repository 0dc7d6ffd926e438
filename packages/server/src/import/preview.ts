import type { DecimalMark } from '@forcemeat/craft/quantity/number-text'
import type { Draft, Ledger } from '@forcemeat/ledger'
import { decimalOfFile, type DecimalReading } from './decimal.ts'
import { imports, type Field, type ImportKind } from './fields.ts'
import { knownOf, type Known } from './known.ts'
import { columnsOf, readRow, shapeFaults, type CellFault, type Columns } from './rows.ts'
import { belongsTo, refuseTooMuch, senseless, withSense } from './sense.ts'
import { cellName, readTable } from './table.ts'

export type { CellFault } from './rows.ts'
type Body = Record<string, unknown>

export type PreviewRow = {
  readonly row: number
  readonly cells: readonly string[]
  /** The entry it would be; absent where a cell is wrong, and on the later rows of an entry of several. */
  readonly body?: object
  /** Row of the first line of the entry this one belongs to, where that is another. */
  readonly with?: number
  /** In the record already, just as it stands here: nothing is to be done. */
  readonly same?: true
  readonly faults: readonly CellFault[]
}
export type Preview = {
  readonly kind: string
  readonly columns: readonly { readonly head: string; readonly to?: string }[]
  readonly rows: readonly PreviewRow[]
  /** Rows that can be recorded, and the entries they make. */
  readonly good: number
  readonly entries: number
  readonly same: number
  /** The decimal mark it is read with, or that it has to be told: nothing is good until then. */
  readonly decimal: DecimalReading
}

type Read = {
  readonly row: number
  readonly cells: readonly string[]
  readonly body: Body
  readonly faults: readonly CellFault[]
}

/** Two rows that say the same, as far as the file speaks of it. */
const agrees = (row: Body, recorded: Readonly<Body>, fields: readonly Field[]): boolean =>
  fields.every(({ to }) => row[to] === undefined || JSON.stringify(row[to]) === JSON.stringify(recorded[to]))

/** The product a row names, by code or by name. */
function withProduct(read: Read, columns: Columns, heads: readonly string[], { products }: Known): Read {
  const at = columns.findIndex((f) => f?.to === 'recipe')
  const named = read.body['recipe']
  if (!products || at < 0 || typeof named !== 'string') return read
  const recipe = products.get(named.toLowerCase())
  if (recipe !== undefined) return { ...read, body: { ...read.body, recipe } }
  const fault = {
    cell: cellName(at, read.row),
    column: heads[at]!,
    message: `${JSON.stringify(named.slice(0, 60))} is no recipe of this kitchen; allowed: the code or the name of one`,
  }
  return { ...read, faults: [...read.faults, fault] }
}

const headOf = (head: string, field: Field | undefined) => ({ head, ...(field ? { to: field.to } : {}) })

/** What a file would add to the record: each row as an entry, or what is wrong with which of its cells. Nothing is recorded. `told` is its decimal mark, where somebody said so. */
export async function preview(
  ledger: Ledger,
  kind: ImportKind,
  bytes: Uint8Array,
  told: DecimalMark | undefined,
  now: Date,
): Promise<Preview> {
  const one = imports[kind]
  const { kind: fact, named, fields } = one
  const lines: readonly string[] | undefined = 'lines' in one ? one.lines : undefined
  const table = await readTable(bytes)
  const { heads, rows: given, numbers } = table
  const columns = columnsOf(heads, fields)
  const decimal = decimalOfFile(table, columns, told)
  const file = {
    kind: fact satisfies Draft['kind'],
    columns: heads.map((head, i) => headOf(head, columns[i])),
    decimal,
  }
  if ('ask' in decimal)
    return { ...file, rows: given.map((cells, i) => ({ row: i + 2, cells, faults: [] })), good: 0, entries: 0, same: 0 }
  const nameAt = columns.findIndex((f) => f?.to === named)
  const known = await knownOf(
    ledger,
    kind,
    given.map((r) => r[nameAt] ?? ''),
  )
  const whole = (body: Body): Body => (lines ? asOrder([body], lines) : body)
  const read = given.map((cells, i): Read => {
    const row = i + 2
    const first = { row, cells, ...readRow(cells, columns, heads, { row, decimal: decimal.mark, numbers }) }
    const { body, faults } = withProduct(first, columns, heads, known)
    // What is empty or could not be read is named already.
    const wrong = new Set(faults.map((f) => f.cell))
    const shape = shapeFaults(fact, whole(body), columns, heads, row).filter(
      (f) => !wrong.has(f.cell) && (faults.length === 0 || !f.cell.startsWith('row')),
    )
    return { row, cells, body, faults: [...faults, ...shape] }
  })
  const place = { columns, heads, nameAt, fields }
  const shaped = lines ? inGroups(read, known, place, lines) : oneByOne(read, known, place)
  const rows = withSense(shaped, await senseless(ledger, now, fact, shaped), place)
  refuseTooMuch(fact, rows)
  return {
    ...file,
    rows,
    good: rows.filter((r) => r.faults.length === 0 && !r.same).length,
    entries: rows.filter((r) => r.body !== undefined).length,
    same: rows.filter((r) => r.same).length,
  }
}

type Place = {
  readonly columns: Columns
  readonly heads: readonly string[]
  readonly nameAt: number
  readonly fields: readonly Field[]
}

function oneByOne(read: readonly Read[], known: Known, { heads, nameAt, fields }: Place): PreviewRow[] {
  const seen = new Set<string>()
  return read.map(({ row, cells, body, faults }): PreviewRow => {
    const key = known.keyOf(body)
    const before = known.recorded.get(key)?.[0]
    if (key !== '' && before && faults.length === 0 && !seen.has(key) && agrees(body, before, fields)) {
      seen.add(key)
      return { row, cells, faults: [], same: true }
    }
    const all = [...faults]
    const code = cells[nameAt] ?? ''
    if (code !== '' && (before || seen.has(key)))
      all.push({
        cell: cellName(nameAt, row),
        column: heads[nameAt]!,
        message: `is ${JSON.stringify(code.slice(0, 60))}, which ${before ? 'the record has' : 'an earlier row has'} already; allowed: a new code${key.includes('\n') ? ', or another day or supplier' : ''}`,
      })
    seen.add(key)
    return { row, cells, faults: all, ...(all.length === 0 ? { body } : {}) }
  })
}

/** Rows of one code as one entry: what stands above the lines is said once. */
function asOrder(rows: readonly Body[], lines: readonly string[]): Body {
  const head = Object.fromEntries(Object.entries(rows[0]!).filter(([k]) => !lines.includes(k)))
  const own = rows.map((r) => Object.fromEntries(Object.entries(r).filter(([k]) => lines.includes(k))))
  return { ...head, lines: own }
}

/** Rows that together make entries of several lines. A bad cell in one of them keeps the whole entry out: half an order is none. */
function inGroups(read: readonly Read[], known: Known, place: Place, lines: readonly string[]): PreviewRow[] {
  const groups = Map.groupBy(read, (r) => known.keyOf(r.body))
  return read.map((r): PreviewRow => {
    const key = known.keyOf(r.body)
    const group = groups.get(key)!
    const first = group[0]!
    const base = { row: r.row, cells: r.cells }
    if (key === '') return { ...base, faults: r.faults }
    const before = known.recorded.get(key)
    const same =
      before !== undefined &&
      before.length === group.length &&
      group.every((g, i) => g.faults.length === 0 && agrees(g.body, before[i]!, place.fields))
    if (same) return { ...base, faults: [], same: true }
    const own = [...r.faults, ...unlike(r, first, place, lines), ...taken(r, before, place)]
    if (own.length > 0) return { ...base, faults: own }
    const broken = group.find((g) => g.faults.length > 0 || unlike(g, first, place, lines).length > 0)
    if (broken) return { ...base, faults: [belongsTo(r.row, broken.row)] }
    if (r === first)
      return {
        ...base,
        faults: [],
        body: asOrder(
          group.map((g) => g.body),
          lines,
        ),
      }
    return { ...base, faults: [], with: first.row }
  })
}

/** Cells of a later row that say something else than the first row of the same entry. */
function unlike(r: Read, first: Read, { columns, heads, fields }: Place, lines: readonly string[]): CellFault[] {
  return fields.flatMap(({ to, head }): CellFault[] => {
    const at = columns.findIndex((f) => f?.to === to)
    if (at < 0 || lines.includes(to) || r.faults.some((f) => f.cell === cellName(at, r.row))) return []
    if (JSON.stringify(r.body[to]) === JSON.stringify(first.body[to])) return []
    if (first.faults.some((f) => f.cell === cellName(at, first.row))) return []
    return [
      {
        cell: cellName(at, r.row),
        column: heads[at]!,
        message: `is another ${head} than in row ${first.row} of the same code; allowed: the same, or a code of its own`,
      },
    ]
  })
}

function taken(r: Read, before: readonly Readonly<Body>[] | undefined, { heads, nameAt }: Place): CellFault[] {
  if (!before) return []
  const code = (r.cells[nameAt] ?? '').slice(0, 60)
  return [
    {
      cell: cellName(nameAt, r.row),
      column: heads[nameAt]!,
      message: `is ${JSON.stringify(code)}, which the record has already with other content; allowed: a new code`,
    },
  ]
}
