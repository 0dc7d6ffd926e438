import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'
import { degreeHourSystems } from './degree-hours.ts'

/** A likely end this far under the pH the fermentation is to be ended at is called an overshoot. Common practice, no source. */
export const OVERSHOOT_PH = 0.3
/** The published degree-hours count to this pH. */
export const DEGREE_HOURS_PH = 5.3
/** A loss this many points from what another target asks is called a disagreement. Common practice, no source. */
export const LOSS_APART_PCT = 2

const acidBand: Source = {
  document: 'Band of end pH from rules of thumb and stoichiometry',
  section: 'method page on fermentation; sources of each figure stand beside the band',
  edition: 'computed here',
  mark: 'computed',
}
const balance: Source = {
  document: 'Mass balance of drying, with a computed sorption isotherm',
  section: 'method page on drying',
  edition: 'computed here',
  mark: 'computed',
}

const advice = { topic: 'fermentation', weight: 'advice' } as const

/** What the plan of a fermentation may be told before anything is made. None of them stops or releases anything. */
export const plan = {
  reaches: {
    ...advice,
    id: 'ferment.plan.reaches-target',
    title: 'Sugar and acidulant for the pH to reach',
    jurisdiction: EVERYWHERE,
    scope: 'Fermented sausage, from the recipe’s own sugars, acidulant, lean and starting pH.',
    unit: 'pH',
    values: [{ source: acidBand }],
  },
  overshoots: {
    ...advice,
    id: 'ferment.plan.overshoots',
    title: 'Sugar that sours past the pH wanted',
    jurisdiction: EVERYWHERE,
    scope: 'Fermented sausage whose likely end lies well under the pH its fermentation is to be ended at.',
    unit: 'pH',
    values: [{ source: acidBand }],
  },
  agree: {
    id: 'dry.plan.targets-agree',
    title: 'Loss of weight against the other targets of drying',
    jurisdiction: EVERYWHERE,
    topic: 'stability',
    weight: 'advice',
    scope: 'Dried sausage that states a loss beside a water activity or a moisture to protein.',
    unit: '% loss',
    values: [{ source: balance }],
  },
  storage: {
    id: 'dry.plan.storage',
    title: 'Storage the label may claim, if the targets are measured',
    jurisdiction: EVERYWHERE,
    topic: 'stability',
    weight: 'advice',
    scope: 'Fermented or dried sausage, by the published combinations of pH and water activity its targets name.',
    unit: '',
    values: [
      {
        source: {
          document: 'Published combinations of pH and water activity for the classes of meat products',
          section: 'as the rules of stability hold them, each with its own source',
          edition: 'computed here',
          mark: 'computed',
        },
      },
    ],
  },
} as const satisfies Record<string, Rule>

/** One for each published system of degree-hours. */
export const plannedHours: readonly Rule[] = degreeHourSystems.map(({ rule }) => ({
  ...advice,
  id: `${rule.jurisdiction.toLowerCase()}.ferment.planned-hours`,
  title: 'Hours allowed to pH 5.3 at the planned temperature',
  jurisdiction: rule.jurisdiction,
  scope: 'The plan of a fermentation against the degree-hours of the place; the log and the pH of the batch decide.',
  unit: 'h',
  values: rule.values,
}))

export const planRules: readonly Rule[] = [...Object.values(plan), ...plannedHours]
