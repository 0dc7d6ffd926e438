import type { NutritionRules } from '@forcemeat/craft/declare/nutrition-rules'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { euFormat } from './nutrition-eu-gb.ts'
import { us1993, us2016 } from './nutrition-us.ts'

/** Tables by place; the first of a place is the one used where none is asked for. */
export const nutritionFigures: NutritionRules = { EU: [euFormat], GB: [euFormat], US: [us2016, us1993] }

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

export const nutritionRuleList: readonly Rule[] = [...Object.values(nutritionRules), fatLossRule]
