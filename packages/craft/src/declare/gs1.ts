import { z } from 'zod'
import { isoDate, quantity } from '../schema.ts'
import { amountToPay, dateField, netWeight, openField, yearFault, type Element } from './gs1-fields.ts'
import { inStoreCode, inStoreInput, inStoreOutput } from './in-store-code.ts'
import { readGtin } from './gtin.ts'

/** Characters a GS1 text field may hold (General Specifications, figure 7.11-1). */
const LOT = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]{1,20}$/
const textField = (what: string) =>
  z.string().regex(LOT, {
    error: `is not a ${what} for a bar code; allowed: 1 to 20 letters, digits and ! " % & ' ( ) * + , - . / : ; < = > ? _`,
  })
const gtinText = () => z.string({ error: 'is not a text; allowed: 8, 12, 13 or 14 digits' })

type Fields = {
  readonly gtin?: string | undefined
  readonly contentGtin?: string | undefined
  readonly withoutCheckDigit?: boolean | undefined
  readonly count?: number | undefined
  readonly producedOn?: string | undefined
  readonly packedOn?: string | undefined
  readonly bestBefore?: string | undefined
  readonly sellBy?: string | undefined
  readonly useBy?: string | undefined
  readonly netKg?: number | undefined
  readonly netLb?: number | undefined
  readonly price?: number | undefined
  readonly inStore?: unknown
}

const dateNames = ['producedOn', 'packedOn', 'bestBefore', 'sellBy', 'useBy'] as const

const numberOf = (i: Fields, path: 'gtin' | 'contentGtin') =>
  i[path] === undefined ? undefined : readGtin(i[path], i.withoutCheckDigit === true)

const weightOf = ({ netKg, netLb }: Fields) =>
  netKg !== undefined ? netWeight('310', netKg) : netLb !== undefined ? netWeight('320', netLb) : undefined

/** What a field cannot hold as it is given. */
function unheld(i: Fields): { path: string; message: string }[] {
  const weight = weightOf(i)
  const price = i.price === undefined ? undefined : amountToPay(i.price)
  return [
    ...(weight && !weight.ok ? [{ path: i.netKg === undefined ? 'netLb' : 'netKg', message: weight.message }] : []),
    ...(price && !price.ok ? [{ path: 'price', message: price.message }] : []),
    ...dateNames.flatMap((path) => {
      const fault = i[path] === undefined ? undefined : yearFault(i[path])
      return fault === undefined ? [] : [{ path, message: fault }]
    }),
    ...(i.withoutCheckDigit === true && i.gtin === undefined && i.contentGtin === undefined
      ? [{ path: 'withoutCheckDigit', message: 'stands without a number; allowed: with gtin or contentGtin' }]
      : []),
  ]
}

/** What no code can hold together, each with the field at fault. */
function clashes(i: Fields): { path: string; message: string }[] {
  const gtin = numberOf(i, 'gtin')
  const variable = gtin?.ok === true && gtin.gtin14.startsWith('9')
  const after = (path: 'producedOn' | 'packedOn', later: 'packedOn' | 'bestBefore' | 'sellBy' | 'useBy') => {
    const [a, b] = [i[path], i[later]]
    return a !== undefined && b !== undefined && a > b
      ? [{ path, message: `is ${a}, after ${later} ${b}; allowed: at most that` }]
      : []
  }
  const one = (path: 'useBy' | 'netLb' | 'contentGtin', other: keyof Fields) =>
    i[path] !== undefined && i[other] !== undefined
      ? [{ path, message: `stands beside ${other}; allowed: one of the two` }]
      : []
  return [
    ...one('useBy', 'bestBefore'),
    ...one('netLb', 'netKg'),
    ...one('contentGtin', 'gtin'),
    ...(i.contentGtin !== undefined && i.count === undefined
      ? [
          {
            path: 'count',
            message: 'is missing; allowed: how many of contentGtin there are (identifier 02 goes with 37)',
          },
        ]
      : []),
    ...(i.count !== undefined && i.contentGtin === undefined
      ? [{ path: 'count', message: 'stands without contentGtin; allowed: with it (identifier 37 goes with 02)' }]
      : []),
    ...(i.price !== undefined && !variable
      ? [
          {
            path: 'price',
            message:
              'stands without a trade item number of variable measure; allowed: with a gtin of 14 digits that begins with 9',
          },
        ]
      : []),
    ...after('producedOn', 'packedOn'),
    ...(['bestBefore', 'sellBy', 'useBy'] as const).flatMap((d) => [
      ...after('producedOn', d),
      ...after('packedOn', d),
    ]),
  ]
}

export const gs1Input = z
  .strictObject({
    gtin: gtinText().optional(),
    /** Trade item number of what a case holds, with `count`, in place of `gtin`. */
    contentGtin: gtinText().optional(),
    /** True where the number is given without its check digit, which is then worked out. */
    withoutCheckDigit: z.boolean({ error: 'is not a yes or no; allowed: true or false' }).optional(),
    count: z
      .int({ error: 'is not a whole number; allowed: 1 to 99999999' })
      .min(1, { error: 'is below 1; allowed: 1 to 99999999' })
      .max(99_999_999, { error: 'is too large; allowed: 1 to 99999999' })
      .optional(),
    lot: textField('lot number').optional(),
    serial: textField('serial number').optional(),
    producedOn: isoDate().optional(),
    packedOn: isoDate().optional(),
    bestBefore: isoDate().optional(),
    sellBy: isoDate().optional(),
    /** Use-by date, in place of best before. */
    useBy: isoDate().optional(),
    netKg: quantity('kg', { above: 0, max: 999_999 }).optional(),
    netLb: quantity('lb', { above: 0, max: 999_999 }).optional(),
    /** Amount to pay, in the money of the place, at most two decimals; only with a number of variable measure. */
    price: quantity('money', { min: 0, max: 9_999_999 }).optional(),
    /** Thirteen digits for use in a shop or a country, with the price or weight in them. */
    inStore: inStoreInput.optional(),
  })
  .superRefine((input, ctx) => {
    for (const path of ['gtin', 'contentGtin'] as const) {
      const read = numberOf(input, path)
      if (read && !read.ok) ctx.addIssue({ code: 'custom', path: [path], message: read.message })
    }
    if (Object.values(input).every((v) => v === undefined))
      ctx.addIssue({
        code: 'custom',
        message: 'holds nothing to encode; allowed: at least one of gtin, lot, a date, a weight, inStore',
      })
    for (const { path, message } of [...unheld(input), ...clashes(input)])
      ctx.addIssue({ code: 'custom', path: [path], message })
  })

export const gs1Output = z.strictObject({
  /** With identifiers in round brackets, as printed under a bar code. */
  elementString: z.string(),
  /** As encoded: fields of open length that are not last end with the separator (ASCII 29). */
  encoded: z.string(),
  checkDigit: z.int().optional(),
  gtin14: z.string().optional(),
  inStore: inStoreOutput.optional(),
  warnings: z.array(z.string()),
})

/**
 * GS1 element string of a pack: trade item number, net weight, dates, then what is of open length with the lot last; and, apart from it, a
 * number of thirteen digits with price or weight.
 *
 * @throws nothing: the schema has verified the check digits, the characters, the dates, that each field holds its value exactly, and what
 *   goes together
 * @source GS1 General Specifications, application identifiers 01, 02, 10, 11, 13, 15, 16, 17, 21, 37, 310n, 320n, 392n
 */
export function gs1(input: z.infer<typeof gs1Input>): z.infer<typeof gs1Output> {
  const read = numberOf(input, 'gtin') ?? numberOf(input, 'contentGtin')
  const gtin = read?.ok ? read : undefined
  const weight = weightOf(input)
  const price = input.price === undefined ? undefined : amountToPay(input.price)
  const elements: Element[] = [
    ...(gtin ? [{ ai: input.gtin === undefined ? '02' : '01', data: gtin.gtin14, open: false }] : []),
    ...(weight?.ok ? [weight.element] : []),
    ...dateField('11', input.producedOn),
    ...dateField('13', input.packedOn),
    ...dateField('15', input.bestBefore),
    ...dateField('16', input.sellBy),
    ...dateField('17', input.useBy),
    ...openField('37', input.count === undefined ? undefined : String(input.count)),
    ...(price?.ok ? [price.element] : []),
    ...openField('21', input.serial),
    ...openField('10', input.lot),
  ]
  const variable = gtin?.gtin14.startsWith('9') === true
  return {
    elementString: elements.map((e) => `(${e.ai})${e.data}`).join(''),
    encoded: elements
      .map((e, i) => e.ai + e.data + (e.open && i < elements.length - 1 ? String.fromCodePoint(29) : ''))
      .join(''),
    ...(gtin ? { checkDigit: gtin.checkDigit, gtin14: gtin.gtin14 } : {}),
    ...(input.inStore === undefined ? {} : { inStore: inStoreCode(input.inStore) }),
    warnings: [
      ...(gtin?.completed ? [`the number came without its check digit and was completed to ${gtin.gtin14}`] : []),
      ...(gtin && variable && !weight
        ? ['a number that begins with 9 is of variable measure: the net weight goes with it']
        : []),
      ...(gtin && input.gtin !== undefined && !variable && weight
        ? ['the net weight in the code goes with a number of variable measure, which begins with 9']
        : []),
      ...(input.inStore === undefined
        ? []
        : [
            'what prefix, item, price or weight and verifier mean is laid down by the country or the shop; ask there before printing',
          ]),
    ],
  }
}
