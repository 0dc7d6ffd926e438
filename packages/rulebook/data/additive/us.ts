import type { Rule } from '../../src/rule.ts'
import { cfr9Chart } from '../sources.ts'

const us = { jurisdiction: 'US', topic: 'additive', unit: '%', weight: 'limit' } as const
const row = cfr9Chart('Antioxidants and oxygen interceptors')
const each = ['bha', 'bht', 'propyl gallate', 'tbhq']

/** Antioxidants, 9 CFR 424.21(c): each alone and all together, on fat in fresh sausage, on the whole in dry. */
export const usAdditiveRules: readonly Rule[] = [
  {
    ...us,
    id: 'us.424.21.antioxidant.fresh',
    title: 'One antioxidant, fresh sausage',
    scope: `fresh, brown-and-serve and Italian sausage, toppings and meatballs: any one of ${each.join(', ')}`,
    when: { kind: ['fresh'], antioxidantAdded: [true] },
    measure: 'antioxidantOfFatPct',
    basis: 'of the fat',
    values: [{ max: 0.01, source: row }],
  },
  {
    ...us,
    id: 'us.424.21.antioxidant.fresh.together',
    title: 'Antioxidants together, fresh sausage',
    scope: 'fresh, brown-and-serve and Italian sausage, toppings and meatballs',
    when: { kind: ['fresh'], antioxidantAdded: [true] },
    measure: 'antioxidantsOfFatPct',
    basis: 'of the fat',
    values: [{ max: 0.02, source: row }],
  },
  {
    ...us,
    id: 'us.424.21.antioxidant.dry',
    title: 'One antioxidant, dry sausage',
    scope: 'dry sausage',
    when: { kind: ['dried'], antioxidantAdded: [true] },
    measure: 'antioxidantPct',
    basis: 'of the total weight',
    values: [{ max: 0.003, source: row }],
  },
  {
    ...us,
    id: 'us.424.21.antioxidant.dry.together',
    title: 'Antioxidants together, dry sausage',
    scope: 'dry sausage',
    when: { kind: ['dried'], antioxidantAdded: [true] },
    measure: 'antioxidantsPct',
    basis: 'of the total weight',
    values: [{ max: 0.006, source: row }],
    note: 'A textbook table prints 30 ppm in all; the chart reads 0.006 % in combination.',
  },
]
