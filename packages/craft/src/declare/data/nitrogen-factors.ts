import type { Source } from '../../source.ts'

const amcPork: Source = {
  document:
    'Analytical Methods Committee, Nitrogen factors for pork: a reassessment, Analyst 116:761–766, doi 10.1039/AN9911600761',
  section: 'abstract: percent nitrogen of fat-free meat, national average pig for processing',
  edition: '1991',
  mark: 'seen',
}
const amcBeef: Source = {
  document:
    'Analytical Methods Committee, Nitrogen factors for beef: a reassessment, Analyst 118:1217–1226, doi 10.1039/an9931801217',
  section: 'abstract: percent nitrogen of fat-free meat',
  edition: '1993',
  mark: 'seen',
}
const tables: Source = {
  document: 'Understanding the theory and practice of meat content calculations',
  section: 'tables 1 and 2, reproducing committee factors',
  edition: 'read in a copy',
  mark: 'quoted',
}

/** Percent nitrogen of fat-free meat. Sources disagree by their years: these are the latest read. */
export const nitrogenFactors = {
  pork: { factor: 3.5, source: amcPork },
  'pork-leg': { factor: 3.49, source: amcPork },
  'pork-neck': { factor: 3.38, source: amcPork },
  'pork-hand': { factor: 3.42, source: amcPork },
  'pork-loin': { factor: 3.66, source: amcPork },
  'pork-belly': { factor: 3.5, source: amcPork },
  beef: { factor: 3.65, source: amcBeef },
  lamb: { factor: 3.5, source: tables },
  mutton: { factor: 3.47, source: tables },
  veal: { factor: 3.35, source: tables },
  turkey: { factor: 3.65, source: tables },
  chicken: { factor: 3.5, source: tables },
} as const satisfies Readonly<Record<string, { readonly factor: number; readonly source: Source }>>

/** Nitrogen that rusk and flour bring, per percent of carbohydrate; from memory of the trade's correction, no source read. */
export const ruskNitrogenPerCarbohydrate = 0.02
