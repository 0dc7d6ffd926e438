import { number } from '../../ui/figures.ts'
import { spoken } from '../../ui/words.ts'
import type { TableView } from './rule-view.ts'

const cell = (value: unknown): string =>
  typeof value === 'number' ? number(value, 6) : value === null || value === undefined ? '–' : typeof value === 'object' ? JSON.stringify(value) : String(value)

const headOf = (c: string | { name?: string; title?: string; unit?: string }): string =>
  typeof c === 'string' ? spoken(c) : `${c.title ?? c.name ?? ''}${c.unit ? `, ${c.unit}` : ''}`

/** A table of a rule, row for row as its document has it. */
export function RuleTable({ table }: { table: TableView }) {
  const rows = table.rows ?? []
  if (rows.length === 0) return null
  const first = rows[0]
  const keys = Array.isArray(first) ? first.map((_, i) => String(i)) : Object.keys(first as object)
  const heads = table.columns?.map(headOf) ?? keys.map(spoken)
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={table.caption ?? 'Table of the rule'}>
      <table>
        <caption>{table.caption ?? 'Table of the rule'}</caption>
        <thead>
          <tr>
            {heads.map((h) => (
              <th key={h} scope="col" class="num">
                {h}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={i}>
              {keys.map((k) => (
                <td key={k} class="num">
                  {cell((row as Record<string, unknown>)[k])}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
