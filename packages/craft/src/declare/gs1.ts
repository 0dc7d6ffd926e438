import { z } from 'zod'
import { isoDate, quantity } from '../schema.ts'
import { readGtin } from './gtin.ts'

/** Characters a GS1 text field may hold (General Specifications, figure 7.11-1). */
const LOT = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]{1,20}$/

export const gs1Input = z
  .strictObject({
    gtin: z.string({ error: 'is not a text; allowed: 8, 12, 13 or 14 digits' }).optional(),
    lot: z
      .string()
      .regex(LOT, {
        error:
          'is not a lot number for a bar code; allowed: 1 to 20 letters, digits and ! " % & \' ( ) * + , - . / : ; < = > ? _',
      })
      .optional(),
    bestBefore: isoDate().optional(),
    /** Use-by date, in place of best before. */
    useBy: isoDate().optional(),
    netKg: quantity('kg', { above: 0, max: 999_999 }).optional(),
  })
  .superRefine((input, ctx) => {
    if (input.gtin !== undefined) {
      const read = readGtin(input.gtin)
      if (!read.ok) ctx.addIssue({ code: 'custom', path: ['gtin'], message: read.message })
    }
    if (Object.values(input).every((v) => v === undefined))
      ctx.addIssue({
        code: 'custom',
        message: 'holds nothing to encode; allowed: at least one of gtin, lot, bestBefore, useBy, netKg',
      })
    if (input.bestBefore !== undefined && input.useBy !== undefined)
      ctx.addIssue({ code: 'custom', path: ['useBy'], message: 'stands beside bestBefore; allowed: one of the two' })
  })

export const gs1Output = z.strictObject({
  /** With identifiers in round brackets, as printed under a bar code. */
  elementString: z.string(),
  /** As encoded: fields of open length that are not last end with the separator (ASCII 29). */
  encoded: z.string(),
  checkDigit: z.int().optional(),
  gtin14: z.string().optional(),
  warnings: z.array(z.string()),
})

type Element = { readonly ai: string; readonly data: string; readonly open: boolean }

const yymmdd = (iso: string): string => iso.slice(2, 4) + iso.slice(5, 7) + iso.slice(8, 10)

/** Net weight as AI 310n: six digits with n decimals, the most decimals that fit, three at most. */
function netWeight(netKg: number): { element: Element; rounded: boolean } {
  const decimals = netKg < 1000 ? 3 : netKg < 10_000 ? 2 : netKg < 100_000 ? 1 : 0
  const units = Math.round(netKg * 10 ** decimals)
  const exact = Math.abs(units / 10 ** decimals - netKg) < 1e-9
  return { element: { ai: `310${decimals}`, data: String(units).padStart(6, '0'), open: false }, rounded: !exact }
}

/**
 * GS1 element string of a pack: trade item number, net weight, date and lot, fields of fixed length first.
 *
 * @throws nothing: the schema has verified the check digit, the characters and the dates
 * @source GS1 General Specifications, application identifiers 01, 10, 15, 17, 310n
 */
export function gs1(input: z.infer<typeof gs1Input>): z.infer<typeof gs1Output> {
  const read = input.gtin === undefined ? undefined : readGtin(input.gtin)
  const gtin = read?.ok ? read : undefined
  const weight = input.netKg === undefined ? undefined : netWeight(input.netKg)
  const elements: Element[] = [
    ...(gtin ? [{ ai: '01', data: gtin.gtin14, open: false }] : []),
    ...(weight ? [weight.element] : []),
    ...(input.bestBefore ? [{ ai: '15', data: yymmdd(input.bestBefore), open: false }] : []),
    ...(input.useBy ? [{ ai: '17', data: yymmdd(input.useBy), open: false }] : []),
    ...(input.lot ? [{ ai: '10', data: input.lot, open: true }] : []),
  ]
  return {
    elementString: elements.map((e) => `(${e.ai})${e.data}`).join(''),
    encoded: elements
      .map((e, i) => e.ai + e.data + (e.open && i < elements.length - 1 ? String.fromCodePoint(29) : ''))
      .join(''),
    ...(gtin ? { checkDigit: gtin.checkDigit, gtin14: gtin.gtin14 } : {}),
    warnings: [
      ...(gtin?.completed ? [`the number came without its check digit and was completed to ${gtin.gtin14}`] : []),
      ...(weight?.rounded ? ['the net weight was rounded to what the field can hold'] : []),
    ],
  }
}
