import { editable } from '../../ui/figures.ts'
import { readPlain } from '../../state/reader.ts'
import type { Schema } from './schema-table.tsx'

/** A field of a calculation's input that is typed as it is; what nests deeper than groups of such is typed as JSON. */
export type PlainField = {
  readonly path: readonly string[]
  readonly kind: 'number' | 'text' | 'choice' | 'yes-no' | 'json'
  readonly needed: boolean
  readonly hint: string
  readonly choices: readonly string[]
}
export type Texts = Readonly<Record<string, string>>

export const nameOf = (f: Pick<PlainField, 'path'>): string => f.path.join('.')
/** Groups within groups that still read as fields. */
const DEEPEST = 3

const resolved = (s: Schema, root: Schema): Schema =>
  s.$ref === undefined ? s : (root.$defs?.[s.$ref.replace('#/$defs/', '')] ?? s)

function kindOf(s: Schema): Pick<PlainField, 'kind' | 'choices'> {
  const words = s.enum ?? (s.anyOf?.every((c) => c.const !== undefined) ? s.anyOf.map((c) => c.const) : undefined)
  if (words?.every((w) => typeof w === 'string')) return { kind: 'choice', choices: words }
  if (typeof s.const === 'string') return { kind: 'choice', choices: [s.const] }
  if (s.type === 'number' || s.type === 'integer') return { kind: 'number', choices: [] }
  if (s.type === 'string') return { kind: 'text', choices: [] }
  return s.type === 'boolean' ? { kind: 'yes-no', choices: [] } : { kind: 'json', choices: [] }
}

/** The fields of an input, groups opened, in the schema's order. */
export function fieldsOf(
  schema: Schema,
  root: Schema = schema,
  path: readonly string[] = [],
  needed = true,
): readonly PlainField[] {
  const s = resolved(schema, root)
  const group = s.type === 'object' && s.properties && !s.anyOf && !s.oneOf && !s.allOf
  if (group && (path.length === 0 || path.length < DEEPEST))
    return Object.entries(s.properties!).flatMap(([name, inner]) =>
      fieldsOf(inner, root, [...path, name], needed && (s.required?.includes(name) ?? false)),
    )
  return [{ path, needed, hint: s.description ?? '', ...kindOf(s) }]
}

const at = (value: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>(
    (v, name) => (typeof v === 'object' && v !== null ? (v as Record<string, unknown>)[name] : undefined),
    value,
  )

/** An input as the texts of its fields. */
export const textsOf = (fields: readonly PlainField[], input: unknown): Texts =>
  Object.fromEntries(
    fields.map((f) => {
      const value = at(input, f.path)
      const text =
        value === undefined
          ? ''
          : f.kind === 'json' || typeof value === 'object'
            ? JSON.stringify(value, null, 1)
            : typeof value === 'number'
              ? editable(value)
              : f.kind === 'yes-no'
                ? value === true
                  ? 'yes'
                  : 'no'
                : (value as string)
      return [nameOf(f), text]
    }),
  )

type Read = { readonly input: Record<string, unknown>; readonly faults: readonly { path: string; message: string }[] }

/** The input that the texts say; a group of which nothing is typed is left out. */
export function inputOf(fields: readonly PlainField[], texts: Texts): Read {
  const input: Record<string, unknown> = {}
  const faults: { path: string; message: string }[] = []
  for (const f of fields) {
    const typed = texts[nameOf(f)] ?? ''
    const text = typed.trim()
    if (text === '') continue
    // A text is taken as it was typed: its lines and spaces may matter.
    let value: unknown = f.kind === 'text' ? typed : text
    if (f.kind === 'number') {
      const read = readPlain(text)
      if (read.ok) value = read.value
      else faults.push({ path: nameOf(f), message: read.message })
    } else if (f.kind === 'yes-no') value = text === 'yes'
    else if (f.kind === 'json')
      try {
        value = JSON.parse(text)
      } catch {
        faults.push({ path: nameOf(f), message: 'is not JSON; allowed: as in the example' })
      }
    const last = f.path.length - 1
    let into = input
    for (const name of f.path.slice(0, last)) into = (into[name] ??= {}) as Record<string, unknown>
    into[f.path[last]!] = value
  }
  return { input, faults }
}
