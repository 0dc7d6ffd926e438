import { InvalidInput } from '../../calculation.ts'
import type { dates } from '../dates.ts'
import { gs1, gs1Input } from '../gs1.ts'
import { netWeight } from '../gs1-fields.ts'
import { inStoreCode, inStoreInput } from '../in-store-code.ts'
import { parsed } from './parsed.ts'
import type { LabelInput, LabelOutput } from './schema.ts'

/** The number of a shop or a country, with the price or the weight of this pack in it. */
function inStoreOf({ inStore, netG }: LabelInput['pack']) {
  const { price, ...rest } = inStore!
  const value = rest.of === 'price' ? price : netG === undefined ? undefined : netG / 1000
  if (value === undefined)
    throw new InvalidInput([
      { path: 'pack.netG', message: 'is missing; allowed: the net weight, which the number of the code holds' },
    ])
  const { ean13 } = inStoreCode(parsed(inStoreInput, { ...rest, value }))
  return { kind: 'ean-13' as const, text: ean13, encoded: ean13 }
}

/** Characters of a lot in a GS1 code, without the brackets that set off its identifiers in print (General Specifications, figure 7.11-1). */
const LOT = /^[!"%&'*+,\-./0-9:;<=>?A-Z_a-z]{1,20}$/

/** @throws InvalidInput where the lot code cannot stand in a bar code */
function lotHolds(pattern: string | undefined, lot: string): void {
  if (LOT.test(lot)) return
  throw new InvalidInput([
    {
      path: 'pack.lotPattern',
      message: `is ${JSON.stringify(pattern)}, which makes the lot code ${JSON.stringify(lot)}; allowed in this bar code: 1 to 20 letters without accents, digits and ! " % & ' * + , - . / : ; < = > ? _, no space and no brackets`,
    },
  ])
}

/**
 * Data of the bar code of a pack: its number, its date, its lot; or the number of a shop with price or weight.
 *
 * @throws InvalidInput naming the field of the pack
 */
export function codeOf(
  pack: LabelInput['pack'],
  lot: string | undefined,
  dated: ReturnType<typeof dates> | undefined,
): LabelOutput['code'] {
  const kind = pack.code ?? 'none'
  if (kind === 'none') return undefined
  if (kind === 'ean-13' && pack.inStore !== undefined) return inStoreOf(pack)
  if (lot !== undefined && kind !== 'ean-13') lotHolds(pack.lotPattern, lot)
  // A number of variable measure goes with the weight of this pack.
  const variable = pack.gtin?.length === 14 && pack.gtin.startsWith('9') && pack.netG !== undefined
  const weight = variable ? netWeight('310', pack.netG! / 1000) : undefined
  if (weight && !weight.ok)
    throw new InvalidInput([
      { path: 'pack.netG', message: `is ${pack.netG}; in kg, as the bar code holds it, it ${weight.message}` },
    ])
  const made = gs1(
    parsed(gs1Input, {
      ...(variable ? { netKg: pack.netG! / 1000 } : {}),
      ...(pack.gtin === undefined ? {} : { gtin: pack.gtin }),
      ...(lot === undefined || kind === 'ean-13' ? {} : { lot }),
      ...(dated === undefined ? {} : { [dated.kind === 'use by' ? 'useBy' : 'bestBefore']: dated.date }),
    }),
  )
  if (kind !== 'ean-13') return { kind, text: made.elementString, encoded: made.encoded }
  const gtin = made.gtin14
  if (gtin === undefined || !gtin.startsWith('0'))
    throw new InvalidInput([
      {
        path: 'pack.gtin',
        message: `is ${pack.gtin ?? 'missing'}; allowed for EAN-13: a trade item number of at most 13 digits`,
      },
    ])
  if (gtin.startsWith('000000'))
    throw new InvalidInput([
      {
        path: 'pack.gtin',
        message: `is ${pack.gtin ?? ''}, a GTIN-8, which stands in the EAN-8, a symbol of its own that is not drawn here; allowed for EAN-13: a GTIN of 12 or 13 digits`,
      },
    ])
  return { kind, text: gtin.slice(1), encoded: gtin.slice(1) }
}
