import { coolingOptions, stabilizationSource } from '../../data/cooling/options.ts'
import type { Rule } from '../rule.ts'

/** The cooling options as entries of the rulebook; their stages sit in the data. */
export const coolingRules: readonly Rule[] = [
  {
    id: 'us.fsis.stabilization',
    title: 'Stabilization: cooled by at least one published option',
    jurisdiction: 'US',
    topic: 'cooling',
    scope: 'heat-treated products; the options are alternatives, one that is met is enough',
    unit: '',
    weight: 'limit',
    values: [{ source: stabilizationSource }],
  },
  ...coolingOptions.map((o): Rule => ({
    id: o.id,
    title: o.title,
    jurisdiction: o.jurisdiction,
    topic: 'cooling',
    scope: o.scope,
    unit: 'min',
    weight: 'advice',
    values: [
      {
        ...(o.from === undefined ? {} : { from: o.from }),
        ...(o.until === undefined ? {} : { until: o.until }),
        source: o.source,
      },
    ],
    note: [
      o.windows.map((w) => `${w.shown}: ${w.strictlyUnder ? 'under' : 'at most'} ${w.maxMinutes} min`).join('; '),
      o.note ?? '',
    ]
      .filter(Boolean)
      .join('. '),
  })),
]
