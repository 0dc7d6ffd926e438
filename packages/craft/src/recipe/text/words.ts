/** The version of the format a text names on its first line. */
export const FORMAT = 'forcemeat-recipe'
export const VERSION = 1

/** Signs some editors break a line at, which JSON leaves as they are. */
const BREAKS = /[\u0085\u2028\u2029\uFEFF]/g
const json = (value: string): string =>
  JSON.stringify(value).replaceAll(BREAKS, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`)

/** Plain text stands bare; what would be read as something else stands in JSON quotes. */
export const quoted = (value: string): string =>
  value === '' || value !== value.trim() || /[;"\\\p{Cc}\u2028\u2029\uFEFF]/u.test(value) ? json(value) : value

/** A name within a line: bare where it is one word. */
export const named = (value: string): string => (/^[A-Za-z0-9][\w.+-]*$/.test(value) ? value : json(value))

/** Split a line at its semicolons, those within quotes left alone. */
export function pieces(line: string): string[] {
  const out: string[] = ['']
  let inside = false
  for (let i = 0; i < line.length; i++) {
    const c = line[i]!
    if (c === ';' && !inside) {
      out.push('')
      continue
    }
    if (c === '"') inside = !inside
    out[out.length - 1] += c
    if (inside && c === '\\') out[out.length - 1] += line[++i] ?? ''
  }
  return out.map((p) => p.trim())
}

/** The text a bare or quoted value stands for; undefined where its quotes do not close. */
export function unquoted(value: string): string | undefined {
  if (!value.startsWith('"')) return value
  try {
    const read: unknown = JSON.parse(value)
    return typeof read === 'string' ? read : undefined
  } catch {
    return undefined
  }
}
