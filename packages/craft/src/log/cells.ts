/** Split one line into cells; a quoted cell may hold the delimiter and doubled quotes. Runs of blanks are one delimiter. */
export function cellsOf(line: string, delimiter: string): string[] {
  if (delimiter === ' ') return line.trim().split(/ +/)
  if (!line.includes('"')) return line.split(delimiter).map((c) => c.trim())
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (let i = 0; i < line.length; i++) {
    const c = line[i]!
    if (c === '"') {
      if (quoted && line[i + 1] === '"') cell += line[i++]
      else quoted = !quoted
    } else if (c === delimiter && !quoted) {
      cells.push(cell.trim())
      cell = ''
    } else cell += c
  }
  return [...cells, cell.trim()]
}

const candidates = [';', '\t', '|', ',', ' '] as const

/** The usual number of cells a line has, over the lines given. */
export function usualWidth(lines: readonly string[], delimiter: string): { width: number; share: number } {
  const counts = new Map<number, number>()
  for (const line of lines) {
    const n = cellsOf(line, delimiter).length
    counts.set(n, (counts.get(n) ?? 0) + 1)
  }
  const [width, count] = [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [1, 0]
  return { width, share: lines.length === 0 ? 0 : count / lines.length }
}

/** The delimiter that cuts the lines alike; semicolon, tab and bar before comma, which may be a decimal; blanks last. */
export function delimiterOf(lines: readonly string[]): string | undefined {
  return candidates.find((d) => {
    const { width, share } = usualWidth(lines, d)
    return width >= 2 && share >= 0.6
  })
}
