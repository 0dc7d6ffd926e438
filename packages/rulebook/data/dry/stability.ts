import type { StabilityMeasure } from '@forcemeat/craft/dry/stability'
import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'

/** One bound of a published combination. `orAt` counts the figure itself in. */
export type Bound = {
  readonly measure: StabilityMeasure
  readonly below?: number
  readonly above?: number
  readonly orAt: boolean
}
/** Bounds that hold together, as one source gives them. */
export type Combination = { readonly all: readonly Bound[]; readonly source: Source }
/** A class or limit met by any one of its combinations. */
export type StabilityRule = {
  readonly rule: Rule
  readonly anyOf: readonly Combination[]
  /** In words: what it means to meet it, and not to. */
  readonly met: string
  readonly notMet: string
  /** Binding for this storage, where advice otherwise. */
  readonly bindsFor?: 'ambient' | 'chilled'
  /** Only asked for this storage. */
  readonly onlyFor?: 'ambient' | 'chilled'
  /** Only asked for a product of this name. */
  readonly named?: string
}

const ph = (below: number, orAt = true): Bound => ({ measure: 'ph', below, orAt })
const aw = (below: number, orAt = true): Bound => ({ measure: 'aw', below, orAt })

const training: Source = {
  document:
    'USDA FSIS, Food Safety Regulatory Essentials training on shelf-stable products, giving the classes of Leistner & Rödel',
  section: 'classes of meat products by pH and water activity',
  edition: 'undated',
  mark: 'quoted',
}
const historic: Source = {
  document: 'IAFP Annual Meeting 2014, abstract P3-97',
  section: 'historic USDA criteria of shelf stability',
  edition: '2014',
  mark: 'quoted',
}
const listeria: Source = {
  document: 'Regulation (EC) No 2073/2005, Annex I, chapter 1',
  section: 'products unable to support the growth of Listeria monocytogenes (footnote 8; the number from memory)',
  edition: 'as quoted; amended by Regulation (EU) 2024/2895 from 1 July 2026',
  url: 'https://eur-lex.europa.eu/eli/reg/2005/2073/oj',
  mark: 'quoted',
}
const snack: Source = {
  document: 'Borneman et al. 2015, J. Food Prot. 78:1215; IAFP 2014 abstract P3-97',
  section: 'Staphylococcus aureus on cooked snack sausage, vacuum, 21 °C, 4 weeks',
  edition: '2015',
  mark: 'quoted',
}
const fda: Source = {
  document: 'FDA, Fish and Fishery Products Hazards and Controls Guidance, Appendix 4',
  section: 'Table A-1, pp. 419–420',
  edition: 'June 2022',
  mark: 'seen',
}
const icmsf: Source = {
  document: 'ICMSF, Microorganisms in Foods 5',
  section: 'growth limits of Staphylococcus aureus, as reproduced by meatsci.osu.edu/node/138',
  edition: '1996',
  mark: 'quoted',
}
const labels: Source = {
  document: 'US product labels by moisture to protein, as tabulated in university extension texts',
  section: 'maximum moisture to protein by product name',
  edition: 'undated',
  mark: 'quoted',
}

const rule = (over: Pick<Rule, 'id' | 'title' | 'scope'> & Partial<Rule> & { source: Source }): Rule => {
  const { source, ...rest } = over
  return { jurisdiction: EVERYWHERE, topic: 'stability', unit: '', weight: 'advice', values: [{ source }], ...rest }
}

export const SHELF_STABLE = 'stability.class.shelf-stable'
export const PERISHABLE = 'stability.class.perishable'

const listeriaRule = (jurisdiction: 'EU' | 'GB'): StabilityRule => ({
  rule: rule({
    id: `${jurisdiction.toLowerCase()}.2073.listeria-no-growth`,
    title: 'Class unable to support the growth of Listeria monocytogenes',
    jurisdiction,
    scope: 'Ready-to-eat food: a product of this class is held to 100 cfu/g; any other to the stricter criterion.',
    source: listeria,
  }),
  anyOf: [
    { all: [ph(4.4)], source: listeria },
    { all: [aw(0.92)], source: listeria },
    { all: [ph(5), aw(0.94)], source: listeria },
    { all: [{ measure: 'shelfLifeDays', below: 5, orAt: false }], source: listeria },
  ],
  met: 'counts as unable to support the growth of Listeria',
  notMet: 'counts as able to support the growth of Listeria unless a study shows otherwise',
})

const byName = (name: string, title: string, combination: readonly Bound[]): StabilityRule => ({
  rule: rule({
    id: `us.moisture-protein.${name}`,
    title: `Moisture to protein of ${title}`,
    jurisdiction: 'US',
    topic: 'label',
    scope: `Product sold in the US under the name of ${title}.`,
    weight: 'limit',
    source: labels,
  }),
  anyOf: [{ all: combination, source: labels }],
  met: `is dry enough for the name of ${title}`,
  notMet: `is not dry enough for the name of ${title}`,
  named: name,
})
const mpr = (below: number): Bound => ({ measure: 'moistureToProtein', below, orAt: true })

export const stabilityRules: readonly StabilityRule[] = [
  {
    rule: rule({
      id: SHELF_STABLE,
      title: 'Shelf-stable by pH and water activity',
      scope: 'Meat product kept without refrigeration; each combination as its own source gives it.',
      source: training,
    }),
    anyOf: [
      { all: [ph(5.2), aw(0.95)], source: training },
      { all: [ph(5, false)], source: historic },
      { all: [aw(0.91, false)], source: historic },
    ],
    met: 'meets a published combination for shelf-stable products',
    notMet: 'meets none of the published combinations for shelf-stable products',
    bindsFor: 'ambient',
  },
  {
    rule: rule({
      id: PERISHABLE,
      title: 'At most perishable by pH or water activity',
      scope:
        'Meat product that is not shelf-stable: one of the two hurdles is enough to leave the class of the very perishable.',
      source: training,
    }),
    anyOf: [
      { all: [ph(5.2)], source: training },
      { all: [aw(0.95)], source: training },
    ],
    met: 'is at most perishable',
    notMet: 'is very perishable',
  },
  {
    rule: rule({
      id: 'us.stability.historic',
      title: 'Historic USDA criteria of shelf stability',
      jurisdiction: 'US',
      scope: 'Fermented and dried meat products kept without refrigeration in the US.',
      source: historic,
    }),
    anyOf: [
      { all: [aw(0.91, false)], source: historic },
      { all: [ph(5, false)], source: historic },
      { all: [aw(0.95, false), ph(5.2, false)], source: historic },
    ],
    met: 'meets one of the criteria',
    notMet: 'meets none of the criteria',
    bindsFor: 'ambient',
  },
  listeriaRule('EU'),
  listeriaRule('GB'),
  {
    rule: rule({
      id: 'stability.s-aureus.snack-sausage',
      title: 'Combination shown to stop Staphylococcus aureus',
      scope: 'Cooked snack sausage in vacuum at 21 °C for four weeks; other products need their own study.',
      source: snack,
    }),
    anyOf: [{ all: [ph(5.1), aw(0.96)], source: snack }],
    met: 'lies within the combination of the study',
    notMet: 'lies outside the combination of the study',
    onlyFor: 'ambient',
  },
  {
    rule: rule({
      id: 'stability.s-aureus.growth',
      title: 'Below the growth limits of Staphylococcus aureus',
      scope:
        'Either factor alone, all else at its best for growth. Another handbook gives 0.86 and pH 4.2; without air about 0.90.',
      source: icmsf,
    }),
    anyOf: [
      { all: [aw(0.83, false)], source: icmsf },
      { all: [ph(4, false)], source: icmsf },
    ],
    met: 'lies below a limit of growth by itself',
    notMet: 'lies above both limits: other hurdles must hold it',
  },
  {
    rule: rule({
      id: 'stability.c-botulinum.proteolytic',
      title: 'Below the growth limits of proteolytic Clostridium botulinum',
      scope:
        'Product without air kept above 10 °C. Nitrite, heat and combinations hold it above these limits; each factor here stands alone.',
      source: fda,
    }),
    anyOf: [
      { all: [ph(4.6, false)], source: fda },
      { all: [aw(0.935, false)], source: fda },
      { all: [{ measure: 'brinePct', above: 10, orAt: false }], source: fda },
    ],
    met: 'lies past a limit of growth by itself',
    notMet: 'lies within all limits: nitrite, cold or another hurdle must hold it',
    onlyFor: 'ambient',
  },
  {
    rule: rule({
      id: 'stability.c-botulinum.non-proteolytic',
      title: 'Below the growth limits of non-proteolytic Clostridium botulinum',
      scope: 'Chilled product without air above 3.3 °C; each factor stands alone.',
      source: fda,
    }),
    anyOf: [
      { all: [ph(5, false)], source: fda },
      { all: [aw(0.97, false)], source: fda },
      { all: [{ measure: 'brinePct', above: 5, orAt: false }], source: fda },
    ],
    met: 'lies past a limit of growth by itself',
    notMet: 'lies within all limits: nitrite, time and cold must hold it',
    onlyFor: 'chilled',
  },
  byName('jerky', 'jerky', [mpr(0.75)]),
  byName('pepperoni', 'pepperoni', [mpr(1.6)]),
  byName('dry-salami', 'dry salami', [mpr(1.9)]),
  byName('genoa', 'Genoa salami', [mpr(2.1)]),
  byName('summer-sausage', 'shelf-stable summer sausage', [mpr(3.1), ph(5)]),
]

/** Names a dried product may be sold under whose dryness is published, id to name. */
export const driedStandards: Readonly<Record<string, string>> = {
  'us.jerky': 'Jerky',
  'us.pepperoni': 'Pepperoni',
  'us.dry-salami': 'Dry salami',
  'us.genoa': 'Genoa salami',
  'us.summer-sausage': 'Summer sausage, shelf-stable',
}
