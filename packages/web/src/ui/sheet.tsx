import type { ComponentChildren } from 'preact'

export type Column<T> = {
  readonly head: string
  readonly cell: (row: T) => ComponentChildren
  readonly num?: boolean
  /** Never broken over lines: a code, a date. */
  readonly keep?: boolean
  /** The cell that names the row. */
  readonly names?: boolean
}

/** A table with its caption; one column names the row for a screen reader. */
export function Sheet<T>({
  caption,
  columns,
  rows,
  rowKey,
}: {
  caption: string
  columns: readonly Column<T>[]
  rows: readonly T[]
  rowKey: (row: T) => string | number
}) {
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={caption}>
      <table>
        <caption class="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            {columns.map((c) => (
              <th key={c.head} scope="col" class={c.num ? 'num' : undefined}>
                {c.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={rowKey(row)}>
              {columns.map((c) =>
                c.names ? (
                  <th key={c.head} scope="row" class={c.keep ? 'names keep' : 'names'}>
                    {c.cell(row)}
                  </th>
                ) : (
                  <td key={c.head} class={c.num ? 'num' : c.keep ? 'keep' : undefined}>
                    {c.cell(row)}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
