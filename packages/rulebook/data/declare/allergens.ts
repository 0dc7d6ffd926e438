import type { AllergenGroup, LabellingRules } from '@forcemeat/craft/declare/label-rules'
import type { Source } from '@forcemeat/craft/source'

export const allergenWords: LabellingRules['allergenWords'] = {
  wheat: {
    say: 'wheat',
    words: [
      'wheat',
      'wholewheat',
      'wheatgerm',
      'wheatmeal',
      'spelt',
      'durum',
      'khorasan',
      'triticale',
      'einkorn',
      'emmer',
    ],
    carriers: ['semolina', 'couscous', 'bulgh?ur', 'seitan', 'farro', 'bread ?crumb', 'rusk', 'bread'],
    not: [
      '(?:maize|corn|rice) semolina',
      '(?:gluten|wheat)[ -]free (?:bread ?crumb|rusk|bread)',
      '(?:maize|corn|rice|rye) (?:bread ?crumb|rusk|bread)',
    ],
  },
  'gluten-cereal': {
    say: 'gluten cereal',
    words: ['rye', 'barley', 'oat', 'oatmeal'],
    carriers: ['malt', 'beer', 'gluten'],
    not: ['(?:rice|maize|corn) malt', 'ginger beer'],
    nameKind: true,
  },
  crustacean: {
    say: 'crustacean',
    words: ['crustacean', 'shrimp', 'prawn', 'crab', 'lobster', 'crayfish', 'langoustine', 'krill'],
    carriers: ['scampi'],
    nameKind: true,
  },
  egg: {
    say: 'egg',
    words: ['egg'],
    carriers: ['mayonnaise', 'meringue', 'ovalbumin', 'lysozyme'],
    not: ['egg plant'],
  },
  fish: {
    say: 'fish',
    words: [
      'fish',
      'anchovy',
      'anchovie',
      'cod',
      'salmon',
      'tuna',
      'herring',
      'mackerel',
      'sardine',
      'haddock',
      'pollock',
      'trout',
      'hake',
    ],
    carriers: ['surimi'],
    nameKind: true,
  },
  peanut: { say: 'peanut', words: ['peanut'], carriers: ['ground ?nut'] },
  soy: { say: 'soy', words: ['soy', 'soya', 'soybean', 'soyabean'], carriers: ['tofu', 'edamame', 'miso', 'tempeh'] },
  milk: {
    say: 'milk',
    words: ['milk'],
    carriers: [
      'butter',
      'buttermilk',
      'cheese',
      'cheddar',
      'parmesan',
      'mozzarella',
      'emmental',
      'cream',
      'yogh?urt',
      'whey',
      'casein',
      'caseinate',
      'lactose',
      'ghee',
      'quark',
      'ricotta',
    ],
    not: [
      '(?:coconut|almond|oat|rice|soya?|pea) (?:milk|cream)',
      '(?:cocoa|shea|peanut|almond|nut|apple) butter',
      'butter bean',
      'cream of tartar',
      'cream sherry',
      'vegan (?:butter|cheese|cream)',
      'kokosmilch',
      'milchsäure\\p{L}*',
      'melkzuur\\p{L}*',
      'kokosmelk',
      'lait de coco',
      'leche de coco',
      'latte di cocco',
    ],
  },
  'tree-nut': {
    say: 'nut',
    words: ['almond', 'hazelnut', 'walnut', 'cashew', 'pecan', 'brazil nut', 'pistachio', 'macadamia', 'pine nut'],
    carriers: ['nut', 'marzipan', 'praline'],
    not: ['(?:tiger|kola|ground|coco|ham) nut', 'nuez moscada', 'noix de (?:muscade|coco|veau|jambon|porc|bœuf)'],
    nameKind: true,
  },
  celery: { say: 'celery', words: ['celery', 'celeriac'] },
  mustard: { say: 'mustard', words: ['mustard'] },
  sesame: { say: 'sesame', words: ['sesame'], carriers: ['tahini', 'halva'] },
  sulphite: {
    say: 'sulphites',
    words: ['sulphite', 'sulfite', 'sulphur dioxide', 'sulfur dioxide'],
    carriers: ['(?:meta)?bi?sul(?:ph|f)ite', 'E ?22[0-8]'],
  },
  lupin: { say: 'lupin', words: ['lupin', 'lupine'] },
  mollusc: {
    say: 'mollusc',
    words: ['mollusc', 'mussel', 'oyster', 'squid', 'clam', 'scallop', 'cuttlefish', 'octopus', 'whelk', 'cockle'],
    not: ['oyster mushroom'],
    nameKind: true,
  },
}

/** What one kind of a material holds and another does not: rusk with or without egg, fruit and vinegar with or without sulphites. */
export const mayBeWithout: LabellingRules['mayBeWithout'] = {
  rusk: ['egg'],
  'apple-dried': ['sulphite'],
  'wine-red': ['sulphite'],
  'wine-white': ['sulphite'],
  'wine-fortified': ['sulphite'],
  'vinegar-wine': ['sulphite'],
}

const one = (group: string, ...members: AllergenGroup['members']): AllergenGroup => ({ group, members })
const sulphite = (group: string, level: Pick<AllergenGroup, 'fromPpm' | 'overPpm'>): AllergenGroup => ({
  group,
  members: ['sulphite'],
  ...level,
})

/**
 * Sulphites in the United States: no major allergen, but in the list of ingredients where they are ten parts per million or more.
 *
 * @source 21 CFR 101.100(a)(4) (quoted)
 */
export const namedInUsList: NonNullable<LabellingRules['places'][string]['namedInList']> = [
  { ...sulphite('sulphites', { fromPpm: 10 }), by: '21 CFR 101.100(a)(4)' },
]

const fourteen: readonly AllergenGroup[] = [
  one('cereals containing gluten', 'wheat', 'gluten-cereal'),
  one('crustaceans', 'crustacean'),
  one('eggs', 'egg'),
  one('fish', 'fish'),
  one('peanuts', 'peanut'),
  one('soybeans', 'soy'),
  one('milk', 'milk'),
  one('nuts', 'tree-nut'),
  one('celery', 'celery'),
  one('mustard', 'mustard'),
  one('sesame', 'sesame'),
  // Annex II, point 12: in concentrations of more than 10 mg/kg, of the food as ready to eat.
  sulphite('sulphur dioxide and sulphites', { overPpm: 10 }),
  one('lupin', 'lupin'),
  one('molluscs', 'mollusc'),
]

/** Lists by place. */
export const allergenLists: Readonly<Record<'US' | 'EU' | 'GB' | 'CA' | 'AU-NZ', readonly AllergenGroup[]>> = {
  US: [
    one('milk', 'milk'),
    one('egg', 'egg'),
    one('fish', 'fish'),
    one('crustacean shellfish', 'crustacean'),
    one('tree nuts', 'tree-nut'),
    one('wheat', 'wheat'),
    one('peanut', 'peanut'),
    one('soy', 'soy'),
    one('sesame', 'sesame'),
  ],
  EU: fourteen,
  GB: fourteen,
  CA: [
    one('eggs', 'egg'),
    one('milk', 'milk'),
    one('mustard', 'mustard'),
    one('peanuts', 'peanut'),
    one('crustaceans and molluscs', 'crustacean', 'mollusc'),
    one('fish', 'fish'),
    one('sesame seeds', 'sesame'),
    one('soy', 'soy'),
    sulphite('sulphites', { fromPpm: 10 }),
    one('tree nuts', 'tree-nut'),
    one('wheat and triticale, and sources of gluten', 'wheat', 'gluten-cereal'),
  ],
  // Fish, crustaceans and molluscs go by the required names of Schedule 9 (from memory), not by their kind.
  'AU-NZ': [
    one('wheat', 'wheat'),
    { group: 'gluten', members: ['gluten-cereal'], say: 'gluten' },
    { group: 'crustacean', members: ['crustacean'], say: 'crustacean' },
    one('egg', 'egg'),
    { group: 'fish', members: ['fish'], say: 'fish' },
    one('lupin', 'lupin'),
    one('milk', 'milk'),
    { group: 'mollusc', members: ['mollusc'], say: 'mollusc' },
    one('peanut', 'peanut'),
    one('sesame', 'sesame'),
    one('soy', 'soy'),
    sulphite('sulphites', { fromPpm: 10 }),
    one('tree nuts', 'tree-nut'),
  ],
}

export const allergenSources: Readonly<Record<keyof typeof allergenLists, Source>> = {
  US: {
    document: 'Food Allergen Labeling and Consumer Protection Act of 2004; FASTER Act of 2021, 21 USC 321(qq)',
    section: 'nine major food allergens, sesame from 1 January 2023; FSIS verifies the same nine (Directive 7230.1)',
    edition: 'read in an authority page of Massachusetts and in summaries of both acts',
    url: 'https://www.mass.gov/policy-guidelines/minimum-requirements-for-packaged-food-labeling',
    mark: 'quoted',
  },
  EU: {
    document: 'Regulation (EU) 1169/2011, Articles 9 and 21, Annex II',
    section: 'fourteen groups, emphasised in the list',
    edition: 'read in reproductions of the annex',
    mark: 'quoted',
  },
  GB: {
    document: 'Regulation (EU) 1169/2011 as kept in Great Britain, Articles 9 and 21, Annex II',
    section: 'fourteen groups, emphasised in the list',
    edition: 'read in reproductions of the annex',
    mark: 'quoted',
  },
  CA: {
    document: 'Health Canada, Allergens and gluten sources labelling',
    section: 'priority allergens, gluten sources, sulphites from 10 parts per million',
    edition: 'as published on canada.ca',
    url: 'https://www.canada.ca/en/health-canada/services/food-allergies-intolerances/avoiding-allergens-food/allergen-labelling.html',
    mark: 'seen',
  },
  'AU-NZ': {
    document: 'Australia New Zealand Food Standards Code, Standard 1.2.3 and Schedule 9',
    section: 'required names',
    edition: 'read in part on the page of the NSW Food Authority; names after crustacean from summaries',
    url: 'https://foodauthority.nsw.gov.au/node/20149',
    mark: 'quoted',
  },
}
