import { z } from 'zod'
import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { list, oneOf, text } from '@forcemeat/craft/schema'
import { canonical } from './canonical.ts'
import { code, facts, type Draft, type FactKind } from './facts.ts'

const kinds = Object.keys(facts) as [FactKind, ...FactKind[]]

/** The envelope of a draft; the body is held against the schema of its kind. */
const envelope = z.strictObject({
  kind: oneOf(kinds),
  body: z.unknown(),
  by: code(),
  key: text(100).optional(),
  corrects: z.int({ error: 'is not the number of an entry; allowed: a whole number from 1' }).min(1).optional(),
  why: text(2000).optional(),
})

/** Most drafts one call records together. */
export const mostDrafts = 10_000
const drafts = list(z.unknown(), { min: 1, max: mostDrafts })

/** Path of a fault within a list; a single draft needs no number before it. */
export const at = (index: number, count: number, path: string): string => (count === 1 ? path : `[${index}].${path}`)

function parseOne(given: unknown): Draft {
  const { kind, body, ...rest } = parseOrThrow(envelope, given)
  const faults: Fault[] = []
  let parsed: unknown
  try {
    parsed = parseOrThrow<unknown>(facts[kind], body)
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    faults.push(...error.faults.map((f) => ({ ...f, path: f.path === '(input)' ? 'body' : `body.${f.path}` })))
  }
  if (rest.corrects !== undefined && rest.why === undefined)
    faults.push({ path: 'why', message: 'is missing; a correction says why it is made' })
  if (rest.corrects !== undefined && kind === 'entry.withdraw')
    faults.push({ path: 'corrects', message: 'does not go with a withdrawal; allowed: to record the fact anew' })
  if (faults.length > 0) throw new InvalidInput(faults)
  // Through the canonical text and back, so that what is used now is to the bit what is read later.
  return JSON.parse(canonical({ kind, body: parsed, ...rest })) as Draft
}

/** Drafts from anything a door was handed. @throws InvalidInput with every fault of every draft, each with its place */
export function parseDrafts(input: unknown): Draft[] {
  const given = parseOrThrow(drafts, input)
  const faults: Fault[] = []
  const parsed = given.flatMap((one, i) => {
    try {
      return [parseOne(one)]
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error
      faults.push(...error.faults.map((f) => ({ ...f, path: at(i, given.length, f.path) })))
      return []
    }
  })
  if (faults.length > 0) throw new InvalidInput(faults)
  return parsed
}
