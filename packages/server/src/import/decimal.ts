import type { DecimalMark } from '@forcemeat/craft/quantity/number-text'
import type { Columns } from './rows.ts'
import { cellName } from './table.ts'

/** A cell that is one figure with a decimal point and another, or none, with a decimal comma. */
export type MarkedCell = {
  readonly cell: string
  readonly column: string
  readonly text: string
  /** What it is where the decimal mark is a point or a comma; absent where it is no figure then. */
  readonly point?: unknown
  readonly comma?: unknown
}
export type DecimalReading =
  /** `told`: whoever sent the file said so; `cells`: these cells can be read with this mark alone; `any`: no cell depends on it. */
  | { readonly mark: DecimalMark; readonly from: 'told' | 'cells' | 'any'; readonly cells: readonly MarkedCell[] }
  | { readonly ask: 'ambiguous' | 'contradict'; readonly cells: readonly MarkedCell[] }

/** Most cells shown for a reading. */
const most = 6

/** The cells of a file whose figure hangs on the decimal mark. Cells a workbook holds as numbers do not. */
function markedCells(
  rows: readonly (readonly string[])[],
  columns: Columns,
  heads: readonly string[],
  numbers: ReadonlySet<string>,
): MarkedCell[] {
  return rows.flatMap((cells, r) =>
    columns.flatMap((field, i): MarkedCell[] => {
      const text = cells[i] ?? ''
      const cell = cellName(i, r + 2)
      if (!field || text === '' || numbers.has(cell)) return []
      const point = field.read(text, '.')
      const comma = field.read(text, ',')
      const [p, c] = ['value' in point, 'value' in comma]
      if (!p && !c) return []
      if ('value' in point && 'value' in comma && JSON.stringify(point.value) === JSON.stringify(comma.value)) return []
      return [
        {
          cell,
          column: heads[i]!,
          text,
          ...('value' in point ? { point: point.value } : {}),
          ...('value' in comma ? { comma: comma.value } : {}),
        },
      ]
    }),
  )
}

/**
 * The one decimal mark of a file: as told, or as the cells show that can be read in one way only ("1,25", "1.250,5"). Where there are none
 * and some cell hangs on it ("1.250"), or where they contradict each other, it is asked for and not guessed.
 */
export function decimalOfFile(
  table: {
    readonly heads: readonly string[]
    readonly rows: readonly string[][]
    readonly numbers: ReadonlySet<string>
  },
  columns: Columns,
  told: DecimalMark | undefined,
): DecimalReading {
  if (told) return { mark: told, from: 'told', cells: [] }
  const marked = markedCells(table.rows, columns, table.heads, table.numbers)
  const points = marked.filter((m) => m.comma === undefined)
  const commas = marked.filter((m) => m.point === undefined)
  if (points.length > 0 && commas.length > 0)
    return { ask: 'contradict', cells: [...points.slice(0, most / 2), ...commas.slice(0, most / 2)] }
  if (points.length > 0) return { mark: '.', from: 'cells', cells: points.slice(0, most) }
  if (commas.length > 0) return { mark: ',', from: 'cells', cells: commas.slice(0, most) }
  return marked.length > 0 ? { ask: 'ambiguous', cells: marked.slice(0, most) } : { mark: '.', from: 'any', cells: [] }
}
