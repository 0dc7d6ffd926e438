import { overall, type Finding, type WorkingStep } from '../finding.ts'
import { formatNumber } from '../quantity/format.ts'
import { judge } from '../rules.ts'
import type { FreezingInput, FreezingOutput } from './schema.ts'
import { longestAtOrBelow } from './stretch.ts'

/** What the rulebook is asked: which freezing schedules for Trichinella are met. */
export type PorkQuestion = {
  readonly thicknessMm: number
  readonly species: NonNullable<FreezingInput['species']>
  readonly storageC?: number
  readonly days?: number
  readonly toleranceC: number
  readonly jurisdictions: readonly string[]
  readonly on?: string
  /** Longest unbroken time at or below a centre temperature; absent where there is no log. */
  readonly stretch?: (atOrBelowC: number) => { readonly hours: number; readonly broken: boolean }
}

/**
 * Freezing of pork against Trichinella, held against the published schedules: by room temperature, thickness and days, and by the
 * centre temperature of the thickest piece.
 *
 * @param input thickness mm; storage °C with days, or a log of centre temperatures by the hour, or both
 * @returns days the room schedule asks for, whether a schedule is met (in every place named; anywhere, where none is), a finding for each schedule
 * @source former 9 CFR 318.10(c)(2), Tables 1 and 2; Regulation (EU) 2015/1375, Annex II
 */
export function freezing(input: FreezingInput): FreezingOutput {
  const { thicknessMm, storageC, days, log, species = 'pork', toleranceC = 0, jurisdictions = ['US', 'EU'], on } = input
  const asked = new Map<number, number>()
  const findings = judge('pork', {
    thicknessMm,
    species,
    toleranceC,
    jurisdictions,
    ...(storageC === undefined ? {} : { storageC }),
    ...(days === undefined ? {} : { days }),
    ...(on === undefined ? {} : { on }),
    ...(log === undefined
      ? {}
      : {
          stretch: (atOrBelowC: number) => {
            const found = longestAtOrBelow(log, atOrBelowC)
            asked.set(atOrBelowC, found.hours)
            return found
          },
        }),
  })
  const room = findings.find((f) => f.unit === 'days' && f.limit !== undefined)
  // With places named, each must have a schedule met; with none named, any published schedule counts.
  const group = input.jurisdictions ? undefined : 'any published schedule'
  const verdict = overall(findings.map((f) => ({ verdict: f.verdict, anyOf: f.anyOf && (group ?? f.anyOf) })))
  const stretches = [...asked]
    .map(([atOrBelowC, hours]) => ({ atOrBelowC, hours }))
    .toSorted((a, b) => b.atOrBelowC - a.atOrBelowC)
  return {
    ...(room?.limit === undefined ? {} : { requiredDays: room.limit }),
    ...(verdict === 'cannot-tell' ? {} : { achieved: verdict === 'pass' }),
    stretches,
    findings,
    working: working(input, stretches, findings),
  }
}

function working(
  { thicknessMm, storageC, days }: FreezingInput,
  stretches: FreezingOutput['stretches'],
  findings: readonly Finding[],
): WorkingStep[] {
  return [
    {
      step: 'thickness of the meat',
      expression: 'smallest dimension of the piece or layer',
      value: thicknessMm,
      unit: 'mm',
    },
    ...(storageC === undefined
      ? []
      : [{ step: 'room held at or below', expression: 'as given', value: storageC, unit: '°C' }]),
    ...(days === undefined ? [] : [{ step: 'held for', expression: 'as given', value: days, unit: 'days' }]),
    ...stretches.map((s) => ({
      step: `longest unbroken time at or below ${formatNumber(s.atOrBelowC)} °C`,
      expression: 'straight line between readings; a hole ends the stretch',
      value: s.hours,
      unit: 'h',
    })),
    ...findings.flatMap((f) =>
      f.limit === undefined
        ? []
        : [{ step: `asked by ${f.source.document}`, expression: f.title, value: f.limit, unit: f.unit }],
    ),
  ]
}
