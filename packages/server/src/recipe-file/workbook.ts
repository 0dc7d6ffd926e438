import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { recipeOfLines } from '@forcemeat/craft/recipe/text/parse'
import { linesOf } from '@forcemeat/craft/recipe/text/print'
import { named, quoted } from '@forcemeat/craft/recipe/text/words'
import { checkSize } from './zip-size.ts'

const PARTS = 'Parts'
const RECIPE = 'Recipe'
const heads = ['part', 'material', 'name', 'pct of meat', 'at least', 'at most', 'note'] as const
const widths = [10, 30, 36, 12, 10, 10, 40]

type Cell = string | number | boolean | Date | null | undefined
/** A cell by its type, so that nothing a recipe says is ever taken for a formula. */
const cell = (value: string | number | undefined) =>
  value === undefined ? null : typeof value === 'number' ? { type: Number, value } : { type: String, value }
const head = (value: string) => ({ type: String, value, fontWeight: 'bold' as const })

/** A recipe as a workbook: its parts as a table, and all else as keys and values. */
export async function writeWorkbook(recipe: Recipe): Promise<Uint8Array<ArrayBuffer>> {
  const { default: write } = await import('write-excel-file/node')
  const part = (kind: string) => (p: Recipe['meat'][number]) =>
    [kind, p.material, findMaterial(p.material)?.name, p.pct, p.minPct, p.maxPct, p.note].map(cell)
  const facts = linesOf(recipe).flatMap((line) => {
    const [, key = '', value = ''] = /^([a-z ]+): (.*)$/s.exec(line) ?? []
    return key === 'meat' || key === 'addition' ? [] : [[key, value].map(cell)]
  })
  const book = write([
    {
      sheet: PARTS,
      data: [[...heads].map(head), ...recipe.meat.map(part('meat')), ...recipe.additions.map(part('addition'))],
      columns: widths.map((width) => ({ width })),
      stickyRowsCount: 1,
    },
    {
      sheet: RECIPE,
      data: [['key', 'value'].map(head), ...facts],
      columns: [{ width: 16 }, { width: 90 }],
      stickyRowsCount: 1,
    },
  ])
  return new Uint8Array(await book.toBuffer())
}

type Line = { readonly at: string; readonly text: string }

const said = (value: Cell): string => (value === null || value === undefined ? '' : String(value).trim())

/** Rows of the table of parts as lines of the text format. */
function partLines(rows: readonly (readonly Cell[])[], faults: Fault[]): Line[] {
  const [first = [], ...rest] = rows
  const at = new Map(first.map((h, i) => [said(h).toLowerCase(), i]))
  for (const needed of ['part', 'material', 'pct of meat'])
    if (!at.has(needed))
      faults.push({ path: PARTS, message: `has no column ${needed}; allowed: a first row ${heads.join(', ')}` })
  const of = (row: readonly Cell[], name: string): string => said(row[at.get(name) ?? -1])
  return rest.flatMap((row, i) => {
    if (row.every((c) => said(c) === '')) return []
    const path = `${PARTS} row ${i + 2}`
    const kind = of(row, 'part')
    if (kind !== 'meat' && kind !== 'addition') {
      faults.push({ path, message: `has part ${JSON.stringify(kind.slice(0, 40))}; allowed: meat or addition` })
      return []
    }
    const bound = (name: string): string => (of(row, name) === '' ? '' : `; ${name} ${of(row, name)} %`)
    const note = of(row, 'note') === '' ? '' : `; note ${quoted(of(row, 'note'))}`
    const text = `${kind}: ${of(row, 'pct of meat')} % ${named(of(row, 'material'))}${bound('at least')}${bound('at most')}${note}`
    return [{ at: path, text }]
  })
}

/** A recipe from a workbook. @throws InvalidInput naming sheet and row of each fault */
export async function readWorkbook(bytes: Uint8Array): Promise<Recipe> {
  checkSize(bytes)
  const { default: read } = await import('read-excel-file/node')
  let sheets: { sheet: string; data: Cell[][] }[]
  try {
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the reader types a cell by a schema it is not given
    sheets = (await read(Buffer.from(bytes))) as unknown as { sheet: string; data: Cell[][] }[]
  } catch {
    throw new InvalidInput([{ path: '(file)', message: 'cannot be read as a workbook; allowed: a file in XLSX' }])
  }
  const rows = (name: string): Cell[][] | undefined => sheets.find((s) => s.sheet === name)?.data
  const [parts, facts] = [rows(PARTS), rows(RECIPE)]
  if (!parts || !facts)
    throw new InvalidInput([
      {
        path: '(file)',
        message: `has the sheets ${sheets.map((s) => s.sheet.slice(0, 40)).join(', ') || 'none'}; allowed: ${PARTS} and ${RECIPE}`,
      },
    ])
  const faults: Fault[] = []
  const lines = partLines(parts, faults)
  if (faults.length > 0) throw new InvalidInput(faults)
  const rest = facts.slice(1).flatMap((row, i): Line[] => {
    const [key, value] = [said(row[0]), said(row[1])]
    return key === '' && value === '' ? [] : [{ at: `${RECIPE} row ${i + 2}`, text: `${key}: ${value}` }]
  })
  return recipeOfLines([...rest, ...lines])
}
