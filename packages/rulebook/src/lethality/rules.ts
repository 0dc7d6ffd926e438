import { comeUp, guidelineFrom, humidityOptions, humiditySource, targets } from '../../data/lethality/process.ts'
import type { Rule } from '../rule.ts'
import { everyTable, pattyTable } from './tables.ts'

const us = { jurisdiction: 'US', topic: 'lethality' } as const

/** The lethality rules as entries of the rulebook: the tables themselves sit in the data, row by row. */
export const lethalityRules: readonly Rule[] = [
  ...[...everyTable, pattyTable].map((t): Rule => ({
    ...us,
    id: t.id,
    title: t.title,
    scope: t.scope,
    unit: 's',
    weight: 'limit',
    values: [{ ...(t.id.startsWith('us.fsis') ? { from: guidelineFrom } : {}), source: t.source }],
    note: t.rows
      .map(
        (r) =>
          `${r.f} °F: ${r.seconds === 0 ? 'reached' : `${Number(r.seconds.toFixed(1))} s`}${r.source.mark === 'from-memory' ? ' (from memory)' : ''}`,
      )
      .join('; '),
  })),
  {
    ...us,
    id: 'us.fsis.lethality.which-table',
    title: 'Which lethality table speaks for the product',
    scope:
      'meat without poultry, chicken, turkey or other poultry each have a table of their own; poultry is looked up by its fat',
    unit: '',
    weight: 'limit',
    values: [{ from: guidelineFrom, source: everyTable[0]!.source }],
  },
  ...targets.map((t): Rule => ({
    ...us,
    id: t.id,
    title: t.title,
    scope: t.scope,
    unit: 'log10',
    weight: 'limit',
    values: [{ source: t.source }],
  })),
  {
    ...us,
    id: 'us.fsis.lethality.come-up',
    title: `Come-up time: ${comeUp.fromF} to ${comeUp.toF} °F in at most ${comeUp.maxMinutes / 60} hours`,
    scope: 'centre of the product; fermented products follow degree-hours instead',
    unit: 'min',
    weight: 'advice',
    values: [{ from: guidelineFrom, max: comeUp.maxMinutes, source: comeUp.source }],
  },
  {
    ...us,
    id: 'us.fsis.lethality.humidity',
    title: 'Humidity during the cook',
    scope: `one of the options ${humidityOptions.map((o) => o.option).join(', ')} is followed, or the product needs none: immersed, in a casing that holds moisture, in a sealed bag, over direct heat`,
    unit: 'min',
    weight: 'advice',
    values: [{ from: guidelineFrom, source: humiditySource }],
  },
  ...humidityOptions.map((o): Rule => ({
    ...us,
    id: `us.fsis.lethality.humidity.option-${o.option}`,
    title: `Humidity option ${o.option}: ${o.text}`,
    scope: `${o.fromF === undefined ? 'any end point' : `end points of ${o.fromF} °F and above`}; ${o.share * 100} % of the cooking time${o.minMinutes ? ` or ${o.minMinutes} min, whichever is longer` : ''}${o.minCookMinutes ? `; cook of at least ${o.minCookMinutes} min` : ''}`,
    unit: 'min',
    weight: 'advice',
    values: [{ from: guidelineFrom, source: o.source }],
  })),
]
