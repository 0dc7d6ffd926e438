import fc from 'fast-check'

type Json = Record<string, unknown>

/** Values that fit a JSON Schema as the registry's schemas use it (objects, lists, numbers with bounds, words, unions). */
export function fitting(schema: Json, depth = 0): fc.Arbitrary<unknown> {
  if ('const' in schema) return fc.constant(schema['const'])
  if (Array.isArray(schema['enum'])) return fc.constantFrom(...(schema['enum'] as unknown[]))
  const branches = (schema['anyOf'] ?? schema['oneOf']) as Json[] | undefined
  if (branches) return fc.oneof(...branches.map((b) => fitting(b, depth + 1)))
  switch (schema['type']) {
    case 'number':
    case 'integer':
      return number(schema)
    case 'boolean':
      return fc.boolean()
    case 'string':
      return words(schema)
    case 'array': {
      const min = (schema['minItems'] as number | undefined) ?? 0
      const max = Math.min((schema['maxItems'] as number | undefined) ?? 5, min + 4)
      return fc.array(fitting(schema['items'] as Json, depth + 1), { minLength: min, maxLength: Math.max(min, max) })
    }
    case 'object':
      return record(schema, depth)
    default:
      return fc.constant(null)
  }
}

function number(schema: Json): fc.Arbitrary<number> {
  const low = (schema['minimum'] ?? schema['exclusiveMinimum'] ?? -1e6) as number
  const high = (schema['maximum'] ?? schema['exclusiveMaximum'] ?? 1e6) as number
  if (schema['type'] === 'integer')
    return fc.integer({ min: Math.ceil(Math.max(low, -1e9)), max: Math.floor(Math.min(high, 1e9)) })
  const usual = fc.double({ min: Math.max(low, -50), max: Math.max(low, Math.min(high, 100)), noNaN: true })
  const wide = fc.double({ min: low, max: high, noNaN: true })
  return fc.oneof(
    { weight: 4, arbitrary: usual },
    { weight: 1, arbitrary: wide },
    { weight: 1, arbitrary: fc.constantFrom(low, high) },
  )
}

function words(schema: Json): fc.Arbitrary<string> {
  if (schema['format'] === 'date')
    return fc
      .date({ min: new Date('2000-01-01'), max: new Date('2040-01-01'), noInvalidDate: true })
      .map((d) => d.toISOString().slice(0, 10))
  if (schema['format'] === 'date-time')
    return fc
      .date({ min: new Date('2000-01-01'), max: new Date('2040-01-01'), noInvalidDate: true })
      .map((d) => d.toISOString())
  if (typeof schema['pattern'] === 'string')
    return fc.stringMatching(new RegExp(schema['pattern'])).filter((s) => s.length <= 60)
  return fc.string({
    minLength: (schema['minLength'] as number | undefined) ?? 1,
    maxLength: Math.min((schema['maxLength'] as number | undefined) ?? 12, 12),
  })
}

function record(schema: Json, depth: number): fc.Arbitrary<unknown> {
  const properties = (schema['properties'] ?? {}) as Record<string, Json>
  const required = new Set((schema['required'] as string[] | undefined) ?? [])
  const keys = Object.keys(properties)
  if (keys.length === 0) return fc.constant({})
  const model = Object.fromEntries(keys.map((k) => [k, fitting(properties[k]!, depth + 1)]))
  return fc.record(model, { requiredKeys: [...required] })
}

/** A fitting value with one leaf, picked at random, replaced by rubbish. */
export function spoiled(schema: Json): fc.Arbitrary<unknown> {
  const rubbish = fc.constantFrom<unknown>(null, 'abc', -1, 1e12, '', [], {}, true, Number.MAX_VALUE, '<script>', '12')
  return fc.tuple(fitting(schema), fc.nat(), rubbish).map(([value, pick, bad]) => {
    const leaves: (() => void)[] = []
    const copy = structuredClone(value) as Json
    const visit = (node: unknown, put: (v: unknown) => void) => {
      leaves.push(() => put(bad))
      if (node !== null && typeof node === 'object')
        for (const k of Object.keys(node)) visit((node as Json)[k], (v) => ((node as Json)[k] = v))
    }
    let whole: unknown = copy
    visit(copy, (v) => (whole = v))
    leaves[pick % leaves.length]!()
    return whole
  })
}
