import { z } from 'zod'

/** A whole number written in a query. */
export const whole = (min: number, max: number) =>
  z
    .string()
    .regex(/^\d{1,12}$/, {
      error: (i) => `is ${JSON.stringify(i.input)}; allowed: a whole number from ${min} to ${max}`,
    })
    .transform(Number)
    .refine((n) => n >= min && n <= max, { error: `is out of range; allowed: a whole number from ${min} to ${max}` })

/** A number written in a query, with or without decimals. */
export const decimal = (min: number, max: number, of: string) =>
  z
    .string()
    .regex(/^\d{1,9}(\.\d{1,9})?$/, {
      error: (i) => `is ${JSON.stringify(i.input)}; allowed: ${of} from ${min} to ${max}`,
    })
    .transform(Number)
    .refine((n) => n >= min && n <= max, { error: `is out of range; allowed: ${of} from ${min} to ${max}` })

export const words = (max = 200) => z.string().max(max, { error: `is too long; allowed: up to ${max} characters` })

/** The fields of a query that were given: what was not is left out rather than undefined. */
export const given = (query: object): Record<string, never> =>
  Object.fromEntries(Object.entries(query).filter(([, value]) => value !== undefined)) as Record<string, never>
