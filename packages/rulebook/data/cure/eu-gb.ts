import type { Dated, Rule } from '../../src/rule.ts'
import { eu1333, eu2108, gb1333 } from '../sources.ts'

const CHANGE = '2025-10-09'
const press = 'the trade press (ingredientsnetwork.com, late 2025)'
const cure = { topic: 'cure', unit: 'mg/kg', weight: 'limit' } as const
const perMeat =
  'The text does not spell out what the added amount is divided by; the green weight of the meat block is taken, which gives the highest figure.'
const asSalt = { measure: 'nitritePpm', basis: 'as sodium nitrite, added, on the meat block' } as const
const asIon = { measure: 'nitritePpmIon', basis: 'as nitrite ion, added, on the meat block', step: 0.1 } as const

type Row = {
  readonly id: string
  readonly title: string
  readonly scope: string
  readonly when: NonNullable<Rule['when']>
}

const heated: Row = {
  id: '08.3.2',
  title: 'heat-treated products',
  scope: 'category 08.3.2, heat-treated, not sterilised',
  when: { euCategory: ['08.3.2'] },
}
const sterilised: Row = {
  id: '08.3.2-sterilised',
  title: 'sterilised products',
  scope: 'category 08.3.2, sterilised, Fo above 3.00',
  when: { euCategory: ['08.3.2-sterilised'] },
}
const unheated: Row = {
  id: '08.3.1',
  title: 'products not heat-treated',
  scope: 'category 08.3.1, not heat-treated: fermented, dried, raw cured',
  when: { euCategory: ['08.3.1'] },
}

const old = (mgPerKg: number, section: string): Dated => ({ until: CHANGE, max: mgPerKg, source: eu1333(section) })
/** Known from reports only. */
const reported = (mgPerKg: number, section: string): Dated => ({
  from: CHANGE,
  max: mgPerKg,
  secondHand: press,
  source: eu2108(section),
})
/** The row itself read, quoted word for word; that it counts the ion is as AGRINFO and the trade report it, its footnotes were not read. */
const rowRead = (mgPerKg: number, section: string): Dated => ({ from: CHANGE, max: mgPerKg, source: eu2108(section) })
const unread = (mgPerKg: number, section: string): Dated => ({
  from: CHANGE,
  max: mgPerKg,
  source: eu2108(section, 'from-memory'),
})

const euAdded = (row: Row, before: number, after: Dated): Rule[] => [
  {
    ...cure,
    ...asSalt,
    jurisdiction: 'EU',
    id: `eu.1333.nitrite.${row.id}`,
    title: `Nitrite added, ${row.title} (until 8 October 2025, as salt)`,
    scope: row.scope,
    when: { ...row.when, cured: [true] },
    values: [old(before, `${row.id.slice(0, 6)}, E 249-250, footnote 7`)],
    note: perMeat,
  },
  {
    ...cure,
    ...asIon,
    jurisdiction: 'EU',
    id: `eu.2108.nitrite.${row.id}`,
    title: `Nitrite added, ${row.title} (from 9 October 2025, as ion)`,
    scope: row.scope,
    when: { ...row.when, cured: [true] },
    values: [after],
    note: `Expressed as the ion: 1 mg of sodium nitrite holds 0.66679 mg. Compared to a tenth of mg/kg, so that 120 mg/kg of sodium nitrite (80.01 as ion) counts as 80. ${perMeat}`,
  },
]

const gbAdded = (row: Row, max: number): Rule => ({
  ...cure,
  ...asSalt,
  jurisdiction: 'GB',
  id: `gb.1333.nitrite.${row.id}`,
  title: `Nitrite added, ${row.title}`,
  scope: row.scope,
  when: { ...row.when, cured: [true] },
  values: [{ max, source: gb1333(`${row.id.slice(0, 6)}, E 249-250, footnote 7; same figure in SI 2007/1778 Sch. 1`) }],
  note: `The cuts of Regulation (EU) 2023/2108 were not taken over when last reported (late 2025). ${perMeat}`,
})

const residual = (row: Row, max: number): Rule => ({
  ...cure,
  jurisdiction: 'EU',
  id: `eu.2108.nitrite-residual.${row.id}`,
  title: `Nitrite left, ${row.title} (from 9 October 2025, as ion)`,
  scope: `${row.scope}; from all sources, through the whole shelf life`,
  when: { ...row.when, cured: [true] },
  measure: 'residualNitritePpmIon',
  basis: 'as nitrite ion, in the product as sold',
  values: [unread(max, `category ${row.id.slice(0, 6)}, E 249-250, residual`)],
})

/** Nitrite and nitrate in EU and GB sausages: before and from 9 October 2025 in the EU, unchanged in GB. */
export const euGbCureRules: readonly Rule[] = [
  ...euAdded(
    heated,
    150,
    rowRead(80, 'E 249-250, footnotes 59, XC, XD: except sterilised meat products (Fo > 3.00), from 9 October 2025'),
  ),
  ...euAdded(sterilised, 100, reported(55, 'category 08.3.2, E 249-250, added')),
  ...euAdded(unheated, 150, reported(80, 'category 08.3.1, E 249-250, added')),
  residual(heated, 45),
  residual(sterilised, 25),
  residual(unheated, 45),
  gbAdded(heated, 150),
  gbAdded(sterilised, 100),
  gbAdded(unheated, 150),
  {
    ...cure,
    jurisdiction: 'EU',
    id: 'eu.1333.nitrate.08.3.1',
    title: 'Nitrate added, products not heat-treated (until 8 October 2025, as salt)',
    scope: unheated.scope,
    when: { ...unheated.when, cured: [true] },
    measure: 'nitratePpm',
    basis: 'as sodium nitrate, added, on the meat block',
    values: [old(150, '08.3.1, E 251-252, footnote 7')],
  },
  {
    ...cure,
    jurisdiction: 'EU',
    id: 'eu.2108.nitrate.08.3.1',
    title: 'Nitrate added, products not heat-treated (from 9 October 2025, as ion)',
    scope: unheated.scope,
    when: { ...unheated.when, nitrateAdded: [true] },
    measure: 'nitratePpmIon',
    basis: 'as nitrate ion, added, on the meat block',
    step: 0.1,
    values: [unread(90, 'category 08.3.1, E 251-252')],
    note: 'A nitrate residue above the level leaves the product saleable; the maker must then find the cause.',
  },
  {
    ...cure,
    jurisdiction: 'EU',
    id: 'eu.1333.nitrate.08.3.2',
    title: 'No nitrate added to heat-treated products',
    scope:
      'category 08.3.2: no entry for E 251-252 (nitrate that nitrite turned into is not added nitrate, footnote 59)',
    when: { euCategory: ['08.3.2', '08.3.2-sterilised'], cured: [true] },
    measure: 'nitratePpm',
    basis: 'as sodium nitrate, added',
    values: [
      { until: CHANGE, max: 0, source: eu1333('08.3.2: no entry for E 251-252') },
      { from: CHANGE, max: 0, secondHand: press, source: eu2108('category 08.3.2: no entry for E 251-252') },
    ],
  },
  {
    ...cure,
    jurisdiction: 'GB',
    id: 'gb.1333.nitrate.08.3.1',
    title: 'Nitrate added, products not heat-treated',
    scope: unheated.scope,
    when: { ...unheated.when, cured: [true] },
    measure: 'nitratePpm',
    basis: 'as sodium nitrate, added, on the meat block',
    values: [{ max: 150, source: gb1333('08.3.1, E 251-252, footnote 7') }],
  },
  {
    ...cure,
    jurisdiction: 'GB',
    id: 'gb.1333.nitrate.08.3.2',
    title: 'No nitrate added to heat-treated products',
    scope: 'category 08.3.2: no entry for E 251-252',
    when: { euCategory: ['08.3.2', '08.3.2-sterilised'], cured: [true] },
    measure: 'nitratePpm',
    basis: 'as sodium nitrate, added',
    values: [{ max: 0, source: gb1333('08.3.2: no entry for E 251-252') }],
  },
  ...(['EU', 'GB'] as const).flatMap((jurisdiction): Rule[] => [
    {
      ...cure,
      jurisdiction,
      unit: '',
      id: `${jurisdiction.toLowerCase()}.1333.preparations`,
      title: 'Nitrite in fresh sausage: named preparations only',
      scope: 'category 08.2, meat preparations: fresh sausage, burger meat',
      when: { euCategory: ['08.2'], cured: [true] },
      finding: {
        verdict: 'cannot-tell',
        because:
          'nitrite in a fresh meat preparation is allowed only in preparations the annex names (kiełbasa surowa biała, Bräte, toorvorst and a few others), and whether this is one of them is not known',
        settle: 'the name the product is sold under, held against category 08.2; otherwise leave the cure out',
      },
      values: [{ source: jurisdiction === 'EU' ? eu1333('08.2, E 249-250') : gb1333('08.2, E 249-250') }],
    },
  ]),
]
