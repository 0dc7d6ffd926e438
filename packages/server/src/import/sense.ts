import { InvalidInput } from '@forcemeat/craft/calculation'
import type { Ledger } from '@forcemeat/ledger'
import { jsonBytes } from '../http/body.ts'
import { Refusal } from '../http/refusal.ts'
import { guardReadings } from '../judge/guard-readings.ts'
import { guardSense } from '../judge/guard-sense.ts'
import type { PreviewRow } from './preview.ts'
import type { CellFault, Columns } from './rows.ts'
import { cellName } from './table.ts'

/** What of the entries cannot have happened or is asked about, as where they are recorded one by one; by row of the file and field of the entry. */
export async function senseless(ledger: Ledger, now: Date, kind: string, rows: readonly PreviewRow[]) {
  const good = rows.filter((r) => r.body !== undefined)
  const found: { readonly row: number; readonly field: string; readonly message: string }[] = good.flatMap((r) => {
    const { on, due } = r.body as { on?: string; due?: string }
    return on !== undefined && due !== undefined && due < on
      ? [{ row: r.row, field: 'due', message: `is ${due}, before it was taken; allowed: ${on} or later` }]
      : []
  })
  const drafts = good.map(({ body }) => ({ kind, by: 'import', body }))
  for (const guard of [guardSense, guardReadings]) {
    const refused = await guard(ledger, now, drafts).catch((error: unknown) => {
      if (error instanceof Refusal) return error
      throw error
    })
    for (const { path, message } of refused?.faults ?? []) {
      const [, index = '0', field = ''] = /^(?:\[(\d+)\]\.)?body\.(\w+)/.exec(path) ?? []
      found.push({ row: good[Number(index)]!.row, field, message })
    }
  }
  return found
}

/** Rows with what cannot have happened named at its cell; the other rows of the same entry are kept out with it. */
export function withSense(
  rows: readonly PreviewRow[],
  wrong: Awaited<ReturnType<typeof senseless>>,
  { columns, heads }: { readonly columns: Columns; readonly heads: readonly string[] },
): PreviewRow[] {
  if (wrong.length === 0) return [...rows]
  return rows.map((r) => {
    const own = wrong.filter((w) => w.row === r.row)
    const faults = own.map(({ field, message }): CellFault => {
      const at = columns.findIndex((f) => f?.to === field)
      return { cell: at < 0 ? `row ${r.row}` : cellName(at, r.row), column: heads[at] ?? '', message }
    })
    const base = { row: r.row, cells: r.cells }
    if (faults.length > 0) return { ...base, faults: [...r.faults, ...faults] }
    return r.with !== undefined && wrong.some((w) => w.row === r.with)
      ? { ...base, faults: [belongsTo(r.row, r.with)] }
      : r
  })
}

export const belongsTo = (row: number, bad: number): CellFault => ({
  cell: `row ${row}`,
  column: '',
  message: `belongs to an entry with a bad cell in row ${bad}; allowed: all rows of it good, for it is recorded as one`,
})

/** What an entry's envelope adds to its body when it is sent, bytes. */
const envelopeBytes = 160

/** All that is good is recorded together, so it must go into one sending. */
export function refuseTooMuch(kind: string, rows: readonly PreviewRow[]): void {
  const bodies = rows.flatMap((r) => r.body ?? [])
  const bytes = bodies.reduce((s, b) => s + Buffer.byteLength(JSON.stringify(b)) + envelopeBytes + kind.length, 0)
  if (bytes > jsonBytes)
    throw new InvalidInput([
      {
        path: '(file)',
        message: `makes ${bodies.length} entries of ${(bytes / 1e6).toFixed(1)} MB, and what is recorded together may be ${jsonBytes / 1e6} MB; allowed: the rows in two or more files`,
      },
    ])
}
