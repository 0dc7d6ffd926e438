import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

/** A published degree-hour system: its base, and the limit by the highest chamber temperature before the target pH. */
export type DegreeHourSystem = {
  readonly rule: Rule
  readonly celsius: boolean
  /** Base in the system's own degrees. */
  readonly base: number
  /** Classes by rising temperature, in the system's own degrees: up to `upTo`, the edge itself included or not. */
  readonly classes: readonly {
    readonly upTo: number
    readonly edgeIncluded: boolean
    readonly limit: number
    readonly source: Source
  }[]
  /** Whether reaching the limit itself is still allowed. */
  readonly limitIncluded: boolean
}

const amif = (mark: Source['mark']): Source => ({
  document:
    'American Meat Institute Foundation, Good manufacturing practices for fermented dry and semi-dry sausage products',
  section: 'degree-hours, by the highest chamber temperature',
  edition: '1997, used by FSIS guidance',
  mark,
})
const cfia: Source = {
  document: 'CFIA, Meat hygiene manual of procedures',
  section: 'chapter 4, 4.16, fermentation',
  edition: 'archived',
  url: 'https://inspection.canada.ca',
  mark: 'quoted',
}

const rule = (jurisdiction: string, unit: string, source: Source): Rule => ({
  id: `${jurisdiction.toLowerCase()}.ferment.degree-hours`,
  title: 'Degree-hours to the target pH, by the highest chamber temperature',
  jurisdiction,
  topic: 'fermentation',
  scope: 'Fermented sausage until its pH is at or below 5.3, to keep Staphylococcus aureus from making toxin.',
  unit,
  weight: 'limit',
  values: [{ source }],
})

export const degreeHourSystems: readonly DegreeHourSystem[] = [
  {
    rule: rule('CA', '°C·h', cfia),
    celsius: true,
    base: 15.6,
    limitIncluded: true,
    classes: [
      { upTo: 33, edgeIncluded: false, limit: 665, source: cfia },
      { upTo: 37, edgeIncluded: true, limit: 555, source: cfia },
      { upTo: Infinity, edgeIncluded: true, limit: 500, source: cfia },
    ],
  },
  {
    rule: rule('US', '°F·h', amif('quoted')),
    celsius: false,
    base: 60,
    limitIncluded: false,
    classes: [
      { upTo: 90, edgeIncluded: false, limit: 1200, source: amif('quoted') },
      { upTo: 100, edgeIncluded: true, limit: 1000, source: amif('from-memory') },
      { upTo: Infinity, edgeIncluded: true, limit: 900, source: amif('from-memory') },
    ],
  },
]
