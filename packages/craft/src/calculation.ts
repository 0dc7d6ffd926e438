import { z } from 'zod'
import { fieldsAt } from './fields-of.ts'
import type { Source } from './source.ts'

/** One fault of an input: where it is, and what was wrong with what is allowed. */
export type Fault = { readonly path: string; readonly message: string }

/** Thrown by `run` for an input outside the schema; holds every fault found, not just the first. */
export class InvalidInput extends Error {
  readonly faults: readonly Fault[]
  constructor(faults: readonly Fault[]) {
    super(faults.map((f) => `${f.path}: ${f.message}`).join('\n'))
    this.name = 'InvalidInput'
    this.faults = faults
  }
}

/** A computation of the program: one entry of the registry, reached the same way through every door. */
export type Calculation<I = unknown, O = unknown> = {
  readonly name: string
  readonly title: string
  /** One or two sentences for the reference page: what goes in, what comes out, where it holds. */
  readonly summary: string
  readonly input: z.ZodType<I>
  readonly output: z.ZodType<O>
  readonly sources: readonly Source[]
  /** A valid input, shown on the reference page and tried by a test. */
  readonly example: unknown
  /** Parse, then compute. @throws InvalidInput with every fault of the input. */
  readonly run: (input: unknown) => O
}

type Definition<I, O> = Omit<Calculation<I, O>, 'run'> & { readonly compute: (input: I) => O }

const spell = (path: readonly PropertyKey[]): string =>
  path.reduce<string>((s, k) => (typeof k === 'number' ? `${s}[${k}]` : s ? `${s}.${String(k)}` : String(k)), '') ||
  '(input)'

function faultsOf(schema: z.ZodType, issue: z.core.$ZodIssue, base: readonly PropertyKey[] = []): Fault[] {
  const path = [...base, ...issue.path]
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((k) => ({
      path: spell([...path, k]),
      message: `is not a field here; allowed: ${fieldsAt(schema, path).join(', ') || 'no field'}`,
    }))
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    // Report the branch that came closest: the one with the fewest faults.
    const nearest = issue.errors.toSorted((a, b) => a.length - b.length)[0]!
    if (nearest.length > 0) return nearest.flatMap((i) => faultsOf(schema, i, path))
  }
  return [{ path: spell(path), message: worded(issue) }]
}

const things: Readonly<Record<string, string>> = {
  object: 'an object',
  array: 'a list',
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  record: 'an object',
  int: 'a whole number',
  nonoptional: 'a value',
}
const thing = (type: string): string => things[type] ?? type

/** A message of our own as it is; the schema library's word for a wrong type as what was given and what is allowed. */
function worded(issue: z.core.$ZodIssue): string {
  const type =
    issue.code === 'invalid_type' ? /^Invalid input: expected (\w+), received (\w+)/.exec(issue.message) : null
  if (!type)
    return issue.code === 'invalid_type' && /received undefined/.test(issue.message)
      ? `is missing; ${issue.message}`
      : issue.message
  return `${type[2] === 'undefined' ? 'is missing' : `is ${thing(type[2]!)}`}; allowed: ${thing(type[1]!)}`
}

/** Parse `value` with `schema`. @throws InvalidInput with one fault a fault. */
export function parseOrThrow<T>(schema: z.ZodType<T>, value: unknown): T {
  const parsed = schema.safeParse(value)
  if (parsed.success) return parsed.data
  throw new InvalidInput(parsed.error.issues.flatMap((i) => faultsOf(schema, i)))
}

/** Turn a definition into an entry of the registry: validation in front, computation behind. */
export function defineCalculation<I, O>(definition: Definition<I, O>): Calculation<I, O> {
  const { compute, ...face } = definition
  return { ...face, run: (input) => compute(parseOrThrow(definition.input, input)) }
}
