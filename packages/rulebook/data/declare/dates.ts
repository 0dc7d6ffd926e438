import type { DateRules } from '@forcemeat/craft/declare/dates'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

export const dateFigures: DateRules = {
  dayUpToMonths: 3,
  monthUpToMonths: 18,
  // Word for word; each of the four stands beside a graphic of its own, which is not drawn here.
  safeHandling: {
    US: [
      'Safe Handling Instructions',
      'This product was prepared from inspected and passed meat and/or poultry. Some food products may contain bacteria that could cause illness if the product is mishandled or cooked improperly. For your protection, follow these safe handling instructions.',
      'Keep refrigerated or frozen. Thaw in refrigerator or microwave.',
      'Keep raw meat and poultry separate from other foods. Wash working surfaces (including cutting boards), utensils, and hands after touching raw meat or poultry.',
      'Cook thoroughly.',
      'Keep hot foods hot. Refrigerate leftovers immediately or discard.',
    ],
  },
}

const fic = (section: string): Source => ({
  document: 'Regulation (EU) 1169/2011',
  section,
  edition: 'Article 24 and Annex X read in quotations; summaries of the FSAI and the University of Reading',
  mark: 'quoted',
})

const own: Source = {
  document: 'Shelf life of the kitchen',
  section: 'the life on the label is the one its own trials have shown',
  edition: 'this program',
  mark: 'common-practice',
}

const rule = (id: string, jurisdiction: string, title: string, scope: string, source: Source): Rule => ({
  id,
  title,
  jurisdiction,
  topic: 'label',
  scope,
  unit: '',
  weight: 'limit',
  values: [{ source }],
})

export const dateRules = {
  life: rule(
    'all.dates.validated',
    'everywhere',
    'The shelf life has a proof',
    'Every date on a label: a storage trial, a challenge test, a history of results of this product.',
    own,
  ),
  stable: rule(
    'all.dates.ambient',
    'everywhere',
    'Kept without refrigeration only where it is stable',
    'Products whose storage line does not ask for cold: a stability finding by pH, water activity or process stands behind it.',
    own,
  ),
  EU: {
    perishable: rule(
      'eu.dates.use-by',
      'EU',
      'Use by for what is highly perishable',
      'Foods that are highly perishable and so likely after a short period to be an immediate danger to health.',
      fic('Article 24(1)'),
    ),
    storage: rule(
      'eu.dates.storage',
      'EU',
      'Storage conditions stand with the date',
      'Every use-by date, and a best-before date that holds only under conditions.',
      fic('Article 25, Annex X points 1(b) and 2'),
    ),
    frozen: rule(
      'eu.dates.frozen-on',
      'EU',
      'Date of freezing on frozen meat and meat preparations',
      'Frozen meat and frozen meat preparations: the date of first freezing, day, month and year.',
      fic('Annex III point 6, Annex X point 3'),
    ),
  },
  US: {
    handling: rule(
      'us.317.2.safe-handling',
      'US',
      'Safe handling instructions',
      'Meat and poultry that is not ready to eat: prescribed heading, rationale and four statements, set off by a border, one colour on a contrasting ground, type of 1/16 inch or more.',
      {
        document: '9 CFR 317.2(l)',
        section: 'safe handling instructions; 59 FR 14528, 28 March 1994',
        edition: 'wording read in a reproduction of the model',
        url: 'https://www.govinfo.gov/content/pkg/FR-1994-03-28/html/94-7217.htm',
        mark: 'quoted',
      },
    ),
  },
} as const

const fdr = (section: string, edition: string, url: string): Source => ({
  document: 'Food and Drug Regulations (Canada), C.R.C., c. 870',
  section,
  edition,
  url,
  mark: 'seen',
})
const consolidated = 'consolidation of 21 November 2025, as published by the Department of Justice'
const code = (section: string): Source => ({
  document: 'Australia New Zealand Food Standards Code',
  section,
  edition: 'as made in 2015, read in the New Zealand Gazette of 8 May 2015, number 49; later amendments not read',
  url: 'https://www.legislation.gov.au/F2015L00401',
  mark: 'seen',
})

export const caDateRules = {
  form: rule(
    'ca.dates.durable-life',
    'CA',
    'Durable life date in the prescribed form',
    'Prepackaged products with a durable life of 90 days or less: "best before" and "meilleur avant" with the date, year first, month in words or by its prescribed abbreviation, then the day. No other system is allowed.',
    fdr(
      'B.01.007(1.1), (4), (5), (6)',
      consolidated,
      'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._870/',
    ),
  ),
  storage: rule(
    'ca.dates.storage',
    'CA',
    'Storage instructions',
    'Meat products that are not shelf stable: "Keep Refrigerated" and "Garder réfrigéré", or "Keep Frozen" and "Garder congelé", on the principal display panel.',
    {
      document: 'Canadian Food Inspection Agency, Labelling requirements for meat and poultry products',
      section:
        'date markings and storage instructions (Safe Food for Canadians Regulations, 48(2), 205(2), 283(1)(a), 286(b))',
      edition: 'as published on inspection.canada.ca',
      url: 'https://inspection.canada.ca/food-labels/labelling/industry/meat-and-poultry-products/eng/1393979114983/1393979162475?chap=8',
      mark: 'seen',
    },
  ),
} as const

export const auNzDateRules = {
  perishable: rule(
    'au-nz.dates.use-by',
    'AU-NZ',
    'Use by where safety asks for it, best before otherwise',
    'Packaged food with a life under two years: its use-by date where it should not be eaten after a day for reasons of health or safety, its best-before date otherwise.',
    code('Standard 1.2.5, 1.2.5—3 and 1.2.5—5'),
  ),
  storage: rule(
    'au-nz.dates.storage',
    'AU-NZ',
    'Storage conditions stand with the date',
    'Storage conditions the food has to be kept under to last to its date.',
    code('Standard 1.2.1, 1.2.1—8(1)(g), and Standard 1.2.6 as in the Gazette of 20 December 2000'),
  ),
} as const

const gb = (r: Rule): Rule => ({
  ...r,
  id: r.id.replace('eu.', 'gb.'),
  jurisdiction: 'GB',
  values: r.values.map((v) => ({
    ...v,
    source: { ...v.source, section: `${v.source.section}, kept in Great Britain` },
  })),
})

export const gbDateRules = {
  perishable: gb(dateRules.EU.perishable),
  storage: gb(dateRules.EU.storage),
  frozen: gb(dateRules.EU.frozen),
} as const

export const dateRuleList: readonly Rule[] = [
  dateRules.life,
  dateRules.stable,
  ...Object.values(dateRules.EU),
  ...Object.values(gbDateRules),
  dateRules.US.handling,
  ...Object.values(caDateRules),
  ...Object.values(auNzDateRules),
]
