import { labelLanguages, suggestedLanguages, type LabelLanguage } from '@forcemeat/craft/declare/label/languages'
import { labelParts, type LabelPack, type SupplierStatement } from '@forcemeat/craft/declare/label/pack'
import { compact, type Reader } from '../../state/reader.ts'
import type { Values } from '../../state/form.ts'

/** Fields of the pack that are plain figures, by name. */
const numbers = [
  'netG',
  'shelfLifeDays',
  'storageC',
  'servingG',
  'fatLossPct',
  'largestSurfaceCm2',
  'availableSurfaceCm2',
  'widthMm',
  'heightMm',
  'marginMm',
  'xHeightMm',
  'moduleMm',
] as const
const words = [
  'name',
  'gtin',
  'code',
  'lotPattern',
  'packedOn',
  'validation',
  'storage',
  'frozenOn',
  'productClass',
  'business',
  'approval',
  'origin',
  'per100gSource',
  'additiveBy',
  'layout',
  'languageArrangement',
  'panel',
  'panelDisplay',
] as const
const flags = [
  'highlyPerishable',
  'stableUnrefrigerated',
  'groupSpices',
  'defrosted',
  'looksLikeCut',
  'formedFromPieces',
  'otherAnimalProtein',
  'protectiveAtmosphere',
] as const
/** Figures of an analysis, per 100 g. */
export const analysed = [
  ['fatG', 'Fat', 'g'],
  ['saturatedG', 'Saturated fat', 'g'],
  ['transG', 'Trans fat', 'g'],
  ['carbohydrateG', 'Carbohydrate', 'g'],
  ['sugarsG', 'Sugars', 'g'],
  ['addedSugarsG', 'Added sugars', 'g'],
  ['fibreG', 'Fibre', 'g'],
  ['proteinG', 'Protein', 'g'],
  ['sodiumMg', 'Sodium', 'mg'],
  ['cholesterolMg', 'Cholesterol', 'mg'],
  ['vitaminDUg', 'Vitamin D', 'µg'],
  ['calciumMg', 'Calcium', 'mg'],
  ['ironMg', 'Iron', 'mg'],
  ['potassiumMg', 'Potassium', 'mg'],
] as const

const lines = (text: string | undefined): string[] =>
  (text ?? '')
    .split('\n')
    .map((l) => l.trim())
    .filter(Boolean)
const listed = (text: string | undefined): string[] =>
  (text ?? '')
    .split(',')
    .map((l) => l.trim())
    .filter((l) => l !== '' && l !== 'none')

/** Columns of a line of the suppliers' statements, parted by "|". */
export const statementColumns = 'material | supplier | allergens | document | own list | collagen %'

/** One line of the suppliers' statements; a fault where a column it needs is missing. */
function statementOf(line: string, reader: Reader): SupplierStatement | undefined {
  const [material = '', supplier = '', allergens = '', document = '', parts = '', collagen = ''] = line
    .split('|')
    .map((c) => c.trim())
  if (material === '' || document === '')
    return reader.fault('statements', `has ${JSON.stringify(line)}; allowed: ${statementColumns}`)
  const pct = collagen === '' ? undefined : Number(collagen.replace(',', '.'))
  if (Number.isNaN(pct))
    return reader.fault('statements', `has collagen ${JSON.stringify(collagen)}; allowed: a number`)
  return {
    material,
    // What is no allergen of the list is refused by the server, with the list.
    allergens: listed(allergens) as SupplierStatement['allergens'],
    document,
    ...(supplier === '' ? {} : { supplier }),
    ...(parts === '' ? {} : { parts: listed(parts).map((name) => ({ name })) }),
    ...(pct === undefined ? {} : { collagenPct: pct }),
  }
}

/** Languages chosen, each once, in their order. */
export const languagesTyped = (values: Values): LabelLanguage[] => [
  ...new Set([1, 2, 3, 4].flatMap((i) => labelLanguages.find((l) => l === values[`lang${i}`]) ?? [])),
]

/** Languages with the maker's names and words; English alone, which nothing needs to be said of, is left out. */
function languagesOf(values: Values): LabelPack['languages'] {
  const chosen = languagesTyped(values)
  if (chosen.length === 0 || (chosen.length === 1 && chosen[0] === 'en')) return undefined
  return chosen.map((language) => {
    const prefix = `word.${language}.`
    const words = Object.entries(values).flatMap(([k, is]) =>
      k.startsWith(prefix) && is.trim() !== '' ? [{ of: k.slice(prefix.length), is: is.trim() }] : [],
    )
    const name = (values[`lang.${language}.name`] ?? '').trim()
    return { language, ...(name === '' ? {} : { name }), ...(words.length === 0 ? {} : { words }) }
  })
}

/** Languages a label of a place starts with. */
export const startingLanguages = (place: string): Values =>
  Object.fromEntries((suggestedLanguages[place] ?? ['en']).map((l, i) => [`lang${i + 1}`, l]))

/** The number with price or weight as typed; nothing where no prefix is chosen. */
function inStoreOf(values: Values, reader: Reader): LabelPack['inStore'] {
  if (values['code'] !== 'ean-13' || !values['inStore.prefix']) return undefined
  return compact({
    prefix: values['inStore.prefix'],
    item: (values['inStore.item'] ?? '').trim(),
    of: values['inStore.of'] || 'weight',
    digits: Number(values['inStore.digits'] || '5'),
    decimals: Number(values['inStore.decimals'] || '3'),
    price: values['inStore.of'] === 'price' ? reader.number('inStore.price') : undefined,
    verifier: reader.text('inStore.verifier'),
  }) as LabelPack['inStore']
}

/** How the place it is made in stands, as typed; nothing where nobody says. */
function premisesOf(values: Values, reader: Reader): LabelPack['premises'] {
  const route = values['premises.route']
  if (!route) return undefined
  return compact(
    route === 'inspected'
      ? { route, country: reader.text('premises.country'), roomMm: reader.number('premises.roomMm') }
      : { route, because: reader.text('premises.because') },
  ) as LabelPack['premises']
}

const orderTyped = (typed: string | undefined): LabelPack['order'] => {
  const order = (typed ?? '').split(',').flatMap((p) => labelParts.find((known) => known === p) ?? [])
  // The usual order is not said.
  return order.every((p, i) => p === labelParts[i]) ? undefined : order
}

/** The pack as typed; faults go to the reader. */
export function packOf(values: Values, reader: Reader): LabelPack {
  const per100g = compact(Object.fromEntries(analysed.map(([f]) => [f, reader.number(`per100g.${f}`)])))
  const statements = lines(values['statements']).flatMap((l) => statementOf(l, reader) ?? [])
  const handling = lines(values['handling'])
  return compact({
    ...Object.fromEntries(words.map((f) => [f, reader.text(f)])),
    ...Object.fromEntries(numbers.map((f) => [f, reader.number(f)])),
    ...Object.fromEntries(flags.map((f) => [f, values[f] ? values[f] === 'yes' : undefined])),
    casing: values['casing']
      ? compact({ edible: values['casing'] === 'edible', name: reader.text('casingName') })
      : undefined,
    handling: handling.length > 0 ? handling : undefined,
    statements: statements.length > 0 ? statements : undefined,
    per100g: Object.keys(per100g).length > 0 ? per100g : undefined,
    inStore: inStoreOf(values, reader),
    premises: premisesOf(values, reader),
    languages: languagesOf(values),
    order: orderTyped(values['order']),
  }) as LabelPack
}

/** A pack as the texts of the form, for a label that was approved before. */
export function textOf(pack: LabelPack): Values {
  const plain = Object.fromEntries(
    [...words, ...numbers].flatMap((f) => (pack[f] === undefined ? [] : [[f, String(pack[f])]])),
  )
  const told = Object.fromEntries(flags.flatMap((f) => (pack[f] === undefined ? [] : [[f, pack[f] ? 'yes' : 'no']])))
  const analysis = Object.fromEntries(
    analysed.flatMap(([f]) => (pack.per100g?.[f] === undefined ? [] : [[`per100g.${f}`, String(pack.per100g[f])]])),
  )
  const statements = (pack.statements ?? []).map((s) =>
    [
      s.material,
      s.supplier ?? '',
      s.allergens.join(', ') || 'none',
      s.document,
      (s.parts ?? []).map((p) => p.name).join(', '),
      s.collagenPct === undefined ? '' : String(s.collagenPct),
    ].join(' | '),
  )
  return {
    ...plain,
    ...told,
    ...analysis,
    ...(pack.casing ? { casing: pack.casing.edible ? 'edible' : 'not edible' } : {}),
    ...(pack.casing?.name === undefined ? {} : { casingName: pack.casing.name }),
    ...(pack.handling ? { handling: pack.handling.join('\n') } : {}),
    ...(statements.length > 0 ? { statements: statements.join('\n') } : {}),
    ...(pack.order ? { order: pack.order.join(',') } : {}),
    ...Object.fromEntries(Object.entries(pack.premises ?? {}).map(([k, v]) => [`premises.${k}`, String(v)])),
    ...Object.fromEntries(Object.entries(pack.inStore ?? {}).map(([k, v]) => [`inStore.${k}`, String(v)])),
    ...Object.fromEntries(
      (pack.languages ?? [{ language: 'en' as const }]).flatMap((l, i) => [
        [`lang${i + 1}`, l.language],
        ...('name' in l && l.name !== undefined ? [[`lang.${l.language}.name`, l.name]] : []),
        ...('words' in l && l.words ? l.words.map((w) => [`word.${l.language}.${w.of}`, w.is]) : []),
      ]),
    ),
  }
}
