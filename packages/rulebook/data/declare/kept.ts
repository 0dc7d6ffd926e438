import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'

/** How warm a product may be said to be kept. */
const rule = (id: string, jurisdiction: string, title: string, scope: string, max: number, source: Source): Rule => ({
  id,
  title,
  jurisdiction,
  topic: 'label',
  scope,
  unit: '°C',
  weight: 'limit',
  values: [{ max, source }],
})

const hygiene = (section: string, mark: Source['mark']): Source => ({
  document: 'Regulation (EC) No 853/2004, Annex III',
  section,
  edition:
    mark === 'quoted'
      ? 'figures as quoted in a register of legal duties for food businesses; not read in the regulation itself'
      : 'not read',
  url: 'https://www.legislation.gov.uk/eur/2004/853/annex/III',
  mark,
})

const memory = (document: string, section: string): Source => ({
  document,
  section,
  edition: 'not read',
  mark: 'from-memory',
})

const raw = 'Raw products kept chilled: what the label says of the warmest they may be kept at.'

const european = (place: 'EU' | 'GB'): readonly Rule[] => [
  rule(
    `${place.toLowerCase()}.dates.kept-raw-meat`,
    place,
    'Raw meat is kept at 7 °C or below',
    raw,
    7,
    hygiene('section I chapter VII: meat other than offal, at every point', 'quoted'),
  ),
  rule(
    `${place.toLowerCase()}.dates.kept-raw-preparation`,
    place,
    'Meat preparations are kept at 4 °C or below',
    raw,
    4,
    hygiene('section V chapter III: meat preparations, after production', 'from-memory'),
  ),
]

/** Raw products, by place; every figure of a place holds. */
export const keptRaw: Readonly<Record<string, readonly Rule[]>> = {
  EU: european('EU'),
  GB: european('GB'),
  US: [
    rule(
      'us.dates.kept-raw',
      'US',
      'Raw meat is kept at 5 °C (41 °F) or below',
      raw,
      5,
      memory('FDA Food Code', '3-501.16: food that needs time and temperature control, held cold'),
    ),
  ],
  CA: [
    rule(
      'ca.dates.kept-raw',
      'CA',
      'Raw meat is kept at 4 °C or below',
      raw,
      4,
      memory('Common practice of cold stores in Canada', 'chilled meat'),
    ),
  ],
  'AU-NZ': [
    rule(
      'au-nz.dates.kept-raw',
      'AU-NZ',
      'Raw meat is kept at 5 °C or below',
      raw,
      5,
      memory('Australia New Zealand Food Standards Code', 'Standard 3.2.2 (Australia only): temperature control'),
    ),
  ],
}

/** Storage of the classes of Leistner and Rödel; both temperatures from memory. */
const classes = memory(
  'Leistner and Rödel, classes of meat products by pH and water activity',
  'storage of the classes',
)
export const keptRules = {
  /** Warmest of any class that has to be kept cold. */
  perishable: rule(
    'all.dates.kept-perishable',
    EVERYWHERE,
    'A perishable product is kept at 10 °C or below',
    'Products kept chilled that were not found shelf-stable.',
    10,
    classes,
  ),
  veryPerishable: rule(
    'all.dates.kept-very-perishable',
    EVERYWHERE,
    'A very perishable product is kept at 5 °C or below',
    'Cooked products kept chilled; fermented and dried ones that were found in no better class.',
    5,
    classes,
  ),
  frozen: rule(
    'all.dates.kept-frozen',
    EVERYWHERE,
    'Kept frozen at −18 °C or below',
    'Products kept frozen.',
    -18,
    memory('Directive 89/108/EEC', 'quick-frozen foods; common practice for others'),
  ),
} as const

/** Above it nothing is frozen hard, whatever is said of the place, °C; common practice, no source. */
export const NOT_FROZEN_ABOVE_C = -12

export const rawPerishable: Rule = {
  id: 'all.dates.raw-perishable',
  title: 'Raw meat is dated as highly perishable',
  jurisdiction: EVERYWHERE,
  topic: 'label',
  scope: 'Raw products kept chilled that are said not to be highly perishable.',
  unit: '',
  weight: 'limit',
  values: [
    {
      source: {
        document: 'Dating of raw meat',
        section: 'chilled raw meat is taken to be highly perishable unless its maker shows otherwise',
        edition: 'practice of the trade; no text that names raw meat was read',
        mark: 'common-practice',
      },
    },
  ],
}

export const keptRuleList: readonly Rule[] = [
  ...Object.values(keptRaw).flat(),
  ...Object.values(keptRules),
  rawPerishable,
]
