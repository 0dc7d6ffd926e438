import { z } from 'zod'
import { InvalidInput, type Fault } from '../calculation.ts'
import { text } from '../schema.ts'
import { recipeSchema } from './schema.ts'

const HEADER = ['part', 'material', 'pct of meat', 'note'] as const

export const recipeCsvInput = z.strictObject({ recipe: recipeSchema })
export const recipeCsvOutput = z.strictObject({ csv: z.string() })
export const recipeFromCsvInput = z.strictObject({ csv: text(200_000) })

const partSchema = z.strictObject({ material: z.string(), pct: z.number(), note: z.string().optional() })
export const recipeFromCsvOutput = z.strictObject({ meat: z.array(partSchema), additions: z.array(partSchema) })
export type RecipeParts = z.infer<typeof recipeFromCsvOutput>

/** A spreadsheet runs a cell that starts like a formula; an apostrophe keeps it text, and reading takes it off again. */
const FORMULA = /^['=+\-@\t\r]/

const cell = (value: string): string => {
  const safe = FORMULA.test(value) ? `'${value}` : value
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
const plain = (value: string): string => (value.startsWith("'") ? value.slice(1) : value)

/** The parts of a recipe as comma-separated text (RFC 4180), a row a part; decimal point. */
export function recipeCsv({ recipe }: z.infer<typeof recipeCsvInput>): { csv: string } {
  const row = (part: string) => (p: { material: string; pct: number; note?: string | undefined }) =>
    [part, cell(p.material), String(p.pct), cell(p.note ?? '')].join(',')
  return {
    csv: [HEADER.join(','), ...recipe.meat.map(row('meat')), ...recipe.additions.map(row('addition')), ''].join('\r\n'),
  }
}

/** Rows and cells of comma-separated text, quotes as RFC 4180 has them. */
function cells(csv: string): string[][] {
  const rows: string[][] = [[]]
  let value = ''
  let quoted = false
  for (let i = 0; i < csv.length; i++) {
    const c = csv[i]!
    if (quoted) {
      if (c !== '"') value += c
      else if (csv[i + 1] === '"') value += csv[++i]!
      else quoted = false
    } else if (c === '"' && value === '') quoted = true
    else if (c === ',' || c === '\n') {
      rows.at(-1)!.push(value)
      value = ''
      if (c === '\n') rows.push([])
    } else if (c !== '\r') value += c
  }
  rows.at(-1)!.push(value)
  return rows.filter((r) => r.some((v) => v.trim() !== ''))
}

/** Parts of a recipe from its comma-separated text. @throws InvalidInput naming every row that cannot be read */
export function recipeFromCsv({ csv }: z.infer<typeof recipeFromCsvInput>): RecipeParts {
  const [head = [], ...rows] = cells(csv.replace(/^\uFEFF/, ''))
  const faults: Fault[] = []
  if (HEADER.slice(0, 3).some((h, i) => head[i]?.trim().toLowerCase() !== h))
    throw new InvalidInput([
      {
        path: 'csv',
        message: `starts with ${JSON.stringify(head.join(','))}; allowed: a first row ${HEADER.join(',')}`,
      },
    ])
  const parts: RecipeParts = { meat: [], additions: [] }
  rows.forEach((row, i) => {
    const path = `csv row ${i + 2}`
    const [part = '', material = '', amount = '', note = ''] = row.map((v) => v.trim())
    const pct = /^\d+(\.\d+)?(e-?\d+)?$/i.test(amount) ? Number(amount) : Number.NaN
    if (part !== 'meat' && part !== 'addition')
      faults.push({ path, message: `has part ${JSON.stringify(part)}; allowed: meat or addition` })
    else if (material === '') faults.push({ path, message: 'names no material; allowed: the id of a material' })
    else if (!(pct >= 0 && pct <= 1000))
      faults.push({
        path,
        message: `has ${JSON.stringify(amount)} percent; allowed: a number from 0 to 1000 with a decimal point`,
      })
    else
      parts[part === 'meat' ? 'meat' : 'additions'].push({
        material: plain(material),
        pct,
        ...(note === '' ? {} : { note: plain(note) }),
      })
  })
  if (faults.length > 0) throw new InvalidInput(faults)
  return parts
}
