import { hash } from 'node:crypto'

/**
 * One text for one value: keys sorted by UTF-16 code unit, no whitespace, numbers and strings as `JSON.stringify` writes them,
 * properties that are `undefined` left out. The form of RFC 8785 (JSON Canonicalization Scheme).
 *
 * @throws TypeError for a number that is not finite, or a value JSON does not have
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return JSON.stringify(value)
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`${value} has no JSON form`)
    return JSON.stringify(value)
  }
  if (Array.isArray(value)) return `[${value.map((v) => (v === undefined ? 'null' : canonical(v))).join(',')}]`
  if (typeof value !== 'object') throw new TypeError(`a ${typeof value} has no JSON form`)
  const fields = value as Record<string, unknown>
  const parts: string[] = []
  for (const key of Object.keys(fields).sort())
    if (fields[key] !== undefined) parts.push(`${JSON.stringify(key)}:${canonical(fields[key])}`)
  return `{${parts.join(',')}}`
}

/** SHA-256 as 64 hex digits (FIPS 180-4). */
export const sha256 = (data: string | Uint8Array): string => hash('sha256', data, 'hex')

/** What the first entry names as the one before it. */
export const genesis = '0'.repeat(64)
