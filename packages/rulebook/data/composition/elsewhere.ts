import type { Mark } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'
import { anz221, caFdr, si3001 } from '../sources.ts'

const limit = { topic: 'composition', unit: '%', weight: 'limit' } as const

/** Reserved names of Great Britain: least meat by the kind of meat used: pig only, bird or rabbit only, other or mixed. */
const reserved: readonly { id: string; name: string; item: string; pig?: number; bird?: number; other?: number }[] = [
  { id: 'burger', name: 'Burger', item: '1', pig: 67, bird: 55, other: 62 },
  { id: 'economy-burger', name: 'Economy burger', item: '2', pig: 50, bird: 41, other: 47 },
  { id: 'hamburger', name: 'Hamburger', item: '3', pig: 67, other: 62 },
  { id: 'chopped', name: 'Chopped X', item: '4', pig: 75, bird: 62, other: 70 },
  { id: 'luncheon', name: 'Luncheon meat, luncheon X', item: '6', pig: 67, bird: 55, other: 62 },
  { id: 'sausage-roll', name: 'Sausage roll, pasty', item: '10', pig: 6, bird: 6, other: 6 },
  { id: 'pork-sausage', name: 'Pork sausage', item: '11(a)', pig: 42 },
  { id: 'sausage', name: 'Sausage, link, chipolata, sausage meat', item: '11(b)', pig: 32, bird: 26, other: 30 },
]

const meatCounts =
  'Meat counts only after fat and connective tissue beyond the species limits of Regulation (EU) No 1169/2011 Annex VII B 17 are taken off: until that is reckoned, the meat weighed in is only the most it can be.'

const gbReserved: readonly Rule[] = reserved.flatMap(({ id, name, item, pig, bird, other }) =>
  (
    [
      ['pig', pig],
      ['bird', bird],
      ['other', other],
    ] as const
  ).flatMap(([meat, min]): Rule[] => {
    if (min === undefined) return []
    return [
      {
        ...limit,
        jurisdiction: 'GB',
        id: `gb.3001.${id}.${meat}`,
        title: `Meat, ${name} (${meat === 'pig' ? 'pig meat only' : meat === 'bird' ? 'bird or rabbit only' : 'other meat or mixtures'})`,
        scope: `sold under the name ${name}`,
        when: { [`standard:gb.3001.${id}`]: [true], meatKind: [meat] },
        measure: 'declaredMeatPct',
        basis: ['4', '6'].includes(item)
          ? 'raw meat, of the cooked finished product'
          : 'raw meat, of all ingredients as used',
        values: [{ from: '2014-12-13', min, source: si3001(`Schedule 1, item ${item}`) }],
        note: `${meatCounts} Where the name is qualified by a meat, that meat alone must meet the figure.`,
      },
    ]
  }),
)

/** Names under which a product may be sold, outside the USA, with the rules they bring. */
export const elsewhereStandards = {
  ...Object.fromEntries(reserved.map((r) => [`gb.3001.${r.id}`, r.name])),
  'eu.1169.minced.lean': 'Lean minced meat',
  'eu.1169.minced.beef': 'Minced pure beef',
  'eu.1169.minced.pigmeat': 'Minced meat containing pigmeat',
  'eu.1169.minced.other': 'Minced meat of other species',
  'ca.b14.sausage.fresh': 'Fresh sausage',
  'ca.b14.sausage.cooked': 'Cooked sausage, loaf, luncheon meat',
  'anz.2.2.1.sausage': 'Sausage',
} as const

/** Fat, and collagen of the meat protein, percent, of each designation of minced meat. */
export const minced: readonly [string, string, number, number][] = [
  ['lean', 'Lean minced meat', 7, 12],
  ['beef', 'Minced pure beef', 20, 15],
  ['pigmeat', 'Minced meat containing pigmeat', 30, 18],
  ['other', 'Minced meat of other species', 25, 15],
]

const mincedRules = (jurisdiction: 'EU' | 'GB'): Rule[] =>
  minced.flatMap(([id, name, fat, collagen]): Rule[] => {
    const source = {
      document: 'Regulation (EU) No 1169/2011',
      section: 'Annex VI Part B point 1',
      edition: 'figures read in SI 1995/3205 Sch. 11 para 1, which has the same table',
      mark: 'quoted',
    } as const
    const base = {
      ...limit,
      jurisdiction,
      scope: `sold under the name ${name}`,
      when: { [`standard:eu.1169.minced.${id}`]: [true] },
    }
    return [
      {
        ...base,
        id: `${jurisdiction.toLowerCase()}.1169.minced.${id}.fat`,
        title: `Fat, ${name}`,
        measure: 'fatPct',
        basis: 'of the minced meat',
        values: [{ max: fat, source }],
      },
      {
        ...base,
        id: `${jurisdiction.toLowerCase()}.1169.minced.${id}.collagen`,
        title: `Collagen in meat protein, ${name}`,
        measure: 'collagenOfProteinPct',
        basis: 'collagen, of meat protein',
        values: [{ max: collagen, source }],
      },
    ]
  })

const canada = (
  id: string,
  kind: 'fresh' | 'cooked',
  measure: string,
  min: number,
  section: string,
  mark: Mark,
): Rule => ({
  ...limit,
  jurisdiction: 'CA',
  id: `ca.b14.sausage.${kind}.${id}`,
  title: `${measure === 'proteinPct' ? 'Total' : 'Meat'} protein, ${kind} sausage`,
  scope: `standardised ${kind} sausage`,
  when: { [`standard:ca.b14.sausage.${kind}`]: [true] },
  measure,
  basis: 'of the product, distinguishable pieces that are not meat left out',
  values: [{ min, source: caFdr(section, mark) }],
  note: 'Since 18 December 2024 the standards stand in the Food Compositional Standards Document, volume 13, which was not read. Meat protein: the total protein asked for less 1.5 points (B.14.030).',
})

export const elsewhereCompositionRules: readonly Rule[] = [
  ...gbReserved,
  ...mincedRules('EU'),
  ...mincedRules('GB'),
  canada('protein', 'fresh', 'proteinPct', 9, 'B.14.075, B.14.086 for products that resemble it', 'from-memory'),
  canada('meat-protein', 'fresh', 'meatProteinPct', 7.5, 'B.14.030 with 9 % total', 'from-memory'),
  canada('protein', 'cooked', 'proteinPct', 11, 'B.14.076, B.14.087 for products that resemble it', 'from-memory'),
  canada('meat-protein', 'cooked', 'meatProteinPct', 9.5, 'B.14.030 with 11 % total', 'from-memory'),
  {
    ...limit,
    jurisdiction: 'AU-NZ',
    id: 'anz.2.2.1.sausage.meat',
    title: 'Fat-free meat flesh, sausage',
    scope: 'sausage',
    when: { 'standard:anz.2.2.1.sausage': [true] },
    measure: 'fatFreeMeatPct',
    basis: 'of the sausage (500 g/kg)',
    values: [{ min: 50, source: anz221('clause on sausages') }],
  },
  {
    ...limit,
    jurisdiction: 'AU-NZ',
    id: 'anz.2.2.1.sausage.fat',
    title: 'Fat against fat-free meat flesh, sausage',
    scope: 'sausage: fat at most half of the fat-free meat flesh',
    when: { 'standard:anz.2.2.1.sausage': [true] },
    sum: [
      { measure: 'fatPct', weight: 1 },
      { measure: 'fatFreeMeatPct', weight: -0.5 },
    ],
    unit: 'points',
    basis: 'fat % less half of fat-free meat %',
    values: [{ max: 0, source: anz221('clause on sausages') }],
    note: '500 g of fat to the kilogram of fat-free meat flesh.',
  },
  {
    ...limit,
    topic: 'additive',
    jurisdiction: 'CA',
    id: 'ca.b14.phosphate',
    title: 'Added phosphate',
    scope: 'products in which phosphates are permitted',
    when: { phosphateAdded: [true] },
    measure: 'phosphateAsDisodiumPct',
    basis: 'added phosphate as disodium phosphate, in the finished product',
    values: [{ max: 0.5, source: caFdr('B.14.009, B.14.031 as they stood to 2024') }],
  },
]
