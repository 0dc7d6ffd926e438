import type { CodeKind, LabelDrawnRules } from '@forcemeat/craft/declare/label/drawn'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { markFigures, markRuleList } from './marks.ts'

const MM_PER_INCH = 25.4

/** Bars by the illustrations of the Food and Drug Administration; the regulation gives no thickness. */
const usBars = { thick: 7, middle: 3, hairline: 0.25, box: 0.5 }

const us2016 = {
  headingPt: 22,
  servingsPt: 10,
  caloriesPt: 16,
  caloriesFigurePt: 22,
  rowPt: 8,
  smallPt: 6,
  leadingPt: 4,
  footnotes: [
    '* The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice.',
  ],
  barsPt: usBars,
}
/** Leading of the small displays is of our own; the rule asks one point between lines of text at least, from memory. */
const tabular = { ...us2016, headingPt: 12, caloriesPt: 10, leadingPt: 1.5 }
const small = { ...tabular, servingsPt: 9, caloriesFigurePt: 14 }

export const labelDrawnFigures: LabelDrawnRules = {
  panels: {
    'US:us-2016': us2016,
    'US:us-2016:tabular': tabular,
    'US:us-2016:tabular-small': small,
    'US:us-2016:linear-small': small,
    'US:us-1993': {
      headingPt: 13,
      servingsPt: 8,
      caloriesPt: 8,
      caloriesFigurePt: 8,
      rowPt: 8,
      smallPt: 6,
      leadingPt: 4,
      footnotes: ['* Percent Daily Values are based on a 2,000 calorie diet.'],
      barsPt: usBars,
    },
    'CA:ca-2016': {
      headingPt: 13,
      servingsPt: 8,
      caloriesPt: 8,
      caloriesFigurePt: 8,
      rowPt: 8,
      smallPt: 6,
      leadingPt: 4,
      footnotes: [],
      barsPt: { thick: 2, middle: 1, hairline: 0.5, box: 0.5 },
    },
  },
  codes: {
    'gs1-128': {
      usualModuleMm: 0.3,
      leastModuleMm: 0.495,
      mostModuleMm: 1.016,
      usualBarMm: 13,
      quietLeft: 10,
      quietRight: 10,
      mostWidthMm: 165.1,
      mostCharacters: 48,
    },
    'gs1-datamatrix': { usualModuleMm: 0.5, leastModuleMm: 0.396, mostModuleMm: 0.99, quietLeft: 1, quietRight: 1 },
    'ean-13': {
      usualModuleMm: 0.33,
      leastModuleMm: 0.264,
      mostModuleMm: 0.66,
      usualBarMm: 22.85,
      leastBarMm: 18.28,
      quietLeft: 11,
      quietRight: 7,
    },
  },
  displays: {
    mostCm2: 40 * (MM_PER_INCH / 10) ** 2,
    freeBelowCm2: 12 * (MM_PER_INCH / 10) ** 2,
    heightMm: 3 * MM_PER_INCH,
  },
  marks: markFigures,
  handlingXHeightMm: MM_PER_INCH / 16,
  leastContrast: 7,
}

const rule = (
  id: string,
  jurisdiction: string,
  title: string,
  scope: string,
  unit: string,
  source: Source,
  weight: Rule['weight'] = 'limit',
): Rule => ({ id, title, jurisdiction, topic: 'label', scope, unit, weight, values: [{ source }] })

const sizeGuide: Source = {
  document: 'GS1 Sweden, Size guide: limits of the GS1 General Specifications',
  section: 'X-dimension, height and quiet zones of EAN-13 and GS1-128',
  edition: 'as published on gs1.se',
  url: 'https://gs1.se/en/guides/how-to-guides/size-guide/',
  mark: 'quoted',
}

export const codeRules: Readonly<Record<CodeKind, Rule>> = {
  'ean-13': rule(
    'all.label.ean-13',
    'everywhere',
    'EAN-13 large enough, with its quiet zones',
    'On a consumer item: module of 0.264 to 0.66 mm, bars of at least 18.28 mm, eleven modules of white on the left and seven on the right.',
    'mm',
    sizeGuide,
  ),
  'gs1-128': rule(
    'all.label.gs1-128',
    'everywhere',
    'GS1-128 with its quiet zones, not too long',
    'Ten modules of white on either side, at most 165.1 mm and 48 characters.',
    'mm',
    {
      document: 'GS1 General Specifications',
      section: '5.4.4.2 quiet zone, 5.4.4.3 maximum symbol length',
      edition: 'copy published in September 2018',
      url: 'https://fliphtml5.com/fbtj/xroj/GS1_General_Specifications/262/',
      mark: 'quoted',
    },
  ),
  'gs1-datamatrix': rule(
    'all.label.gs1-datamatrix',
    'everywhere',
    'GS1 DataMatrix with its quiet zone',
    'One module of white on every side; module of 0.396 to 0.99 mm at a till.',
    'mm',
    {
      document: 'GS1 General Specifications',
      section: 'GS1 DataMatrix: quiet zone and X-dimension',
      edition: 'not read',
      mark: 'from-memory',
    },
    'advice',
  ),
}

export const drawnRules = {
  warehouse: rule(
    'all.label.gs1-128.module',
    'everywhere',
    'GS1-128 for a warehouse',
    'Module of 0.495 to 1.016 mm where cases are scanned in general distribution. Within a house, or where the customer says so, smaller ones are read.',
    'mm',
    sizeGuide,
    'advice',
  ),
  letters: rule(
    'all.label.letters',
    'everywhere',
    'Every character can be drawn',
    'A character its fonts have no letter for is printed as an empty box.',
    'characters',
    {
      document: 'Fonts of the label',
      section: 'letters they hold',
      edition: 'as they are read by this program',
      mark: 'computed',
    },
  ),
  contrast: rule(
    'all.label.contrast',
    'everywhere',
    'Ink stands out from its ground',
    'Contrast of relative luminance of at least 7 to 1.',
    'to 1',
    {
      document: 'Web Content Accessibility Guidelines 2.2',
      section: '1.4.6, contrast (enhanced)',
      edition: 'Recommendation of the World Wide Web Consortium, October 2023; food law gives no figure',
      url: 'https://www.w3.org/TR/WCAG22/#contrast-enhanced',
      mark: 'quoted',
    },
  ),
  display: rule(
    'us.nutrition.display',
    'US',
    'Nutrition panel set as its pack allows',
    'Tabular or linear in place of vertical: under 12 square inches of surface that a label could stand on; up to 40 where the shape or size of the pack cannot take a vertical column. Linear only where a tabular display finds no room. On any pack tabular where there are not about 3 inches of height. That the rules of meat and poultry (9 CFR 317.309, 381.409) accept these displays was not read.',
    'cm²',
    {
      document: '21 CFR 101.9',
      section: '(d)(11)(iii) and (j)(13)(ii)(A)',
      edition: 'read in quotations',
      url: 'https://www.ecfr.gov/current/title-21/section-101.9',
      mark: 'quoted',
    },
  ),
  displayShape: rule(
    'us.nutrition.display-shape',
    'US',
    'The pack cannot take the larger display',
    'That the shape or size of the pack cannot take the larger display is for whoever knows the pack: here only this label is measured.',
    'mm',
    {
      document: '21 CFR 101.9',
      section: '(d)(11)(iii) and (j)(13)(ii)(A)',
      edition: 'read in quotations',
      url: 'https://www.ecfr.gov/current/title-21/section-101.9',
      mark: 'quoted',
    },
  ),
  handling: rule(
    'us.317.2.handling-type',
    'US',
    'Safe handling instructions large enough',
    'Lower-case letters of 1/16 inch or more, the heading larger than the rest, all within a border.',
    'mm',
    {
      document: '9 CFR 317.2(l)',
      section: 'type size, heading and border of the safe handling instructions',
      edition: 'figure read in a quotation',
      mark: 'quoted',
    },
  ),
} as const

function smallSource(section: string): Source {
  return {
    document: '21 CFR 101.9',
    section: `${section}: least type sizes of the tabular and linear displays`,
    edition: 'rule of 2016, read in quotations',
    url: 'https://www.ecfr.gov/current/title-21/section-101.9',
    mark: 'quoted',
  }
}

export const panelRules: Readonly<Record<string, Rule>> = {
  'US:us-2016': rule(
    'us.nutrition.type',
    'US',
    'Nutrition panel in its type sizes',
    'Servings and serving size 10 points, Calories 16 and its figure 22, rows 8, the rest 6; the heading no smaller than anything but the figure of Calories.',
    'pt',
    {
      document: '21 CFR 101.9(d)',
      section: '(d)(1)(iii), (d)(2), (d)(3): least type sizes',
      edition: 'rule of 2016, read in quotations',
      url: 'https://www.ecfr.gov/current/title-21/section-101.9',
      mark: 'quoted',
    },
  ),
  'US:us-2016:tabular': rule(
    'us.nutrition.type.tabular',
    'US',
    'Tabular nutrition panel in its type sizes',
    'Servings and serving size 10 points, Calories 10 and its figure 22, rows 8, the rest 6.',
    'pt',
    smallSource('(d)(1)(iii), (d)(3), (d)(11)(iii)'),
  ),
  'US:us-2016:tabular-small': rule(
    'us.nutrition.type.tabular-small',
    'US',
    'Tabular nutrition panel of a small pack in its type sizes',
    'Servings and serving size 9 points, Calories 10 and its figure 14, rows 8, the rest 6.',
    'pt',
    smallSource('(d)(1)(iii), (d)(3), (j)(13)(ii)(A)(1)'),
  ),
  'US:us-2016:linear-small': rule(
    'us.nutrition.type.linear-small',
    'US',
    'Linear nutrition panel of a small pack in its type sizes',
    'Servings and serving size 9 points, Calories 10 and its figure 14, the rest of the string 8, the footnote 6.',
    'pt',
    smallSource('(d)(1)(iii), (d)(3), (j)(13)(ii)(A)(2)'),
  ),
  'US:us-1993': rule(
    'us.nutrition.type.1993',
    'US',
    'Nutrition panel of the 1990s in its type sizes',
    'Rows and servings 8 points, the rest 6, the heading the largest of all.',
    'pt',
    {
      document: 'FDA, A Food Labeling Guide, 5.1, and the format of 9 CFR 317.309 and 381.409',
      section: 'type of the panel of the 1990s; that the meat and poultry rules ask for the same was not read',
      edition: 'guide read in a reproduction',
      mark: 'from-memory',
    },
  ),
  'CA:ca-2016': rule(
    'ca.nutrition.type',
    'CA',
    'Nutrition facts table in its type sizes',
    'Heading 13 points, rows 8, the rest 6, by the bilingual standard table before 2016; the directory of the present one was not read.',
    'pt',
    {
      document: 'Health Canada, Directory of Nutrition Facts Table Formats',
      section:
        'bilingual standard format; sizes of the former table from the page of the Canadian Food Inspection Agency',
      edition: 'present directory not read',
      url: 'https://www.canada.ca/en/health-canada/services/technical-documents-labelling-requirements/directory-nutrition-facts-table-formats/nutrition-labelling.html',
      mark: 'from-memory',
    },
  ),
}

export const labelDrawnRuleList: readonly Rule[] = [
  ...Object.values(codeRules),
  ...Object.values(drawnRules),
  ...Object.values(panelRules),
  ...markRuleList,
]
