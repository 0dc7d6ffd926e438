import { EVERYWHERE, type Rule } from '../../src/rule.ts'
import { trade } from '../sources.ts'

const practice = { jurisdiction: EVERYWHERE, weight: 'advice' } as const
const cure = { ...practice, topic: 'cure', unit: 'g/kg' } as const

/** Rules of thumb of the trade, kept because makers meet them, each with where it is loose or at odds with the law. */
export const practiceRules: readonly Rule[] = [
  {
    ...cure,
    id: 'practice.dose.6-25',
    title: '4 oz of 6.25 % cure to 100 lb of meat (2.5 g/kg)',
    scope: 'comminuted sausage, curing salt of 6.25 % sodium nitrite',
    values: [{ max: 2.5, source: trade('dose of 6.25 % curing salt') }],
    note: 'Gives 156.25 mg/kg sodium nitrite, the US limit to the last digit with nothing left for the scale, 104.2 mg/kg as nitrite ion: above the EU limit of 80 as ion and the 150 as salt kept in Great Britain. At most 1.92 and 2.40 g/kg there.',
  },
  {
    ...cure,
    id: 'practice.nitrite.7g',
    title: 'At most 7 g of nitrite to 45 kg of chopped meat',
    scope: 'comminuted sausage, pure sodium nitrite',
    unit: 'mg/kg',
    values: [{ max: 155.56, source: trade('1/4 oz to 100 lb, in grams') }],
    note: '1/4 oz to 100 lb rounded to 7 g and 45 kg: 155.6 mg/kg. Pure nitrite is never weighed in a small kitchen: 7 g eaten can kill four adults.',
  },
  {
    ...cure,
    id: 'practice.nitrate.2-75oz',
    title: 'At most 2 3/4 oz of nitrate to 100 lb',
    scope: 'comminuted, slow cures',
    unit: 'mg/kg',
    values: [{ max: 1718.75, source: trade('nitrate to 100 lb, as weighed') }],
    note: '1718.75 mg/kg: the US chart. The EU and GB limit is 150 mg/kg and Canada 200; outside the USA the rule of thumb is ten times too much.',
  },
  {
    ...cure,
    id: 'practice.dry-cure-mix',
    title: 'Slow cure: 6.25 % sodium nitrite and 4 % sodium nitrate in salt',
    scope: 'dry sausage and whole pieces cured for weeks',
    unit: '%',
    values: [{ source: trade('composition of slow cures') }],
    note: 'Mixes sold for slow cures differ: read the label of the one in hand and enter its composition. At 2.5 g/kg this one brings 156.25 mg/kg nitrite and 100 mg/kg nitrate.',
  },
  {
    ...practice,
    topic: 'process',
    id: 'practice.smokehouse-155',
    title: 'Keep the smokehouse under 68 °C (155 °F) for fermented and semi-dry sausage',
    scope: 'smokehouse for sausage with a fat that must not render',
    unit: '°C',
    values: [{ max: 68.3, source: trade('smokehouse temperature') }],
    note: 'A rule for texture, so that fat does not run. It is no safety limit: the core decides.',
  },
  {
    ...practice,
    topic: 'lethality',
    id: 'practice.core-152',
    title: 'Cook smoked sausage to a core of 66.7 °C (152 °F)',
    scope: 'cooked, smoked sausage',
    unit: '°C',
    values: [{ min: 66.7, source: trade('core temperature of smoked sausage') }],
    note: 'A single temperature says nothing of time: the published tables ask for seconds at that core, which a slow smokehouse gives and a hot one may not. Judge the log.',
  },
  {
    ...practice,
    topic: 'process',
    id: 'practice.danger-zone',
    title: 'Keep meat out of 4 to 60 °C (40 to 140 °F)',
    scope: 'every step, 2 hours in all, 1 hour above 32 °C (90 °F)',
    unit: '°C',
    values: [
      {
        source: {
          document: 'FSIS and NCHFP consumer guidance, danger zone',
          section: '40 to 140 °F',
          edition: 'undated',
          mark: 'quoted',
        },
      },
    ],
    note: 'The Food Code draws the zone from 41 to 135 °F. Fermenting and slow smoking live inside it: they rest on cure, acid and salt, not on this rule.',
  },
  {
    ...practice,
    topic: 'cure',
    id: 'practice.nitrite-lethal',
    title: '22 mg of sodium nitrite to the kg of body weight can kill',
    scope: 'anyone who handles cure',
    unit: 'mg/kg body weight',
    values: [
      {
        source: {
          document: 'FDA GRAS report on nitrite, 1972',
          section: 'oral lethal dose',
          edition: '1972, as quoted',
          mark: 'quoted',
        },
      },
    ],
    note: 'For 70 kg, 1.54 g, or 24.6 g of a 6.25 % curing salt. The WHO gives 33 to 250 mg of nitrite ion to the kg, lower for children and the old: sources disagree, and the lower figure is kept.',
  },
]
