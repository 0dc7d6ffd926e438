import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'
import { trade } from '../sources.ts'

/** Classes of chilled meat that a temperature on arrival is published for. */
export const arrivalClasses = ['red', 'poultry', 'offal', 'minced'] as const
export type ArrivalClass = (typeof arrivalClasses)[number]

const measure = 'arrivalC'
const limit = { topic: 'process', measure, unit: '°C', weight: 'limit' } as const

const eu = (section: string): Source => ({
  document: 'Regulation (EC) No 853/2004, Annex III',
  section,
  edition: 'figures as quoted in a register of legal duties for food businesses; not read in the regulation itself',
  url: 'https://www.legislation.gov.uk/eur/2004/853/annex/III',
  mark: 'quoted',
})

type Row = {
  readonly of: ArrivalClass
  readonly name: string
  readonly what: string
  readonly max: number
  readonly section: string
}

const rows: readonly Row[] = [
  {
    of: 'red',
    name: 'meat',
    what: 'meat of pigs, cattle, sheep, goats, horses and large game',
    max: 7,
    section: 'section I chapter VII: meat other than offal, at every point',
  },
  { of: 'offal', name: 'offal', what: 'offal', max: 3, section: 'section I chapter VII: offal' },
  {
    of: 'poultry',
    name: 'poultry',
    what: 'meat of birds and rabbits',
    max: 4,
    section: 'section II chapter V: meat of poultry and lagomorphs',
  },
  {
    of: 'minced',
    name: 'minced meat',
    what: 'minced meat and mechanically separated meat, chilled',
    max: 2,
    section: 'section V chapter III: minced meat',
  },
]

const foodCode: Source = {
  document: 'FDA Food Code',
  section:
    'refrigerated food that needs time and temperature control, when received (section number, from memory: 3-202.11)',
  edition: 'as quoted; retail food code, in force where a state has adopted it',
  mark: 'quoted',
}

const chilled = { meatClass: [...arrivalClasses] }

/** How cold meat must be when it comes in at the door. A limit of law where one was found; elsewhere advice. */
export const arrivalRules: readonly Rule[] = [
  ...(['EU', 'GB'] as const).flatMap((place) =>
    rows.map(({ of, name, what, max, section }): Rule => ({
      ...limit,
      id: `receive.${place.toLowerCase()}.${of}`,
      title: `Arrival of ${name}: at most ${max} °C`,
      jurisdiction: place,
      scope: `${what}, chilled, on arrival`,
      when: { meatClass: [of] },
      values: [{ max, source: eu(section) }],
      ...(of === 'red'
        ? {
            note: 'Warm meat straight from slaughter may travel warmer where the authority allows it; ask for that paper.',
          }
        : {}),
    })),
  ),
  ...(['US', 'US-home'] as const).map((place): Rule => ({
    ...limit,
    weight: 'advice',
    id: `receive.${place.toLowerCase()}.food-code`,
    title: 'Arrival of chilled meat: at most 5 °C (41 °F)',
    jurisdiction: place,
    scope: 'chilled meat on arrival',
    when: chilled,
    values: [{ max: 5, source: foodCode }],
    note: 'A rule of retail kitchens. An inspected plant sets its own in its hazard plan; 4.4 °C (40 °F) is usual, common practice without a source.',
  })),
  {
    ...limit,
    weight: 'advice',
    id: 'receive.au-nz.cold',
    title: 'Arrival of chilled meat: at most 5 °C',
    jurisdiction: 'AU-NZ',
    scope: 'chilled meat on arrival',
    when: chilled,
    values: [
      {
        max: 5,
        source: {
          document: 'Australia New Zealand Food Standards Code, Standard 3.2.2 (Australia only)',
          section: 'food receipt: potentially hazardous food under temperature control',
          edition: 'not read',
          mark: 'from-memory',
        },
      },
    ],
  },
  {
    ...limit,
    weight: 'advice',
    id: 'receive.ca.cold',
    title: 'Arrival of chilled meat: at most 4 °C',
    jurisdiction: 'CA',
    scope: 'chilled meat on arrival',
    when: chilled,
    values: [{ max: 4, source: trade('arrival of chilled meat, Canada') }],
  },
]

/** The kitchen's own limits, as it set them in its record; no law. */
export const ownLimitRules = {
  arrival: {
    id: 'receive.own',
    title: "Arrival of chilled meat: the kitchen's own limit",
    jurisdiction: EVERYWHERE,
    topic: 'process',
    scope: 'chilled meat on arrival, where the kitchen has set a limit of its own',
    unit: '°C',
    weight: 'advice',
    values: [{ source: trade('a limit the kitchen set itself') }],
  },
  reworkShare: {
    id: 'rework.own-share',
    title: "Share of rework: the kitchen's own limit",
    jurisdiction: EVERYWHERE,
    topic: 'process',
    scope: 'rework weighed into a batch, where the kitchen has set the most it allows',
    unit: '%',
    weight: 'advice',
    values: [{ source: trade('a limit the kitchen set itself') }],
  },
  reworkAge: {
    id: 'rework.own-age',
    title: "Age of rework: the kitchen's own limit",
    jurisdiction: EVERYWHERE,
    topic: 'process',
    scope: 'days between taking rework and weighing it in, where the kitchen has set the most it allows',
    unit: 'days',
    weight: 'advice',
    values: [{ source: trade('a limit the kitchen set itself') }],
  },
} as const satisfies Readonly<Record<string, Rule>>

/** Published limits of rework. */
export const reworkRules: readonly Rule[] = [
  {
    ...limit,
    measure: 'reworkPct',
    unit: '%',
    weight: 'advice',
    id: 'rework.ca.cased',
    title: 'Sausage re-worked with its casing: at most 3 % of the new product',
    jurisdiction: 'CA',
    scope: 'rework of cased sausage together with its natural or edible casing',
    values: [
      {
        max: 3,
        source: {
          document: 'CFIA Meat Hygiene Manual of Procedures, chapter 4 (archived)',
          section: 'rework of cased sausage',
          edition: 'archived text, in copies of third parties; standing in law to be checked',
          mark: 'quoted',
        },
      },
    ],
    note: 'The record does not say whether the casing was taken off: above 3 % this cannot be told.',
  },
]
