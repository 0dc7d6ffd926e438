import { z } from 'zod'

/** Range of a number field, both ends included unless `above` is given. */
type Range = { readonly min?: number; readonly above?: number; readonly max?: number }

const NEAREST_TO_NOTHING = 1e-9

const allowed = (unit: string, { min, above, max }: Range): string => {
  const low =
    above === 0
      ? `more than 0 (${NEAREST_TO_NOTHING} or more)`
      : above !== undefined
        ? `more than ${above}`
        : min !== undefined
          ? `at least ${min}`
          : ''
  const high = max !== undefined ? `at most ${max}` : ''
  const span = [low, high].filter(Boolean).join(' and ')
  return `a number${unit ? ` in ${unit}` : ''}${span ? `, ${span}` : ''}`
}

const shown = (value: unknown): string => {
  if (value === undefined) return 'is missing'
  if (typeof value === 'string') return `is the text ${JSON.stringify(value.slice(0, 40))}`
  if (typeof value === 'number') return `is ${value}`
  return `is ${value === null ? 'null' : Array.isArray(value) ? 'a list' : `of type ${typeof value}`}`
}

/** A finite number in `unit` within `range`; every refusal names what was given and what is allowed. */
export function quantity(unit: string, range: Range = {}): z.ZodNumber {
  const say = allowed(unit, range)
  let schema = z.number({ error: (issue) => `${shown(issue.input)}; allowed: ${say}` })
  const error = (issue: { input?: unknown }) => `${shown(issue.input)}; allowed: ${say}`
  // Nothing weighed, measured or timed in a kitchen is nearer to nothing than this; below it quotients leave the range of numbers.
  if (range.above === 0) schema = schema.gte(NEAREST_TO_NOTHING, { error })
  else if (range.above !== undefined) schema = schema.gt(range.above, { error })
  if (range.min !== undefined) schema = schema.gte(range.min, { error })
  if (range.max !== undefined) schema = schema.lte(range.max, { error })
  return schema.describe(say)
}

/** Mass in kg, above zero; a kitchen batch or a plant's day, up to 100 t. */
export const massKg = () => quantity('kg', { above: 0, max: 100_000 })
/** Mass in kg that may be nothing. */
export const massKgOrNone = () => quantity('kg', { min: 0, max: 100_000 })
export const massG = () => quantity('g', { above: 0, max: 100_000_000 })
/** Percent by mass, 0 to 100. */
export const pct = () => quantity('% by mass', { min: 0, max: 100 })
export const ppm = () => quantity('mg/kg', { min: 0, max: 1_000_000 })
/** Process temperature; nothing in a kitchen or its freezer lies outside. */
export const tempC = () => quantity('°C', { min: -100, max: 400 })
export const lengthMm = () => quantity('mm', { above: 0, max: 10_000 })
export const minutes = () => quantity('minutes', { min: 0, max: 10_000_000 })
export const hours = () => quantity('hours', { min: 0, max: 200_000 })
export const money = () => quantity('money per unit', { min: 0, max: 1e9 })

/** Text of 1 to `max` characters. */
export const text = (max = 200) =>
  z
    .string({ error: (issue) => `${shown(issue.input)}; allowed: a text of 1 to ${max} characters` })
    .min(1, { error: `is empty; allowed: a text of 1 to ${max} characters` })
    .max(max, { error: `is too long; allowed: a text of 1 to ${max} characters` })

const unseen = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u
const codeOf = (text: string): string => {
  const at = unseen.exec(text)?.[0].codePointAt(0) ?? 0
  return `U+${at.toString(16).toUpperCase().padStart(4, '0')}`
}

/**
 * One line of text of 1 to `max` characters that is read as it stands: not of spaces alone, and without line feeds, control characters or
 * characters nobody sees that turn or part the writing. For names and whatever is printed for a reader; notes are `text`.
 */
export const line = (max = 200) => {
  const say = `allowed: one line of 1 to ${max} characters`
  return text(max)
    .refine((t) => t.trim() !== '', { error: `holds nothing but spaces; ${say}` })
    .refine((t) => !unseen.test(t), {
      error: (issue) =>
        `holds the character ${codeOf(String(issue.input))}, which nobody sees or which breaks the line; ${say}, without such characters`,
    })
}

/** ISO calendar date, e.g. 2026-11-25. */
export const isoDate = () => z.iso.date({ error: (issue) => `${shown(issue.input)}; allowed: a date as YYYY-MM-DD` })

/** ISO instant in UTC, e.g. 2026-11-25T08:30:00Z. */
export const isoInstant = () =>
  z.iso.datetime({ error: (issue) => `${shown(issue.input)}; allowed: an instant as YYYY-MM-DDThh:mm:ssZ` })

/** One of a few words. */
export const oneOf = <const T extends readonly [string, ...string[]]>(words: T) =>
  z.enum(words, { error: (issue) => `${shown(issue.input)}; allowed: one of ${words.join(', ')}` })

/** A list of `min` to `max` items. */
export const list = <T extends z.ZodType>(item: T, { min = 0, max = 1000 }: { min?: number; max?: number } = {}) => {
  const say = `allowed: a list of ${min} to ${max} items`
  return z
    .array(item, { error: (issue) => `${shown(issue.input)}; ${say}` })
    .min(min, { error: (issue) => `has ${(issue.input as unknown[]).length} items; ${say}` })
    .max(max, { error: (issue) => `has ${(issue.input as unknown[]).length} items; ${say}` })
}
