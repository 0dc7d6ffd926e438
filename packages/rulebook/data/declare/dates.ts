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
]
