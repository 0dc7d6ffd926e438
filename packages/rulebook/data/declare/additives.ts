import type { LabellingRules } from '@forcemeat/craft/declare/label-rules'
import type { Mark } from '@forcemeat/craft/source'

const preservative = { default: 'preservative' }
const antioxidant = { default: 'antioxidant' }
const acidity = { default: 'acidity regulator' }
const stabiliser = { default: 'stabiliser', US: 'stabilizer' }

type Class = { readonly default: string; readonly US?: string }
const of = (cls: Class, name: string, number: string, mark: Mark = 'quoted') => ({
  class: cls,
  name: { default: name },
  number,
  mark,
})

/**
 * Class and number by the list of Regulation (EC) 1333/2008. The class is the one the additive serves as in a sausage; where it does
 * another work the maker names that. `from-memory`: the number was not seen in a copy of the list.
 */
export const additives: LabellingRules['additives'] = {
  'sodium-nitrite': of(preservative, 'sodium nitrite', '250'),
  'potassium-nitrite': of(preservative, 'potassium nitrite', '249'),
  'sodium-nitrate': of(preservative, 'sodium nitrate', '251'),
  'potassium-nitrate': of(preservative, 'potassium nitrate', '252'),
  'sodium-erythorbate': of(antioxidant, 'sodium erythorbate', '316'),
  'erythorbic-acid': of(antioxidant, 'erythorbic acid', '315'),
  'sodium-ascorbate': of(antioxidant, 'sodium ascorbate', '301'),
  'ascorbic-acid': of(antioxidant, 'ascorbic acid', '300'),
  'glucono-delta-lactone': of(acidity, 'glucono-delta-lactone', '575'),
  'citric-acid': of(acidity, 'citric acid', '330'),
  'sodium-citrate': of(acidity, 'sodium citrate', '331'),
  'lactic-acid': of(acidity, 'lactic acid', '270', 'from-memory'),
  'sodium-lactate': of(acidity, 'sodium lactate', '325'),
  'potassium-lactate': of(acidity, 'potassium lactate', '326'),
  'sodium-diacetate': of(preservative, 'sodium diacetate', '262'),
  'potassium-sorbate': of(preservative, 'potassium sorbate', '202'),
  triphosphate: of(stabiliser, 'sodium triphosphate', '451', 'from-memory'),
  diphosphate: of(stabiliser, 'sodium diphosphate', '450', 'from-memory'),
  polyphosphate: of(stabiliser, 'sodium polyphosphate', '452', 'from-memory'),
  'monosodium-glutamate': of({ default: 'flavour enhancer', US: 'flavor enhancer' }, 'monosodium glutamate', '621'),
  'sodium-bicarbonate': of({ default: 'raising agent' }, 'sodium bicarbonate', '500', 'from-memory'),
  carrageenan: of({ default: 'thickener' }, 'carrageenan', '407'),
}

export const additiveOf: LabellingRules['additiveOf'] = {
  ...Object.fromEntries(Object.keys(additives).map((id) => [id, id])),
  'sodium-erythorbate-monohydrate': 'sodium-erythorbate',
  'citric-acid-encapsulated': 'citric-acid',
  tripolyphosphate: 'triphosphate',
  'tetrasodium-diphosphate': 'diphosphate',
  'acid-diphosphate': 'diphosphate',
  'baking-soda': 'sodium-bicarbonate',
}

export const additiveOfAgent: LabellingRules['additiveOfAgent'] = {
  sodiumNitritePct: 'sodium-nitrite',
  potassiumNitritePct: 'potassium-nitrite',
  sodiumNitratePct: 'sodium-nitrate',
  potassiumNitratePct: 'potassium-nitrate',
  sodiumErythorbatePct: 'sodium-erythorbate',
  sodiumAscorbatePct: 'sodium-ascorbate',
  ascorbicAcidPct: 'ascorbic-acid',
  erythorbicAcidPct: 'erythorbic-acid',
}

/** Names of materials where the first words of the table's name do not serve. */
export const names: LabellingRules['names'] = {
  'dextrose-monohydrate': { default: 'dextrose' },
  'corn-starch': { default: 'maize starch', US: 'corn starch' },
  'liquid-smoke': { default: 'smoke flavouring', US: 'smoke flavoring' },
  'pork-rind': { default: 'pork rind', US: 'pork skin' },
  'pork-rind-boiled': { default: 'pork rind', US: 'pork skin' },
  'sugar-brown': { default: 'brown sugar' },
  'milk-whole': { default: 'milk' },
  'milk-skimmed': { default: 'skimmed milk', US: 'nonfat milk' },
  'milk-powder-skimmed': { default: 'skimmed milk powder', US: 'nonfat dry milk' },
  'milk-powder-whole': { default: 'whole milk powder', US: 'dry whole milk' },
  'wine-red': { default: 'red wine' },
  'wine-white': { default: 'white wine' },
  'wine-fortified': { default: 'fortified wine' },
  'vinegar-cider': { default: 'cider vinegar' },
  'vinegar-white': { default: 'spirit vinegar', US: 'distilled vinegar' },
  'vinegar-wine': { default: 'wine vinegar' },
  'mustard-prepared': { default: 'mustard' },
  'bread-white': { default: 'white bread' },
  'glucose-syrup': { default: 'glucose syrup', US: 'corn syrup' },
  'parsley-fresh': { default: 'parsley' },
  'salt-sea-grey': { default: 'salt' },
  'salt-table': { default: 'salt' },
  ice: { default: 'water' },
  'starter-culture': { default: 'starter culture', US: 'lactic acid starter culture' },
  bacon: { default: 'bacon' },
  'salt-pork': { default: 'salt pork' },
  'chicken-skin': { default: 'chicken skin' },
  'turkey-skin': { default: 'turkey skin' },
  'mutton-shoulder': { default: 'mutton' },
  'cheese-cheddar': { default: 'cheddar cheese' },
  'cheese-emmental': { default: 'Swiss-type cheese', US: 'Swiss cheese' },
  'cheese-parmesan': { default: 'hard cheese' },
  'cheese-mozzarella': { default: 'mozzarella cheese' },
  'cheese-processed': { default: 'processed cheese' },
  'cheese-feta': { default: 'brined cheese' },
  'cranberry-dried': { default: 'sweetened dried cranberry' },
  'olives-green': { default: 'green olives' },
  'soy-textured-hydrated': { default: 'hydrated textured soy protein' },
}

/** Cheeses whose make needs salt alone beside milk, cultures and enzymes; a fresh or a processed one is not among them. */
export const cheeses = ['cheese-cheddar', 'cheese-emmental', 'cheese-parmesan'] as const

/** Materials that are mixes: what is in them is for the supplier to say. */
export const compound: LabellingRules['compound'] = {
  categories: ['smoke', 'culture'],
  materials: [
    'curry-powder',
    'mustard-prepared',
    'soy-sauce',
    'cheese-processed',
    'rusk',
    'breadcrumb',
    'bread-white',
    'caseinate',
    'celery-powder-cultured',
    'citric-acid-encapsulated',
    'bacon',
    'salt-pork',
    'sauerkraut',
    'cranberry-dried',
    'olives-green',
    'anchovy',
    'soy-textured-hydrated',
    ...cheeses,
    'cheese-mozzarella',
    'cheese-feta',
  ],
}

/** Skin weighed in by itself is named as skin: it is meat only where it lies on the meat (Regulation (EU) 1169/2011, Annex VII B 17). */
export const notMeat: LabellingRules['notMeat'] = ['chicken-skin', 'turkey-skin']
