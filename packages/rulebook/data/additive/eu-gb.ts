import type { Rule } from '../../src/rule.ts'
import { eu1333, gb1333 } from '../sources.ts'

/** Additives other than nitrite and nitrate that a sausage maker meets, EU and GB alike. */
export const euGbAdditiveRules: readonly Rule[] = (['EU', 'GB'] as const).flatMap((jurisdiction): Rule[] => {
  const of = jurisdiction === 'EU' ? eu1333 : gb1333
  const base = { jurisdiction, topic: 'additive', unit: 'mg/kg', weight: 'limit' } as const
  const place = jurisdiction.toLowerCase()
  const products = { euCategory: ['08.3.1', '08.3.2', '08.3.2-sterilised'] }
  return [
    {
      ...base,
      id: `${place}.1333.erythorbate`,
      title: 'Erythorbic acid and sodium erythorbate',
      scope: 'cured and preserved meat products, 08.3.1 and 08.3.2',
      when: { ...products, acceleratorAdded: [true] },
      measure: 'erythorbicAcidPpm',
      basis: 'alone or together, as erythorbic acid, on the meat block',
      values: [{ max: 500, source: of('08.3.1 and 08.3.2, E 315-316') }],
    },
    {
      ...base,
      id: `${place}.1333.phosphate`,
      title: 'Phosphates',
      scope: 'meat products, 08.3.1 and 08.3.2 (not foie gras and its like)',
      when: { ...products, phosphateAdded: [true] },
      measure: 'phosphateP2O5Ppm',
      basis: 'alone or together, as P2O5',
      values: [{ max: 5000, source: of('08.3.1 and 08.3.2, E 338-452') }],
    },
    {
      ...base,
      id: `${place}.1333.phosphate.preparations`,
      title: 'Phosphates in fresh sausage: named preparations only',
      scope: 'meat preparations, 08.2',
      when: { euCategory: ['08.2'], phosphateAdded: [true] },
      unit: '',
      finding: {
        verdict: 'cannot-tell',
        because:
          'phosphates in a meat preparation are allowed only in preparations the annex names (breakfast sausage among them), and whether this is one is not known',
        settle: 'the name the product is sold under, held against category 08.2, E 338-452',
      },
      values: [{ source: of('08.2, E 338-452', 'from-memory') }],
    },
  ]
})
