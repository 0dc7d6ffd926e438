import type { Rule } from '../../src/rule.ts'
import { cfr9, cfr9Chart } from '../sources.ts'

const us = { jurisdiction: 'US', topic: 'composition', unit: '%', weight: 'limit' } as const
const finished = { basis: 'of the finished product' } as const
const formula = { basis: 'of all ingredients, water included, as weighed into the mix' } as const

type Limit = { readonly min?: number; readonly max?: number }
type Line = Pick<Rule, 'title' | 'scope'> &
  Partial<Pick<Rule, 'measure' | 'orMeasure' | 'sum' | 'basis' | 'note' | 'topic'>> &
  Limit & { readonly id: string; readonly section: string }

/** Rules of one standard: they apply where the recipe is sold under it. */
const under = (standard: string, lines: readonly Line[]): Rule[] =>
  lines.map(({ id, section, min, max, ...line }) => ({
    ...us,
    ...line,
    id: `us.${id}`,
    when: { [`standard:${standard}`]: [true] },
    values: [{ ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }), source: cfr9(section) }],
  }))

const fat = (section: string, max: number, scope: string): Line => ({
  id: `${section}.fat`,
  section,
  title: `Fat, ${scope}`,
  scope,
  measure: 'fatPct',
  max,
  ...finished,
})
const formulaWater = (section: string, scope: string): Line => ({
  id: `${section}.water`,
  section,
  title: `Water or ice, ${scope}`,
  scope,
  measure: 'formulaWaterPct',
  max: 3,
  ...formula,
})
const addedWater = (section: string, scope: string): Line => ({
  id: `${section}.added-water`,
  section,
  title: `Added water, ${scope}`,
  scope,
  measure: 'addedWaterPct',
  max: 10,
  ...finished,
  note: 'Added water by 9 CFR 318.22: water − 4 × meat protein.',
})

const frankfurter = (part: string, scope: string): Line[] => {
  const section = `319.180(${part})`
  return [
    { ...fat(section, 30, scope), id: `319.180.${part}.fat` },
    {
      id: `319.180.${part}.fat-and-water`,
      section,
      scope,
      title: `Fat and added water together, ${scope}`,
      sum: [
        { measure: 'fatPct', weight: 1 },
        { measure: 'addedWaterPct', weight: 1 },
      ],
      max: 40,
      ...finished,
      note: 'Added water by 9 CFR 318.22. State texts still print an older limit of 10 % added water.',
    },
    {
      id: `319.180.${part}.poultry`,
      section,
      scope,
      title: `Poultry, ${scope}`,
      measure: 'poultryPct',
      max: 15,
      basis: 'of all ingredients, water left out',
    },
  ]
}

/** Names of the standards a US recipe may be sold under, with the product they stand for. */
export const usStandards = {
  'us.319.140.uncooked': 'Sausage, uncooked (general)',
  'us.319.140.cooked': 'Sausage, cooked (general)',
  'us.319.141': 'Fresh pork sausage',
  'us.319.142': 'Fresh beef sausage',
  'us.319.143': 'Breakfast sausage',
  'us.319.144': 'Whole hog sausage',
  'us.319.145': 'Italian sausage',
  'us.319.160': 'Smoked pork sausage',
  'us.319.180.a': 'Frankfurter, bologna and similar',
  'us.319.180.b': 'Frankfurter and similar, with by-products',
  'us.319.181': 'Cheesefurter and similar',
  'us.319.182.a': 'Liver sausage by 319.182(a)',
  'us.319.182.b': 'Liver sausage by 319.182(b)',
  'us.319.260': 'Luncheon meat and meat loaf',
} as const

export const usCompositionRules: readonly Rule[] = [
  ...under('us.319.140.uncooked', [formulaWater('319.140', 'uncooked sausage')]),
  ...under('us.319.140.cooked', [addedWater('319.140', 'cooked sausage')]),
  ...under('us.319.141', [fat('319.141', 50, 'fresh pork sausage'), formulaWater('319.141', 'fresh pork sausage')]),
  ...under('us.319.142', [fat('319.142', 30, 'fresh beef sausage'), formulaWater('319.142', 'fresh beef sausage')]),
  ...under('us.319.143', [fat('319.143', 50, 'breakfast sausage'), formulaWater('319.143', 'breakfast sausage')]),
  ...under('us.319.144', [fat('319.144', 50, 'whole hog sausage'), formulaWater('319.144', 'whole hog sausage')]),
  ...under('us.319.145', [
    {
      ...fat('319.145', 35, 'Italian sausage'),
      measure: 'rawFatPct',
      orMeasure: 'fatPct',
      note: 'Judged on the uncooked, unsmoked product.',
    },
    formulaWater('319.145', 'Italian sausage'),
    {
      id: '319.145.meat',
      section: '319.145',
      title: 'Meat, or meat and fat, Italian sausage',
      scope: 'Italian sausage',
      measure: 'meatAndFatPct',
      min: 85,
      ...formula,
    },
  ]),
  ...under('us.319.160', [fat('319.160', 50, 'smoked pork sausage'), formulaWater('319.160', 'smoked pork sausage')]),
  ...under('us.319.180.a', frankfurter('a', 'frankfurter, bologna and similar')),
  ...under('us.319.180.b', [
    ...frankfurter('b', 'frankfurter and similar, with by-products'),
    {
      id: '319.180.b.muscle',
      section: '319.180(b)',
      title: 'Raw skeletal meat, with by-products',
      scope: 'frankfurter and similar, with by-products',
      measure: 'skeletalMeatPct',
      min: 15,
      ...formula,
    },
  ]),
  ...under('us.319.181', [
    {
      id: '319.181.fat',
      section: '319.181',
      title: 'Fat, the cheese left out',
      scope: 'cheesefurter and similar',
      measure: 'fatPctWithoutCheese',
      max: 30,
      ...finished,
    },
    {
      id: '319.181.fat-and-water',
      section: '319.181',
      title: 'Fat and added water together, the cheese left out',
      scope: 'cheesefurter and similar',
      sum: [
        { measure: 'fatPctWithoutCheese', weight: 1 },
        { measure: 'addedWaterPctWithoutCheese', weight: 1 },
      ],
      max: 40,
      ...finished,
    },
  ]),
  ...under('us.319.182.a', [
    {
      id: '319.182.a.liver',
      section: '319.182(a)',
      title: 'Liver, liver sausage by 319.182(a)',
      scope: 'the liver sausage that 319.182(a) names: pork, beef or veal liver',
      measure: 'liverPct',
      min: 30,
      basis: 'of the formula, as fresh liver',
    },
    { ...addedWater('319.140', 'liver sausage by 319.182(a)'), id: '319.182.a.added-water' },
  ]),
  ...under('us.319.182.b', [
    {
      id: '319.182.b.liver',
      section: '319.182(b)',
      title: 'Liver, liver sausage',
      scope: 'liver sausage: pork, beef, veal, sheep or goat liver',
      measure: 'liverPct',
      min: 30,
      basis: 'of the formula, as fresh liver',
    },
    { ...addedWater('319.140', 'liver sausage'), id: '319.182.b.added-water' },
  ]),
  ...under('us.319.260', [formulaWater('319.260', 'luncheon meat and meat loaf')]),
  ...binders(),
  ...phosphates(),
]

function binders(): Rule[] {
  const row = cfr9Chart('Binders and extenders, sausages as provided for in 9 CFR Part 319')
  const additive = { ...us, topic: 'additive', basis: 'of all ingredients' } as const
  const allowed = { binderAdded: [true] }
  const basisNote =
    'The chart names no basis and sources differ (finished product or formula); the formula is taken here: show the finished share beside it.'
  return [
    {
      ...additive,
      id: 'us.424.21.binders',
      title: 'Binders and extenders in sausage',
      scope:
        'cereal, starch, starchy flour, soy flour, soy concentrate, dried milk, whey and the like, alone or together; isolated soy protein and caseinate count by their own 2 %',
      when: allowed,
      sum: [
        { measure: 'binderPct', weight: 1 },
        { measure: 'strongBinderPct', weight: 0.75 },
      ],
      values: [{ max: 3.5, source: row }],
      note: `Isolated soy protein and sodium caseinate are limited to 2 %; in a mixture each point of them counts as 3.5 / 2 points, so 0.75 more than itself. Where it is not said how much of the binder they are, all of it may be. ${basisNote}`,
    },
    {
      ...additive,
      id: 'us.424.21.binders.strong',
      title: 'Isolated soy protein and sodium caseinate in sausage',
      scope: 'sausage',
      when: allowed,
      measure: 'strongBinderPct',
      values: [{ max: 2, source: row }],
      note: basisNote,
    },
    ...['319.141', '319.142', '319.144', '319.145', '319.160'].map((section): Rule => ({
      ...us,
      topic: 'additive',
      unit: '',
      id: `us.${section}.binders`,
      title: 'No binders in this standard',
      scope: usStandards[`us.${section}` as keyof typeof usStandards],
      when: { [`standard:us.${section}`]: [true], binderAdded: [true] },
      finding: {
        verdict: 'fail',
        because: 'the standard lists what may be used and binders and extenders are not among it',
      },
      values: [{ source: cfr9(section) }],
    })),
  ]
}

function phosphates(): Rule[] {
  return [
    {
      ...us,
      topic: 'additive',
      id: 'us.424.21.phosphate',
      title: 'Phosphate in the finished product',
      scope: 'meat food products in which phosphates are permitted',
      when: { phosphateAdded: [true] },
      measure: 'phosphatePct',
      basis: 'of phosphate in the meat food product',
      values: [{ max: 0.5, source: cfr9Chart('Miscellaneous, phosphates') }],
      note: '5 % of phosphate in pickle at 10 % pump comes to the same 0.5 %. Only clear solution may be injected.',
    },
    {
      ...us,
      topic: 'additive',
      unit: '',
      id: 'us.319.140.phosphate',
      title: 'No phosphate in uncooked sausage',
      scope: 'sausage that is not cooked',
      when: { kind: ['fresh', 'fermented', 'dried'], phosphateAdded: [true], wholeCut: [false] },
      finding: {
        verdict: 'fail',
        because: 'phosphates are permitted only in cooked sausage, and this one is not cooked',
      },
      values: [{ source: cfr9('319.140') }],
    },
  ]
}
