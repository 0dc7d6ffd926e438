import type { NutritionRules } from '@forcemeat/craft/declare/nutrition-rules'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { auNzFormat } from './nutrition-au-nz.ts'
import { caFormat } from './nutrition-ca.ts'
import { euFormat } from './nutrition-eu-gb.ts'
import { us1993, us2016 } from './nutrition-us.ts'

/** Tables by place; the first of a place is the one used where none is asked for. */
export const nutritionFigures: NutritionRules = {
  EU: [euFormat],
  GB: [euFormat],
  US: [us2016, us1993],
  CA: [caFormat],
  'AU-NZ': [auNzFormat],
}

const fic: Source = {
  document: 'Regulation (EU) 1169/2011, Articles 30 to 35, Annexes XIV and XV',
  section:
    'mandatory values and energy factors; rounding by the Commission guidance on tolerances of December 2012, section 6',
  edition: 'read in consolidated copies and in authority training pages',
  mark: 'quoted',
}
const fda: Source = {
  document: '21 CFR 101.9(c)',
  section:
    'nutrients and daily values of the FDA page on daily values; rounding of the FDA Food Labeling Guide, appendix H',
  edition: 'rule of 2016; guide of October 2009',
  url: 'https://www.ecfr.gov/current/title-21/section-101.9',
  mark: 'quoted',
}
const fsis: Source = {
  document: '9 CFR 317.309 and 381.409',
  section: 'nutrients of the format of the 1990s',
  edition: 'list not read',
  mark: 'from-memory',
}

const fdr: Source = {
  document: 'Food and Drug Regulations (Canada), C.R.C., c. 870',
  section: 'B.01.401 and its table: information, units, manner of expression',
  edition: 'consolidation of 21 November 2025, as published by the Department of Justice',
  url: 'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._870/',
  mark: 'seen',
}
const dailyValuesCa: Source = {
  document: 'Health Canada, Table of Daily Values',
  section: 'daily values of fat, saturated and trans fat, sodium, fibre, sugars, potassium, calcium and iron',
  edition: 'version of 20 October 2022; not read',
  mark: 'from-memory',
}
const fsanz: Source = {
  document: 'Australia New Zealand Food Standards Code, Standard 1.2.8 and Schedules 11 and 12',
  section:
    '1.2.8—6 and 1.2.8—8: energy, protein, fat, saturated, carbohydrate, sugars, sodium of a serving and of 100 g',
  edition:
    'as made in 2015, read in the New Zealand Gazette of 8 May 2015, numbers 49 and 50; later amendments not read',
  mark: 'seen',
}
const fsanzEnergy: Source = {
  document: 'Australia New Zealand Food Standards Code, Schedule 11',
  section: 'S11—2: energy factors; 1.2.8—7: not more than three figures',
  edition: 'not read',
  mark: 'from-memory',
}

const complete = (id: string, jurisdiction: string, source: Source, scope: string): Rule => ({
  id,
  title: 'Nutrition table complete',
  jurisdiction,
  topic: 'label',
  scope,
  unit: 'values',
  weight: 'limit',
  values: [{ source }],
})

const seven = 'Energy, fat, saturates, carbohydrate, sugars, protein and salt of 100 g.'
/** By the format's id, and the place where one format serves two. */
export const nutritionRules: Readonly<Record<string, Rule>> = {
  'EU:eu-1169': complete('eu.nutrition.complete', 'EU', fic, seven),
  'GB:eu-1169': complete(
    'gb.nutrition.complete',
    'GB',
    { ...fic, section: `${fic.section}; kept in Great Britain` },
    seven,
  ),
  'US:us-2016': complete(
    'us.nutrition.complete',
    'US',
    fda,
    'Calories, fat, saturated and trans fat, cholesterol, sodium, carbohydrate, fiber, sugars, added sugars, protein, vitamin D, calcium, iron and potassium of a serving.',
  ),
  'US:us-1993': complete(
    'us.nutrition.complete.1993',
    'US',
    fsis,
    'Format that the meat and poultry regulations still hold: with calories from fat, vitamins A and C.',
  ),
  'CA:ca-2016': complete(
    'ca.nutrition.complete',
    'CA',
    fdr,
    'Calories, fat, saturated and trans fat, cholesterol, sodium, carbohydrate, fibre, sugars, protein, potassium, calcium and iron of a serving.',
  ),
  'AU-NZ:au-nz': complete(
    'au-nz.nutrition.complete',
    'AU-NZ',
    fsanz,
    'Energy, protein, fat, saturated fat, carbohydrate, sugars and sodium, of a serving and of 100 g.',
  ),
}

/** What a table rests on besides its list of rows, where that was not read: it is for a person to look up. */
export const restsOn: Readonly<Record<string, Rule>> = {
  'CA:ca-2016': {
    ...complete(
      'ca.nutrition.daily-values',
      'CA',
      dailyValuesCa,
      'Percents of the daily value on the nutrition facts table, and the average energy factors behind the Calories.',
    ),
    title: 'Daily values and energy factors of the table',
  },
  'AU-NZ:au-nz': {
    ...complete(
      'au-nz.nutrition.energy-factors',
      'AU-NZ',
      fsanzEnergy,
      'Kilojoules of each gram, and how many figures a value may have.',
    ),
    title: 'Energy factors and figures of the panel',
  },
}

export const fatLossRule: Rule = {
  id: 'all.nutrition.fat-loss',
  title: 'Fat that runs off is known apart from the water',
  jurisdiction: 'everywhere',
  topic: 'label',
  scope: 'Products that lose weight in cooking or drying, with a nutrition table computed from what went in.',
  unit: 'kg',
  weight: 'limit',
  values: [
    {
      source: {
        document: 'Mass balance',
        section: 'fat and water leave a cook apart; the table holds for what is left',
        edition: 'this program',
        mark: 'computed',
      },
    },
  ],
}

/** An analysis and its own recipe that cannot be of one product: somebody who knows both has to say which holds. */
export const analysisRule: Rule = {
  id: 'all.nutrition.analysis',
  title: 'Analysed figures are of the product the recipe makes',
  jurisdiction: 'everywhere',
  topic: 'label',
  scope:
    'Figures of an analysis beside a recipe. Too far: outside what the place tolerates about the declared value, or by more than 25 % and 2 g.',
  unit: 'values',
  weight: 'limit',
  values: [
    {
      source: {
        document: 'Tolerances of the place; mass balance of the recipe',
        section: '25 % and 2 g: common practice, no source',
        edition: 'this program',
        mark: 'from-memory',
      },
    },
  ],
}

/** Shares of the reference amount between which a serving is not asked about. */
export const servingShare = { least: 0.5, most: 2 } as const

export const servingRule: Rule = {
  id: 'us.nutrition.serving',
  title: 'Serving stands near the reference amount',
  jurisdiction: 'US',
  topic: 'label',
  scope: 'From half to twice the amount customarily eaten; single units and single-serving packs may lie beyond.',
  unit: 'g',
  weight: 'limit',
  values: [
    {
      source: {
        document: '9 CFR 317.312(b) and 317.309(b); 21 CFR 101.12(b) and 101.9(b)',
        section: 'reference amounts; 50 % and 200 % of them',
        edition: 'not read in full',
        mark: 'from-memory',
      },
    },
  ],
}

export const nutritionRuleList: readonly Rule[] = [
  ...Object.values(nutritionRules),
  ...Object.values(restsOn),
  fatLossRule,
  analysisRule,
  servingRule,
]
