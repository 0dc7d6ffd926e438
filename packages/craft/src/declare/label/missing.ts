import { block } from './blocks.ts'
import { asksServing } from '../nutrition-schema.ts'
import { tellsBatches } from './lot-code.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

/** What the label cannot be without and nobody has said. */
export const missing = (input: LabelInput, lot: string | undefined): LabelBlock[] => {
  const { pack, product, place } = input
  const ask = (absent: boolean, id: string, what: string, settle: string) => (absent ? [block(id, what, settle)] : [])
  return [
    ...ask(pack.netG === undefined, 'net', 'The net weight is not given', 'enter the net weight'),
    ...ask(
      pack.business === undefined,
      'business',
      'No responsible business stands on it',
      'enter the business, name and address',
    ),
    ...ask(
      pack.shelfLifeDays === undefined || pack.storage === undefined,
      'dates',
      'The shelf life or the storage is not given',
      'enter the shelf life and how it is kept',
    ),
    ...ask(
      lot === undefined && input.batch !== undefined,
      'lot',
      'There is no lot code',
      'enter the lot code pattern, e.g. {batch}',
    ),
    ...ask(
      pack.lotPattern === undefined,
      'lot-pattern',
      'There is no pattern for the lot code',
      'enter the lot code pattern, e.g. {batch}',
    ),
    ...ask(
      pack.lotPattern !== undefined && !tellsBatches(pack.lotPattern),
      'lot-pattern',
      `The lot code pattern ${JSON.stringify(pack.lotPattern ?? '')} tells no batch from the next`,
      'put {batch} into the lot code pattern, or {recipe} with the whole day: {recipe}-{YY}{DDD}',
    ),
    ...ask(
      product.cased === true && pack.casing === undefined,
      'casing',
      'Nobody says whether the casing can be eaten',
      'choose under casing whether it can be eaten',
    ),
    ...ask(
      asksServing.includes(place) && pack.servingG === undefined,
      'serving',
      'The serving of the nutrition panel is not given',
      'enter the serving',
    ),
    ...ask(
      pack.per100g !== undefined && Object.keys(pack.per100g).length > 0 && pack.per100gSource === undefined,
      'analysis-source',
      'Nobody says where the analysis per 100 g is from',
      'enter where the analysis is from: laboratory and report',
    ),
    ...ask(
      pack.code !== undefined && pack.code !== 'none' && pack.gtin === undefined && pack.inStore === undefined,
      'gtin',
      'The bar code has no trade item number',
      'enter the trade item number (GTIN), or choose none as bar code',
    ),
    // Not a fault of data: whether safety asks for directions is for whoever knows the product.
    ...(place === 'AU-NZ' && !product.readyToEat && (pack.handling ?? []).length === 0
      ? [
          block(
            'directions',
            'Not ready to eat, and no directions for its use stand on it (Food Standards Code, Standard 1.2.6: where health or safety asks for them)',
            'enter an own line on handling: how it is cooked through, or say why safety asks for none',
            'person',
          ),
        ]
      : []),
  ]
}
