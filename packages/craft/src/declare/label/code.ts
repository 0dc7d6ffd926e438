import { InvalidInput } from '../../calculation.ts'
import type { dates } from '../dates.ts'
import { gs1, gs1Input } from '../gs1.ts'
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
  // A number of variable measure goes with the weight of this pack.
  const variable = pack.gtin?.length === 14 && pack.gtin.startsWith('9') && pack.netG !== undefined
  const made = gs1(
    parsed(gs1Input, {
      ...(variable ? { netKg: pack.netG! / 1000 } : {}),
      ...(pack.gtin === undefined ? {} : { gtin: pack.gtin }),
      ...(lot === undefined ? {} : { lot }),
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
  return { kind, text: gtin.slice(1), encoded: gtin.slice(1) }
}
