export type Schema = {
  type?: string | string[]
  description?: string
  properties?: Record<string, Schema>
  required?: string[]
  items?: Schema
  enum?: unknown[]
  const?: string | number | boolean | null
  anyOf?: Schema[]
  oneOf?: Schema[]
  allOf?: Schema[]
  minimum?: number
  exclusiveMinimum?: number
  maximum?: number
  minItems?: number
  maxItems?: number
  additionalProperties?: Schema | boolean
  $ref?: string
  $defs?: Record<string, Schema>
}

type Row = { path: string; what: string; needed: boolean }

function wordsOf(s: Schema): string {
  if (s.description) return s.description
  if (s.enum) return `one of ${s.enum.map(String).join(', ')}`
  if (s.const !== undefined) return String(s.const)
  if (s.type === 'array') return 'a list'
  if (s.type === 'object') return 'a group of fields'
  const range = [
    s.exclusiveMinimum !== undefined && `more than ${s.exclusiveMinimum}`,
    s.minimum !== undefined && `at least ${s.minimum}`,
    s.maximum !== undefined && s.maximum < Number.MAX_SAFE_INTEGER && `at most ${s.maximum}`,
  ].filter(Boolean)
  const type = { number: 'a number', integer: 'a whole number', string: 'a text', boolean: 'true or false' }[
    String(s.type)
  ]
  return [type ?? '', range.join(' and ')].filter(Boolean).join(', ') || 'any value'
}

/** Fields one a row, nested ones under the path they are typed with. */
function rowsOf(schema: Schema, root: Schema, path = '', needed = true, depth = 0): Row[] {
  const ref = schema.$ref?.replace('#/$defs/', '')
  const s = ref ? (root.$defs?.[ref] ?? schema) : schema
  const own: Row[] = path ? [{ path, what: wordsOf(s), needed }] : []
  if (depth > 6) return own
  const below = (inner: Schema, at: string, must: boolean): Row[] => rowsOf(inner, root, at, must, depth + 1)
  const fields = Object.entries(s.properties ?? {}).flatMap(([k, v]) =>
    below(v, path ? `${path}.${k}` : k, s.required?.includes(k) ?? false),
  )
  const choices = [...(s.anyOf ?? []), ...(s.oneOf ?? []), ...(s.allOf ?? [])].flatMap((c) =>
    below(c, path, needed).filter((r) => r.path !== path),
  )
  const items =
    s.items && typeof s.items === 'object'
      ? below(s.items, `${path}[]`, true).filter((r) => r.what !== 'a group of fields')
      : []
  const seen = new Set<string>()
  return [...own, ...fields, ...choices, ...items].filter((r) => !seen.has(r.path) && seen.add(r.path))
}

export function SchemaTable({ schema, caption }: { schema: Schema; caption: string }) {
  const rows = rowsOf(schema, schema)
  if (rows.length === 0) return <p class="quiet">Any JSON value.</p>
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={caption}>
      <table>
        <caption class="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Field</th>
            <th scope="col">Allowed</th>
            <th scope="col">Needed</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.path}>
              <th scope="row" class="names">
                <code>{r.path}</code>
              </th>
              <td>{r.what}</td>
              <td>{r.needed ? 'yes' : 'no'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
