import { InvalidInput } from '@forcemeat/craft/calculation'
import { parse } from 'csv-parse/sync'
import { checkSize } from '../recipe-file/zip-size.ts'

/** Most rows and columns one file may have. */
export const mostRows = 5000
const mostColumns = 60

const refuse = (message: string): never => {
  throw new InvalidInput([{ path: '(file)', message }])
}

const isZip = (b: Uint8Array): boolean => b[0] === 0x50 && b[1] === 0x4b

/** A cell as a person would read it: dates as ISO dates, numbers as JavaScript prints them. */
const said = (cell: unknown): string => {
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? '' : cell.toISOString().slice(0, 10)
  if (typeof cell === 'number' || typeof cell === 'boolean') return String(cell)
  return typeof cell === 'string' ? cell.trim() : ''
}

type Cells = { readonly cells: string[][]; readonly numbers: Set<string> }

async function fromWorkbook(bytes: Uint8Array): Promise<Cells> {
  checkSize(bytes)
  const { default: read } = await import('read-excel-file/node')
  try {
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the reader types a cell by a schema it is not given
    const sheets = (await read(Buffer.from(bytes))) as unknown as { data: unknown[][] }[]
    const data = sheets[0]?.data ?? []
    const numbers = data.flatMap((row, r) => row.flatMap((x, i) => (typeof x === 'number' ? [cellName(i, r + 1)] : [])))
    return { cells: data.map((row) => row.map(said)), numbers: new Set(numbers) }
  } catch (error) {
    if (error instanceof InvalidInput) throw error
    return refuse('cannot be read as a workbook; allowed: XLSX, or comma-separated text')
  }
}

/** The delimiter that splits the first line into most cells. */
function delimiterOf(text: string): string {
  const first = text.split(/\r?\n/, 1)[0] ?? ''
  const count = (d: string): number => first.split(d).length
  return [',', ';', '\t'].reduce((best, d) => (count(d) > count(best) ? d : best))
}

function fromText(bytes: Uint8Array): string[][] {
  let text = ''
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    refuse('is not text in UTF-8; allowed: CSV saved as UTF-8, or XLSX')
  }
  if (text.includes('\0')) refuse('holds characters that are no text; allowed: CSV saved as UTF-8, or XLSX')
  try {
    return parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: 100_000,
      to: mostRows + 2,
    })
  } catch (error) {
    return refuse(`cannot be read as comma-separated text: ${(error as Error).message.slice(0, 200)}`)
  }
}

export type Table = {
  readonly heads: string[]
  readonly rows: string[][]
  /** Names of cells that a workbook holds as numbers; their text has a decimal point, whatever mark the file is written with. */
  readonly numbers: ReadonlySet<string>
}

/** First row of heads and the rows below it, from CSV (comma, semicolon or tab) or the first sheet of a workbook. @throws InvalidInput */
export async function readTable(bytes: Uint8Array): Promise<Table> {
  if (bytes.byteLength === 0) refuse('is empty; allowed: a first row of heads and a row for each thing')
  const { cells, numbers } = isZip(bytes)
    ? await fromWorkbook(bytes)
    : { cells: fromText(bytes), numbers: new Set<string>() }
  const [heads = [], ...rows] = cells
  if (heads.length > mostColumns) refuse(`has ${heads.length} columns; allowed: up to ${mostColumns}`)
  if (rows.length > mostRows) refuse(`has more than ${mostRows} rows; allowed: up to that many in one file`)
  if (rows.length === 0) refuse('has no rows below its heads; allowed: a row for each thing')
  return { heads, rows, numbers }
}

/** Name of a cell as a spreadsheet names it: column 0, row 2 is A2. */
export function cellName(column: number, row: number): string {
  let name = ''
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26)) name = String.fromCharCode(65 + ((n - 1) % 26)) + name
  return `${name}${row}`
}
