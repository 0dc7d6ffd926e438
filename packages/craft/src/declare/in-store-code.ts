import { z } from 'zod'
import { oneOf, quantity } from '../schema.ts'
import { gs1CheckDigit } from './gtin.ts'

const PREFIXES = ['02', '20', '21', '22', '23', '24', '25', '26', '27', '28', '29'] as const
/** Digits between the prefix and the check digit of a number of thirteen. */
const INNER_DIGITS = 10
/** Lengths of the field of the price or weight that national layouts use. */
const VALUE_DIGITS = [4, 5, 6] as const

/** A number of thirteen digits for use inside a shop or a country, with the price or the weight of the pack in it. */
export const inStoreInput = z
  .strictObject({
    /** Which of these stands for what is the rule of the country or the shop. */
    prefix: oneOf(PREFIXES),
    /** Number of the item in the shop's or the country's list. */
    item: z
      .string()
      .regex(/^\d{1,6}$/, { error: 'is not 1 to 6 digits; allowed: 1 to 6 digits, zeros in front counted' }),
    of: oneOf(['price', 'weight']),
    /** Price in the money of the place, or weight in kg. */
    value: quantity('money or kg', { min: 0, max: 999_999 }),
    /** Digits of the field, and how many of them stand behind the implied point. */
    digits: z.union([z.literal(4), z.literal(5), z.literal(6)], {
      error: `is none of ${VALUE_DIGITS.join(', ')}; allowed: ${VALUE_DIGITS.join(', ')}`,
    }),
    decimals: z.int({ error: 'is not a whole number; allowed: 0 to 3' }).min(0).max(3),
    /** Verifier digit of the price or weight, where the maker's scheme has one. */
    verifier: z.string().regex(/^\d$/, { error: 'is not one digit; allowed: one digit' }).optional(),
  })
  .superRefine((i, ctx) => {
    const inner = i.item.length + i.digits + (i.verifier === undefined ? 0 : 1)
    if (inner !== INNER_DIGITS)
      ctx.addIssue({
        code: 'custom',
        path: ['item'],
        message: `makes ${inner} digits with the field${i.verifier === undefined ? '' : ' and its verifier'}; allowed: ${INNER_DIGITS} together`,
      })
    const units = i.value * 10 ** i.decimals
    if (Math.abs(units - Math.round(units)) > 1e-6)
      ctx.addIssue({
        code: 'custom',
        path: ['value'],
        message: `is ${i.value}, which ${i.decimals} decimals cannot hold; allowed: a value of at most ${i.decimals} decimals`,
      })
    if (Math.round(units) >= 10 ** i.digits)
      ctx.addIssue({
        code: 'custom',
        path: ['value'],
        message: `is ${i.value}, which ${i.digits} digits with ${i.decimals} decimals cannot hold; allowed: under ${10 ** (i.digits - i.decimals)}`,
      })
  })

export const inStoreOutput = z.strictObject({
  /** The thirteen digits. */
  ean13: z.string(),
  checkDigit: z.int(),
  /** What each part is, and whether a country or a shop lays down what it means. */
  parts: z.array(
    z.strictObject({ what: z.string(), digits: z.string(), laidDownBy: z.enum(['GS1', 'country or shop']) }),
  ),
})

/**
 * Restricted circulation number with a price or a weight: prefix, item, verifier where there is one, value, and the GS1 check digit over all.
 *
 * @source GS1 General Specifications, 2.1.14.2 (structures of variable measure numbers, as read) and 7.9 (check digit)
 */
export function inStoreCode(i: z.infer<typeof inStoreInput>): z.infer<typeof inStoreOutput> {
  const value = String(Math.round(i.value * 10 ** i.decimals)).padStart(i.digits, '0')
  const body = `${i.prefix}${i.item}${i.verifier ?? ''}${value}`
  const checkDigit = gs1CheckDigit(body)
  const national = (what: string, digits: string) => ({ what, digits, laidDownBy: 'country or shop' as const })
  return {
    ean13: `${body}${checkDigit}`,
    checkDigit,
    parts: [
      { what: 'prefix of restricted circulation', digits: i.prefix, laidDownBy: 'GS1' },
      national('item', i.item),
      ...(i.verifier === undefined ? [] : [national(`verifier of the ${i.of}, as given`, i.verifier)]),
      national(`${i.of}, ${i.decimals} decimals`, value),
      { what: 'check digit', digits: String(checkDigit), laidDownBy: 'GS1' },
    ],
  }
}
