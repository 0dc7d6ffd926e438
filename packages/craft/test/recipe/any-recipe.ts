import fc from 'fast-check'
import { z } from 'zod'
import { recipeSchema, type Recipe } from '../../src/recipe/schema.ts'

type Schema = {
  readonly type?: string
  readonly enum?: readonly string[]
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly items?: Schema
  readonly minItems?: number
  readonly maxItems?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
}

/** Any value of a schema. A field the schema gains is drawn from that day on, with nothing to add here. */
function any(schema: Schema, whole: boolean): fc.Arbitrary<unknown> {
  if (schema.enum) return fc.constantFrom(...schema.enum)
  switch (schema.type) {
    case 'boolean':
      return fc.boolean()
    case 'number': {
      const min = schema.exclusiveMinimum ?? schema.minimum!
      return fc
        .double({ min, max: schema.maximum!, noNaN: true, minExcluded: schema.exclusiveMinimum !== undefined })
        .map((x) => (x === 0 ? 0 : x))
    }
    case 'string': {
      const { minLength = 0, maxLength = 40 } = schema
      return fc
        .string({ minLength, maxLength: Math.min(40, maxLength), unit: 'grapheme' })
        .filter((s) => s.length <= maxLength)
    }
    case 'array':
      // An empty list is written as no line; one that need not be there is drawn with something in it.
      return fc.array(any(schema.items!, whole), { minLength: 1, maxLength: Math.min(4, schema.maxItems ?? 4) })
    case 'object': {
      const fields = Object.entries(schema.properties!).map(([k, s]) => [k, any(s, whole)] as const)
      return fc.record(Object.fromEntries(fields), {
        requiredKeys: whole ? fields.map(([k]) => k) : [...(schema.required ?? [])],
      })
    }
    default:
      throw new Error(`no way to draw ${JSON.stringify(schema)}`)
  }
}

type Bounded = { minPct?: number; maxPct?: number }
const inOrder = <T extends Bounded>(b: T): T =>
  b.minPct !== undefined && b.maxPct !== undefined && b.minPct > b.maxPct
    ? { ...b, minPct: b.maxPct, maxPct: b.minPct }
    : b

/** What the schema asks beyond its fields: meat that adds up, bounds in order. */
function sound(recipe: Recipe): Recipe {
  const sum = recipe.meat.reduce((s, m) => s + m.pct, 0)
  const meat = recipe.meat.map((m, i) =>
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- absent fields stay absent
    inOrder({ ...m, pct: sum > 1e-3 ? (m.pct * 100) / sum : i === 0 ? 100 : 0 } as Bounded),
  ) as unknown as Recipe['meat']
  return {
    ...recipe,
    meat,
    ...(recipe.limits ? { limits: recipe.limits.map((l) => inOrder(l as Bounded)) as Recipe['limits'] } : {}),
  }
}

const schema = z.toJSONSchema(recipeSchema, { io: 'input' }) as Schema

/** Any recipe the schema takes, drawn from the schema itself. */
export const anyRecipe: fc.Arbitrary<Recipe> = any(schema, false).map((r) => sound(r as Recipe))
/** A recipe with every field the schema has. */
export const fullRecipe: fc.Arbitrary<Recipe> = any(schema, true).map((r) => sound(r as Recipe))

/** Paths of all fields a value has, list places left out. */
export const fieldsIn = (value: unknown, path = ''): string[] =>
  Array.isArray(value)
    ? value.flatMap((v) => fieldsIn(v, path))
    : typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([k, v]) => fieldsIn(v, `${path}.${k}`))
      : [path]

/** Paths of all fields of the schema. */
export const fieldsOfSchema = (of: Schema = schema, path = ''): string[] =>
  of.items
    ? fieldsOfSchema(of.items, path)
    : of.properties
      ? Object.entries(of.properties).flatMap(([k, s]) => fieldsOfSchema(s, `${path}.${k}`))
      : [path]
