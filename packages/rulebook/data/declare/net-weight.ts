import type { NetWeightRules } from '@forcemeat/craft/declare/net-weight-schema'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

/** Tolerable negative errors by nominal quantity, and the shares of packs the packers' rules allow. */
export const netWeightFigures: NetWeightRules = {
  fromG: 5,
  tolerable: [
    { upToG: 50, pct: 9 },
    { upToG: 100, g: 4.5 },
    { upToG: 200, pct: 4.5 },
    { upToG: 300, g: 9 },
    { upToG: 500, pct: 3 },
    { upToG: 1000, g: 15 },
    { upToG: 10_000, pct: 1.5 },
    { upToG: 15_000, g: 150 },
    { upToG: 50_000, pct: 1 },
  ],
  t1SharePct: 2.5,
  t2SharePct: 0.01,
  // From memory of NIST Handbook 133, appendix A, table 2-9, packs other than of homogeneous, fluid goods: a verdict never rests on it.
  allowable: [
    { upToG: 85, pct: 10 },
    { upToG: 198, g: 14.2 },
    { upToG: 1360, g: 28.3 },
    { upToG: 4530, g: 42.5 },
    { upToG: 1_000_000, pct: 1 },
  ],
}

/** Sampling plan of category A, from memory of NIST Handbook 133, appendix A, table 2-1: packs to weigh, and short ones allowed. */
export const usPlan = {
  probability: 0.975,
  samples: [
    { upTo: 11, n: 11, allowed: 0 },
    { upTo: 250, n: 12, allowed: 0 },
    { upTo: 3200, n: 24, allowed: 0 },
    { upTo: Number.POSITIVE_INFINITY, n: 48, allowed: 1 },
  ],
} as const

/** The reference test. Sizes and numbers by the size of the batch; destructive tests have one plan for every size. */
export const referencePlan = {
  smallestBatch: 100,
  smallBatchDefectivePct: 5,
  probability: 0.995,
  count: [
    { upTo: 500, n: 50, accept: 3 },
    { upTo: 3200, n: 80, accept: 5 },
    { upTo: Number.POSITIVE_INFINITY, n: 125, accept: 7 },
  ],
  mean: [
    { upTo: 500, n: 30, k: 0.503 },
    { upTo: Number.POSITIVE_INFINITY, n: 50, k: 0.379 },
  ],
  destructiveMean: { n: 20, k: 0.64 },
  /** Known from memory only: a verdict never rests on it. */
  destructiveCount: { n: 20, accept: 1 },
  /** Largest error of measurement, as a share of the tolerable error. */
  scaleShare: 1 / 5,
} as const

const sources: Readonly<Record<'EU' | 'GB', { readonly rules: Source; readonly test: Source }>> = {
  GB: {
    rules: {
      document: 'The Weights and Measures (Packaged Goods) Regulations 2006, SI 2006/659',
      section:
        "packers' rules, as given by nibusinessinfo.co.uk for the same Northern Ireland rules; tolerable errors as reproduced from Directive 76/211/EEC, Annex I, 2.4",
      edition: 'in force from 6 April 2006',
      url: 'https://www.legislation.gov.uk/uksi/2006/659',
      mark: 'quoted',
    },
    test: {
      document: 'The Weights and Measures (Packaged Goods) Regulations 2006, SI 2006/659',
      section: 'Schedule 2, paragraphs 3 and 4: reference test',
      edition: 'as made, in force from 6 April 2006',
      url: 'https://www.legislation.gov.uk/uksi/2006/659/schedule/2',
      mark: 'seen',
    },
  },
  EU: {
    rules: {
      document: 'Directive 76/211/EEC, Annex I',
      section: '1 and 2.4: mean, tolerable negative error, none beyond twice the error',
      edition: 'table read in reproductions; rules 1.2 and 1.3 read in a quotation',
      mark: 'quoted',
    },
    test: {
      document: 'Directive 76/211/EEC, Annex II',
      section: 'reference test',
      edition: 'read in its transposition, SI 2006/659, Schedule 2',
      mark: 'quoted',
    },
  },
}

const unreadUs: Source = {
  document: 'NIST Handbook 133, Checking the Net Contents of Packaged Goods',
  section: 'maximum allowable variations for meat and poultry, category A sampling plan',
  edition: 'not read',
  mark: 'from-memory',
}

const base = { topic: 'net-weight', weight: 'limit' } as const

const forPlace = (place: 'EU' | 'GB') => {
  const id = (name: string) => `${place.toLowerCase()}.net-weight.${name}`
  const { rules, test } = sources[place]
  const rule = (name: string, title: string, scope: string, unit: string, source: Source, anyOf?: string): Rule => ({
    ...base,
    id: id(name),
    title,
    jurisdiction: place,
    scope,
    unit,
    ...(anyOf === undefined ? {} : { anyOf: id(anyOf) }),
    values: [{ source }],
  })
  return {
    average: rule(
      'average',
      'Mean of the batch not below the nominal quantity',
      'Packs of one nominal quantity, 5 g to 50 kg. The whole batch is weighed, or the mean of a sample lies clear of it.',
      'g',
      rules,
      'mean',
    ),
    testMean: rule(
      'test-mean',
      'Reference test: mean of a sample',
      'Sample of 30 (batch of 100 to 500) or 50 packs (larger): mean at least nominal − 0.503 s or − 0.379 s; packs opened: 20, − 0.640 s. Under 100 packs every one is weighed.',
      'g',
      test,
      'mean',
    ),
    share: rule(
      't1',
      'At most 1 pack in 40 short by more than the tolerable error',
      'Every pack of the batch weighed.',
      '%',
      rules,
      'shortfall',
    ),
    testCount: rule(
      'test-count',
      'Reference test: packs short by more than the tolerable error',
      'Sample of 50 packs (batch of 100 to 500), 80 (to 3200) or 125: at most 3, 5 or 7 short. Under 100 packs: at most 5 % of them.',
      'packs',
      test,
      'shortfall',
    ),
    twice: rule(
      't2',
      'No pack short by more than twice the tolerable error',
      'Judged on the packs weighed; the others were not seen.',
      'g',
      rules,
    ),
    scale: rule(
      'scale',
      'Error of the scale at most one fifth of the tolerable error',
      'The scale packs are checked on.',
      'g',
      {
        ...test,
        section: 'Schedule 2, paragraph 1.3, read in the same rule for Northern Ireland, NISR 2011/331',
        mark: 'quoted',
      },
    ),
  }
}

export const netWeightRules = { EU: forPlace('EU'), GB: forPlace('GB') } as const

export const usNetWeight: Rule = {
  ...base,
  id: 'us.net-weight',
  title: 'Net contents by Handbook 133',
  jurisdiction: 'US',
  scope: 'Mean of an inspection lot, and no pack short by more than the maximum allowable variation.',
  unit: 'g',
  values: [{ source: unreadUs }],
}

export const usShort: Rule = {
  ...base,
  id: 'us.net-weight.mav',
  title: 'No pack short by more than the maximum allowable variation',
  jurisdiction: 'US',
  scope: 'Packs of meat and poultry; in a sample of 48 one such pack is allowed, in smaller samples none.',
  unit: 'g',
  values: [{ source: unreadUs }],
}

/** Places whose rules on net contents are not held: what to ask, and where. */
export const unheldNetWeight: Readonly<Record<'CA' | 'AU-NZ', Rule>> = {
  CA: {
    ...base,
    id: 'ca.net-weight',
    title: 'Net quantity by the Canadian tolerances',
    jurisdiction: 'CA',
    scope: 'Mean of a lot, and packs short by more than the tolerance.',
    unit: 'g',
    values: [
      {
        source: {
          document: 'Weights and Measures Regulations (Canada), C.R.C., c. 1605; Safe Food for Canadians Regulations',
          section: 'inspection of packs for net quantity, tolerances',
          edition: 'not read',
          mark: 'from-memory',
        },
      },
    ],
  },
  'AU-NZ': {
    ...base,
    id: 'au-nz.net-weight',
    title: 'Net quantity by the average quantity system',
    jurisdiction: 'AU-NZ',
    scope: 'Mean of a production run, packs under the nominal quantity by more than the tolerable deficiency.',
    unit: 'g',
    values: [
      {
        source: {
          document:
            'National Trade Measurement Regulations 2009 (Australia); Weights and Measures Regulations 1999 (New Zealand)',
          section: 'average quantity system, tolerable deficiencies',
          edition: 'not read',
          mark: 'from-memory',
        },
      },
    ],
  },
}

export const netWeightRuleList: readonly Rule[] = [
  ...Object.values(netWeightRules.EU),
  ...Object.values(netWeightRules.GB),
  usNetWeight,
  usShort,
  ...Object.values(unheldNetWeight),
]
