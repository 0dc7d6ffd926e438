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
    document: 'Food and Drug Regulations (Canada), C.R.C., c. 870',
    section:
      'B.01.008 to B.01.010: order by weight before they are combined; sugars together (B.01.008.3); components by name, but for those of B.01.009',
    edition: 'consolidation of 21 November 2025, as published by the Department of Justice',
    url: 'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._870/',
    mark: 'seen',
  },
  'AU-NZ': {
    document: 'Australia New Zealand Food Standards Code, Standard 1.2.4',
    section:
      '1.2.4—3 and 1.2.4—5: every ingredient, by ingoing weight less the water that is removed; compound ingredients with their own list, in full from 5 % of the food',
    edition: 'as made in 2015, read in the New Zealand Gazette of 8 May 2015, number 49; later amendments not read',
    url: 'https://www.legislation.gov.au/F2015L00392',
    mark: 'seen',
  },
}

/** How the Code asks for additives to be named was not read. */
const auNzAdditives: Source = {
  document: 'Australia New Zealand Food Standards Code, Standard 1.2.4',
  section: '1.2.4—7: class and name or code number of additives',
  edition: 'not read',
  mark: 'from-memory',
}

const waterScope: Readonly<Record<LabelPlace, string>> = {
  EU: 'By its weight in the finished product. It may be left out up to 5 % of it, not of meat and meat preparations.',
  GB: 'By its weight in the finished product. It may be left out up to 5 % of it, not of meat and meat preparations.',
  'AU-NZ': 'By its ingoing weight less what is removed. It may be left out where it is less than 5 % of the food.',
  US: 'As it went in.',
  CA: 'As it went in. Added water that is removed in making need not be listed.',
}

const compoundScope = (place: LabelPlace): string => {
  if (place === 'EU' || place === 'GB')
    return 'Not asked of a mix of spices or herbs under 2 % of the product; allergens and additives in it are named all the same.'
  if (place === 'CA')
    return 'Every compound ingredient but those of B.01.009: bread, crumbs, cultures, mixtures of spices or herbs and others of its tables. Salt, glutamates and what acts in the food are named all the same.'
  return place === 'AU-NZ'
    ? 'Every compound ingredient. Under 5 % of the food its allergens and the additives that still act would do; which these are only its list tells.'
    : 'Every compound ingredient.'
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
    compound: rule('compound', 'Compound ingredients carry their own list', compoundScope(place), list[place]),
    additive: rule(
      'additive-class',
      'Additives are named as the place asks',
      'Functional class with the name or number.',
      place === 'AU-NZ' ? auNzAdditives : list[place],
    ),
    water: rule('water', 'Added water stands in the list', waterScope[place], list[place]),
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
export const asksFinishedWater: readonly string[] = ['EU', 'GB', 'AU-NZ']

export const labelRuleList: readonly Rule[] = Object.entries(labelRules).flatMap(([place, r]) => [
  r.source,
  r.kind,
  r.compound,
  ...(asksClass.includes(place) ? [r.additive] : []),
  ...(asksFinishedWater.includes(place) ? [r.water] : []),
])
