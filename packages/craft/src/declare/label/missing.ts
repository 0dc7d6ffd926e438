import { block } from './blocks.ts'
import { asksServing } from '../nutrition-schema.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

/** What the label cannot be without and nobody has said. */
export const missing = (input: LabelInput, lot: string | undefined): LabelBlock[] => {
  const { pack, product, place } = input
  const ask = (absent: boolean, id: string, what: string, settle: string) => (absent ? [block(id, what, settle)] : [])
  return [
    ...ask(pack.netG === undefined, 'net', 'The net weight is not given', 'enter netG'),
    ...ask(
      pack.business === undefined,
      'business',
      'No responsible business stands on it',
      'enter business: name and address',
    ),
    ...ask(
      pack.shelfLifeDays === undefined || pack.storage === undefined,
      'dates',
      'The shelf life or the storage is not given',
      'enter shelfLifeDays and storage',
    ),
    ...ask(lot === undefined && input.batch !== undefined, 'lot', 'There is no lot code', 'enter lotPattern'),
    ...ask(
      pack.lotPattern === undefined,
      'lot-pattern',
      'There is no pattern for the lot code',
      'enter lotPattern, e.g. {batch}',
    ),
    ...ask(
      product.cased === true && pack.casing === undefined,
      'casing',
      'Nobody says whether the casing can be eaten',
      'enter casing.edible',
    ),
    ...ask(
      asksServing.includes(place) && pack.servingG === undefined,
      'serving',
      'The serving of the nutrition panel is not given',
      'enter servingG',
    ),
    ...ask(
      pack.code !== undefined && pack.code !== 'none' && pack.gtin === undefined && pack.inStore === undefined,
      'gtin',
      'The bar code has no trade item number',
      'enter gtin, or code none',
    ),
    // Not a fault of data: whether safety asks for directions is for whoever knows the product.
    ...(place === 'AU-NZ' && !product.readyToEat && (pack.handling ?? []).length === 0
      ? [
          block(
            'directions',
            'Not ready to eat, and no directions for its use stand on it (Food Standards Code, Standard 1.2.6: where health or safety asks for them)',
            'enter handling: how it is cooked through, or say why safety asks for none',
            'person',
          ),
        ]
      : []),
  ]
}
