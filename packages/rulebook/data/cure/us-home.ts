import type { Rule } from '../../src/rule.ts'
import { cfr21 } from '../sources.ts'

const home = { jurisdiction: 'US-home', topic: 'cure', unit: 'mg/kg', weight: 'limit' } as const
const settle = 'an analysis of the finished product; what went in does not tell what is left'

/** Cures sold for use at home: limits on the finished product, so that only an analysis can meet them. */
export const usHomeCureRules: readonly Rule[] = [
  {
    ...home,
    id: 'us-home.172.nitrite',
    title: 'Home curing: nitrite in the finished product',
    scope: 'cured at home, meat, poultry and game',
    when: { cured: [true] },
    measure: 'residualNitritePpm',
    basis: 'as sodium nitrite, in the finished product',
    values: [{ max: 200, source: cfr21('172.170(a)(2)', 'eCFR copy; 172.175(a)(3) the same in the 4-1-06 edition') }],
    note: `A limit on what is left, not on what goes in: ${settle}. 172.175 writes "with sodium nitrate" where 172.170 writes "with or without" nitrite.`,
  },
  {
    ...home,
    id: 'us-home.172.nitrate',
    title: 'Home curing: nitrate in the finished product',
    scope: 'cured at home, meat, poultry and game',
    when: { cured: [true] },
    measure: 'residualNitratePpm',
    basis: 'as sodium nitrate, in the finished product',
    values: [{ max: 500, source: cfr21('172.170(a)(2)', 'eCFR copy') }],
    note: `A limit on what is left, not on what goes in: ${settle}.`,
  },
  {
    ...home,
    id: 'us-home.170.60.separate',
    title: 'Cure packed apart from spices',
    scope: 'curing premixes with nitrite or nitrate and spices or flavourings that supply amines',
    topic: 'additive',
    unit: '',
    when: { cured: [true], cureMixedWithSpice: [true] },
    finding: {
      verdict: 'fail',
      because:
        'nitrite or nitrate is packed together with spices or flavourings ahead of use; they are to be packed apart until use',
    },
    values: [{ source: cfr21('170.60', '4-1-06 edition') }],
  },
]
