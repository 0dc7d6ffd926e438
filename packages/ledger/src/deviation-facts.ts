import { z } from 'zod'
import { isoDate, list, oneOf, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'

/** Something went other than the plan says: what it touches, and what was seen. */
export const deviationOpen = z.strictObject({
  deviation: code(),
  on: isoDate(),
  about: list(z.strictObject({ type: oneOf(['batch', 'lot', 'pack', 'instrument']), id: code() }), { max: 50 }),
  what: text(2000),
  /** The rule whose finding failed, where one did. */
  rule: text(120).optional(),
})

/** What was done: with the product, about the cause, so that it does not come again. What is left out stays as it was said before. */
export const deviationAct = z.strictObject({
  deviation: code(),
  on: isoDate(),
  product: text(2000).optional(),
  cause: text(2000).optional(),
  prevention: text(2000).optional(),
})

/** Closed by a person who looked at what was done. */
export const deviationClose = z.strictObject({ deviation: code(), on: isoDate(), because: text(2000) })

/**
 * What became of a batch that an instrument touched between its last good check and the one that found it wrong.
 * `stands`: the readings may be relied on, for the reason given. `not-relied`: they are not; the batch stays undecided.
 */
export const doubtSettle = z.strictObject({
  batch: code(),
  instrument: code(),
  /** Number of the entry of the check that found it out of tolerance. */
  check: z.int({ error: 'is not the number of an entry; allowed: a whole number from 1' }).min(1),
  outcome: oneOf(['stands', 'not-relied']),
  because: text(2000),
})
