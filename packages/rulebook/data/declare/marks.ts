import type { MarkRules } from '@forcemeat/craft/declare/label/mark'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

export const markFigures: MarkRules = {
  unionCountries: 'AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK'.split(' '),
  unionLetters: 'EU',
  britain: ['GB', 'UK'],
  roomMm: 20,
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

const eu: Source = {
  document: 'Regulation (EC) 853/2004, Article 5 and Annex II, Section I; Regulation (EU) 2024/1141',
  section: 'identification mark: legible, indelible, approval number, country, oval and the letters of the Union',
  edition:
    'as the Food Safety Authority of Ireland gives it; the letters EU in place of EC, which may stay until 31 December 2028, from a trade page on 2024/1141',
  url: 'https://fsai.ie/enforcement-and-legislation/legislation/food-legislation/meat-fresh-meat/identification-marking-and-labelling',
  mark: 'quoted',
}
const gb: Source = {
  document: 'SI 2019/640, regulation 18, as substituted by SI 2020/1504, in Regulation (EC) 853/2004 as kept',
  section: 'Annex II, Section I, Part B, points 5 to 9: oval, UK or GB, approval number',
  edition: 'as of 31 December 2020, legislation.gov.uk',
  url: 'https://legislation.gov.uk/uksi/2019/640/regulation/18/2020-12-31/data.xht',
  mark: 'seen',
}
const us: Source = {
  document: '9 CFR 312.2(b), 317.2 and 317.3(b)',
  section:
    'official inspection legend with the establishment number, in the form of the illustration; nobody prints one without the authority of the Administrator',
  edition: 'copies of 312.2 and 317.3 read, without the illustration',
  url: 'https://www.ecfr.gov/current/title-9/section-312.2',
  mark: 'quoted',
}
const ca: Source = {
  document: 'Safe Food for Canadians Regulations, SOR/2018-108',
  section:
    'section 287 and Schedule 2: inspection legend of a prepackaged edible meat product sent to another province or exported',
  edition: 'section read in a reproduction, the figures of the schedule not',
  mark: 'quoted',
}
const unread = (document: string, section: string): Source => ({
  document,
  section,
  edition: 'not read',
  mark: 'from-memory',
})

const premises = (id: string, place: string, source: Source): Rule =>
  rule(
    `${id}.label.premises`,
    place,
    'It is said how the place it is made in stands',
    'Meat products bear a mark of the inspected or approved establishment they are made in. A kitchen that needs none says under which exemption; whether the exemption holds, for instance for what is sold to shops or other businesses, is not judged here.',
    source,
  )

type MarkPlace = 'US' | 'EU' | 'GB' | 'CA'
export const markRules: Readonly<
  Record<MarkPlace, { readonly premises: Rule; readonly mark: Rule; readonly legend?: Rule }>
> = {
  US: {
    premises: premises(
      'us',
      'US',
      unread('9 CFR 303.1', 'exemptions from inspection: retail stores and restaurants, custom preparation'),
    ),
    mark: rule(
      'us.label.inspection-mark',
      'US',
      'Room for the inspection legend, and an establishment number',
      'Product of an official establishment: the number, which may stand elsewhere on the label, and a clear room for the legend.',
      us,
    ),
    legend: rule(
      'us.label.inspection.legend',
      'US',
      'The inspection legend is printed from approved artwork',
      'The legend is a drawing of the regulation that keeps its proportions at any size. It is not drawn by this program.',
      us,
    ),
  },
  CA: {
    premises: premises(
      'ca',
      'CA',
      unread(
        'Safe Food for Canadians Regulations, SOR/2018-108',
        'product that is not sent to another province; provincial rules',
      ),
    ),
    mark: rule(
      'ca.label.inspection-mark',
      'CA',
      'Room for the inspection legend, and an establishment number',
      'Prepackaged meat product sent from one province to another: a clear room for the legend, and the number of the establishment.',
      ca,
    ),
    legend: rule(
      'ca.label.inspection.legend',
      'CA',
      'The inspection legend is printed from the artwork of the schedule',
      'The legend is a drawing of the regulations. It is not drawn by this program.',
      ca,
    ),
  },
  EU: {
    premises: premises(
      'eu',
      'EU',
      unread('Regulation (EC) 853/2004, Article 1(3) to (5)', 'retail supply straight to the consumer, and its limits'),
    ),
    mark: rule(
      'eu.label.identification-mark',
      'EU',
      'Identification mark with country and approval number',
      'Product of an approved establishment: the country, in full or by its two-letter code, and the approval number; in the Union in an oval with the letters of the Union.',
      eu,
    ),
  },
  GB: {
    premises: premises(
      'gb',
      'GB',
      unread(
        'Regulation (EC) 853/2004 as kept, Article 1(3) to (5)',
        'retail supply straight to the consumer, and its limits',
      ),
    ),
    mark: rule(
      'gb.label.identification-mark',
      'GB',
      'Identification mark with country and approval number',
      'Product of an approved establishment: in Great Britain an oval with UK or GB and the approval number; elsewhere the country and the number.',
      gb,
    ),
  },
}

export const markRuleList: readonly Rule[] = Object.values(markRules).flatMap((r) => Object.values(r))
