import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { allergenSources } from './allergens.ts'

export type LabelPlace = keyof typeof allergenSources

const fic = (section: string): Source => ({
  document: 'Regulation (EU) 1169/2011',
  section,
  edition: 'read in a university page on the order and weight rules, and in consolidated copies',
  mark: 'quoted',
})

const list: Readonly<Record<LabelPlace, Source>> = {
  EU: fic('Article 18, Annex VII parts A to E'),
  GB: fic('Article 18, Annex VII parts A to E, kept in Great Britain'),
  US: {
    document: '9 CFR 317.2(f) and 381.118; 21 CFR 101.4(a)(2) for the 2 % clause',
    section: 'common names in descending order of predominance; compound ingredients with their own list',
    edition: '21 CFR 101.4(a)(2) read in a quotation; 317.2(f) not read in full',
    mark: 'from-memory',
  },
  CA: {
    document: 'Food and Drug Regulations, B.01.008 to B.01.010',
    section: 'descending order by weight before they are combined; components of ingredients by name',
    edition: 'read in a summary',
    mark: 'from-memory',
  },
  'AU-NZ': {
    document: 'Food Standards Code, Standard 1.2.4',
    section: 'descending order of ingoing weight; class and name or number of additives',
    edition: 'not read',
    mark: 'from-memory',
  },
}

const forPlace = (place: LabelPlace) => {
  const rule = (id: string, title: string, scope: string, source: Source): Rule => ({
    id: `${place.toLowerCase()}.label.${id}`,
    title,
    jurisdiction: place,
    topic: 'label',
    scope,
    unit: 'ingredients',
    weight: 'limit',
    values: [{ source }],
  })
  return {
    source: rule(
      'allergen-source',
      'Every ingredient has an allergen statement',
      'A label is not approved while nobody can say what an ingredient carries.',
      allergenSources[place],
    ),
    kind: rule(
      'allergen-kind',
      'Nuts, cereals, fish and shellfish are named by kind',
      'Which nut, which cereal with gluten, which fish.',
      allergenSources[place],
    ),
    compound: rule(
      'compound',
      'Compound ingredients carry their own list',
      place === 'EU' || place === 'GB'
        ? 'Not asked of a mix of spices or herbs under 2 % of the product; allergens and additives in it are named all the same.'
        : 'Every compound ingredient.',
      list[place],
    ),
    additive: rule(
      'additive-class',
      'Additives are named as the place asks',
      'Functional class with the name or number.',
      list[place],
    ),
    water: rule(
      'water',
      'Added water stands in the list',
      'By its weight in the finished product. It may be left out up to 5 % of it, not of meat and meat preparations.',
      list[place],
    ),
  }
}

export const labelRules = {
  US: forPlace('US'),
  EU: forPlace('EU'),
  GB: forPlace('GB'),
  CA: forPlace('CA'),
  'AU-NZ': forPlace('AU-NZ'),
} as const

/** Places where class and number are asked for, or the finished-product rule for water holds. */
export const asksClass: readonly string[] = ['EU', 'GB', 'AU-NZ']
export const asksFinishedWater: readonly string[] = ['EU', 'GB']

export const labelRuleList: readonly Rule[] = Object.entries(labelRules).flatMap(([place, r]) => [
  r.source,
  r.kind,
  r.compound,
  ...(asksClass.includes(place) ? [r.additive] : []),
  ...(asksFinishedWater.includes(place) ? [r.water] : []),
])
