import { EVERYWHERE, type Rule } from '../../src/rule.ts'
import { trade } from '../sources.ts'

const mix = {
  jurisdiction: EVERYWHERE,
  topic: 'process',
  unit: '°C',
  measure: 'finalC',
  weight: 'advice',
  basis: 'the mix as it leaves the bowl',
} as const

/** How warm a mix may be when it leaves the bowl, by kind. No law says so: above it fat smears or runs, and growth starts sooner. */
export const finalTemperatureRules: readonly Rule[] = [
  {
    ...mix,
    id: 'mix.final.fresh',
    title: 'Fresh sausage leaves the bowl at 4 °C or below',
    scope: 'fresh, ground and mixed',
    when: { kind: ['fresh'] },
    values: [{ max: 4, source: trade('temperature of fresh mixes') }],
    note: 'Above it soft fat smears into a film that bakes out, and the cold chain has to win back what the bowl gave away.',
  },
  {
    ...mix,
    id: 'mix.final.cooked',
    title: 'A chopped batter leaves the bowl at 12 °C or below',
    scope: 'cooked sausage, chopped fine, with pork fat',
    when: { kind: ['cooked'] },
    values: [{ max: 12, source: trade('temperature of batters') }],
    note: 'Pork fat starts to run at about 14 °C, beef fat some degrees later, poultry fat sooner. Coarse cooked sausage is mixed colder, as fresh is.',
  },
  {
    ...mix,
    id: 'mix.final.raw-cured',
    title: 'A mix to be fermented or dried leaves the bowl at 2 °C or below',
    scope: 'fermented and dried sausage',
    when: { kind: ['fermented', 'dried'] },
    values: [{ max: 2, source: trade('temperature of mixes to be fermented or dried') }],
    note: 'Fat cut hard keeps its edges; smeared fat shuts the pores and the sausage does not dry.',
  },
]
