export type Cell = string | number | undefined

/** A text that a spreadsheet would take for a formula is given an apostrophe, so that opening a file runs nothing. */
const inert = (text: string): string => (/^[=+\-@\t\r\n|%]/.test(text) ? `'${text}` : text)

const quoted = (cell: Cell): string => {
  if (cell === undefined) return ''
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : ''
  const text = inert(cell)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

/** Comma-separated text (RFC 4180), UTF-8, one line a row. Nothing in it is taken for a formula. */
export const toCsv = (heads: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  `${[heads, ...rows].map((row) => row.map(quoted).join(',')).join('\r\n')}\r\n`
