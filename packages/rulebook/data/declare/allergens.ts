import type { AllergenGroup, LabellingRules } from '@forcemeat/craft/declare/label-rules'
import type { Source } from '@forcemeat/craft/source'

export const allergenWords: LabellingRules['allergenWords'] = {
  wheat: { say: 'wheat', words: ['wheat', 'spelt', 'durum', 'khorasan', 'triticale'] },
  'gluten-cereal': { say: 'gluten cereal', words: ['rye', 'barley', 'oat'], nameKind: true },
  crustacean: {
    say: 'crustacean',
    words: ['crustacean', 'shrimp', 'prawn', 'crab', 'lobster', 'crayfish'],
    nameKind: true,
  },
  egg: { say: 'egg', words: ['egg'] },
  fish: { say: 'fish', words: ['fish', 'anchovy', 'anchovie', 'cod', 'salmon', 'tuna', 'herring'], nameKind: true },
  peanut: { say: 'peanut', words: ['peanut'] },
  soy: { say: 'soy', words: ['soy', 'soya', 'soybean', 'soyabean'] },
  milk: { say: 'milk', words: ['milk'] },
  'tree-nut': {
    say: 'nut',
    words: ['almond', 'hazelnut', 'walnut', 'cashew', 'pecan', 'brazil nut', 'pistachio', 'macadamia', 'pine nut'],
    nameKind: true,
  },
  celery: { say: 'celery', words: ['celery', 'celeriac'] },
  mustard: { say: 'mustard', words: ['mustard'] },
  sesame: { say: 'sesame', words: ['sesame'] },
  sulphite: { say: 'sulphites', words: ['sulphite', 'sulfite', 'sulphur dioxide', 'sulfur dioxide'] },
  lupin: { say: 'lupin', words: ['lupin'] },
  mollusc: { say: 'mollusc', words: ['mollusc', 'mussel', 'oyster', 'squid', 'clam', 'scallop'], nameKind: true },
}

const one = (group: string, ...members: AllergenGroup['members']): AllergenGroup => ({ group, members })
const sulphite = (group: string): AllergenGroup => ({ group, members: ['sulphite'], fromPpm: 10 })

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
  sulphite('sulphur dioxide and sulphites'),
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
    sulphite('sulphites'),
    one('tree nuts', 'tree-nut'),
    one('wheat and triticale, and sources of gluten', 'wheat', 'gluten-cereal'),
  ],
  'AU-NZ': [
    one('wheat', 'wheat'),
    { group: 'gluten', members: ['gluten-cereal'], say: 'gluten' },
    one('crustacean', 'crustacean'),
    one('egg', 'egg'),
    one('fish', 'fish'),
    one('lupin', 'lupin'),
    one('milk', 'milk'),
    one('mollusc', 'mollusc'),
    one('peanut', 'peanut'),
    one('sesame', 'sesame'),
    one('soy', 'soy'),
    sulphite('sulphites'),
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
