import type { z } from 'zod'

/** What a schema holds, as far as a walk down a path needs it. */
type Definition = {
  readonly type: string
  readonly shape?: Readonly<Record<string, z.ZodType>>
  readonly element?: z.ZodType
  readonly innerType?: z.ZodType
  readonly valueType?: z.ZodType
  readonly options?: readonly z.ZodType[]
  readonly items?: readonly z.ZodType[]
  readonly in?: z.ZodType
  readonly out?: z.ZodType
  readonly left?: z.ZodType
  readonly right?: z.ZodType
  readonly getter?: () => z.ZodType
}
const definitionOf = (schema: z.ZodType): Definition => (schema as unknown as { def: Definition }).def

/** The schema itself, or those it wraps or offers, down to what holds fields or items. */
function opened(schema: z.ZodType): z.ZodType[] {
  const { type, innerType, options, in: input, out: output, left, right, getter } = definitionOf(schema)
  if (options) return options.flatMap(opened)
  if (innerType) return opened(innerType)
  if (type === 'pipe') return [input, output].flatMap((s) => (s ? opened(s) : []))
  if (type === 'intersection') return [left, right].flatMap((s) => (s ? opened(s) : []))
  if (type === 'lazy' && getter) return opened(getter())
  return [schema]
}

function below(schema: z.ZodType, key: PropertyKey): z.ZodType[] {
  const { shape, element, valueType, items } = definitionOf(schema)
  if (shape) {
    const field = shape[String(key)]
    return field ? [field] : []
  }
  if (typeof key === 'number') return [element ?? items?.[key]].flatMap((s) => (s ? [s] : []))
  return valueType ? [valueType] : []
}

/** Names of the fields an object at `path` of a schema may have, in the schema's order; none where nothing there has fields. */
export function fieldsAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  let here = opened(schema)
  for (const key of path) here = here.flatMap((s) => below(s, key)).flatMap(opened)
  return [...new Set(here.flatMap((s) => Object.keys(definitionOf(s).shape ?? {})))]
}
