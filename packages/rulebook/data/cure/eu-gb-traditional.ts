import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { eu1333, eu2108, gb1333 } from '../sources.ts'

const CHANGE = '2025-10-09'

type Row = {
  readonly id: string
  readonly name: string
  /** mg/kg as sodium nitrite or sodium nitrate; a nitrite of 0 is "without added nitrite". */
  readonly nitriteAdded?: number
  readonly nitriteLeft?: number
  readonly nitrateAdded?: number
  readonly nitrateLeft?: number
  /** Row read only in a list that reproduces it, not in the text. */
  readonly quoted?: true
}

/** Category 08.3.4 as it stood in the EU until 8 October 2025, and as kept in Great Britain. */
const rows: readonly Row[] = [
  { id: 'wiltshire-bacon', name: 'Wiltshire bacon and similar', nitriteLeft: 175, nitrateLeft: 250 },
  { id: 'wiltshire-ham', name: 'Wiltshire ham and similar', nitriteLeft: 100, nitrateLeft: 250 },
  {
    id: 'entremeada',
    name: 'Entremeada, entrecosto, chispe, orelheira e cabeça (salgados), toucinho fumado',
    nitriteLeft: 175,
    nitrateLeft: 250,
  },
  { id: 'cured-tongue', name: 'Cured tongue', nitriteLeft: 50, nitrateLeft: 10 },
  { id: 'rohschinken', name: 'Rohschinken, wet, dry or both', nitriteLeft: 50, nitrateLeft: 250 },
  { id: 'reindeer', name: 'Kylmäsavustettu poronliha, kallrökt renkött', nitrateAdded: 300 },
  { id: 'bacon-filet', name: 'Bacon, filet de bacon and similar', nitriteAdded: 0, nitrateLeft: 250 },
  { id: 'dry-cured-bacon', name: 'Dry-cured bacon and similar', nitriteLeft: 175, nitrateLeft: 250 },
  {
    id: 'dry-cured-ham',
    name: 'Dry-cured ham; jamón, paleta, lomo embuchado, cecina; presunto, paio do lombo',
    nitriteLeft: 100,
    nitrateLeft: 250,
  },
  {
    id: 'jambon-sec',
    name: 'Jambon sec, jambon sel sec and other matured dry pieces',
    nitriteAdded: 0,
    nitrateLeft: 250,
    quoted: true,
  },
  {
    id: 'named-salami',
    name: 'Vysočina, Selský salám, Turistický trvanlivý salám, Poličan, Herkules, Lovecký salám, Dunajská klobása, Paprikáš and similar',
    nitriteAdded: 180,
  },
  { id: 'rohwurst', name: 'Rohwürste (Salami and Kantwurst)', nitriteAdded: 0, nitrateAdded: 300, quoted: true },
  {
    id: 'salchichon',
    name: 'Salchichón y chorizo tradicionales de larga curación, saucissons secs and similar',
    nitriteAdded: 0,
    nitrateAdded: 250,
    quoted: true,
  },
]

/** Names of category 08.3.4 a recipe may be sold under. */
export const traditionalStandards: Readonly<Record<string, string>> = Object.fromEntries(
  rows.map((r) => [`eu.08.3.4.${r.id}`, r.name]),
)

const limits = [
  ['nitriteAdded', 'nitritePpm', 'Nitrite added', 'as sodium nitrite, added, on the meat block'],
  ['nitriteLeft', 'residualNitritePpm', 'Nitrite left', 'as sodium nitrite, at the end of production'],
  ['nitrateAdded', 'nitratePpm', 'Nitrate added', 'as sodium nitrate, added, on the meat block'],
  ['nitrateLeft', 'residualNitratePpm', 'Nitrate left', 'as sodium nitrate, at the end of production'],
] as const

const other = 'an amount the row does not name is not allowed by it'

const rowRules = (row: Row, jurisdiction: 'EU' | 'GB'): Rule[] => {
  const where = jurisdiction === 'EU' ? eu1333 : gb1333
  const source: Source = where(`08.3.4, ${row.name.slice(0, 60)}`, row.quoted ? 'quoted' : 'seen')
  return limits.flatMap(([key, measure, title, basis]): Rule[] => {
    const max = row[key]
    if (max === undefined) return []
    return [
      {
        jurisdiction,
        topic: 'cure',
        unit: 'mg/kg',
        weight: 'limit',
        id: `${jurisdiction.toLowerCase()}.08.3.4.${row.id}.${key}`,
        title: `${title}, ${row.name}`,
        scope: `sold as ${row.name}`,
        when: { [`standard:eu.08.3.4.${row.id}`]: [true], cured: [true] },
        measure,
        basis,
        values: [{ ...(jurisdiction === 'EU' ? { until: CHANGE } : {}), max, source }],
        note: `Footnote 7 marks what may be added, 39 what may be left; ${other}.`,
      },
    ]
  })
}

const unread = (
  jurisdiction: 'EU' | 'GB',
  id: string,
  when: NonNullable<Rule['when']>,
  because: string,
  from?: string,
): Rule => ({
  jurisdiction,
  topic: 'cure',
  unit: '',
  weight: 'limit',
  id,
  title: 'Traditional cured products have rows of their own',
  scope: 'category 08.3.4: Wiltshire, dry-cured ham and bacon, Rohschinken, named salamis and others',
  when: { euCategory: ['08.3.4'], cured: [true], ...when },
  finding: { verdict: 'cannot-tell', because, settle: "the product's own row of category 08.3.4 in the text in force" },
  values: [
    from === undefined
      ? { source: jurisdiction === 'EU' ? eu1333('08.3.4') : gb1333('08.3.4') }
      : { from, source: eu2108('category 08.3.4') },
  ],
})

const rowNotNamed =
  'category 08.3.4 sets its limits product by product, some on what is added and some on what is left, and which product this is was not said'

export const traditionalCureRules: readonly Rule[] = [
  ...rows.flatMap((row) => [...rowRules(row, 'EU'), ...rowRules(row, 'GB')]),
  unread('GB', 'gb.1333.traditional', { traditionalRow: [false] }, rowNotNamed),
  unread('EU', 'eu.1333.traditional', { traditionalRow: [false] }, rowNotNamed),
  unread(
    'EU',
    'eu.2108.traditional',
    { traditionalRow: [true] },
    'the rows of category 08.3.4 changed on 9 October 2025 and the new ones were not read',
    CHANGE,
  ),
]
