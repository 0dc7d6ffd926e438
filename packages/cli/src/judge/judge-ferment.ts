import { overall, type Finding, type Verdict } from '@forcemeat/craft/finding'
import { degreeHourSystems } from '@forcemeat/craft/ferment/schema'
import { PH_METER } from '@forcemeat/rulebook/batch/instrument-days'
import { phErrorTaken } from '@forcemeat/rulebook/ferment/judge'
import { airPoints, pointsOf } from '@forcemeat/server/slow/chamber'
import { countDegreeHours, hourLog, type CountedSystem } from '@forcemeat/server/slow/degree-count'
import { clockOf, placePh, type PhGiven } from './ph-given.ts'
import { openJudgement, heldBack, type SlowJudgement } from './slow-judgement.ts'
import type { WholeLog } from './whole-log.ts'

export const fermentPlaces = degreeHourSystems

export type FermentAsked = {
  readonly phs: readonly PhGiven[]
  /** Whether the pH meter was calibrated on the day of the readings; absent where nobody said. */
  readonly calibrated?: boolean
  readonly targetPh: number
  readonly toleranceC?: number
  /** Largest error of the pH meter, ± pH; absent, the usual one of a meter set that day is taken, as a batch's judgement does. */
  readonly phTolerance?: number
  readonly checkOverdue: boolean
  readonly places: readonly (typeof fermentPlaces)[number][]
}

export type FermentJudgement = SlowJudgement & {
  readonly as: 'ferment'
  readonly targetPh: number
  /** Error the pH was counted with, ± pH; absent where none was given to count. */
  readonly phTolerance?: number
  /** The readings of the product, hours from the first reading of the air, and whether each may end a count. */
  readonly readings: readonly { readonly hour: number; readonly ph: number; readonly counts: boolean }[]
  readonly systems: readonly CountedSystem[]
  readonly lastTempC?: number
}

const unsaid = {
  about: 'ph-meter' as const,
  text: 'Was the pH meter calibrated on the day of the readings? Until that is said no pH ends a count.',
  choices: ['yes', 'no'],
}

const HOUR = 3_600_000

/** The instant a limit runs out, by the log's own clock; nothing where the log has no dates. */
function onItsClock({ runsOutAt, ...system }: CountedSystem, clock: ReturnType<typeof clockOf>): CountedSystem {
  if (runsOutAt === undefined || clock === 'undated') return system
  return { ...system, runsOutAt: clock === 'zone' ? runsOutAt : runsOutAt.replace(/\.\d+Z$/, '') }
}

/** Both published degree-hour counts of a chamber's log with the pH readings given. */
export function judgeFermentLog(log: WholeLog, asked: FermentAsked): FermentJudgement {
  const { phs, calibrated, targetPh, toleranceC, checkOverdue, places } = asked
  const phTolerance = asked.phTolerance ?? PH_METER.usual
  const head = { as: 'ferment' as const, targetPh, readings: [], systems: [] }
  if (log.questions.length > 0) return { ...openJudgement(log), ...head }
  const { format, firstStamp = 0 } = log.read
  const clock = clockOf(format!)
  const start = clock === 'undated' ? 0 : firstStamp * 1000
  const [first] = log.used
  const points = pointsOf([
    {
      name: 'log',
      columns: [],
      instruments: [],
      notes: [],
      points: airPoints(
        start,
        first!.series.map((r) => r.minute),
        log.used.map(({ series }) => ({ series, offsetC: 0 })),
      ),
    },
  ])
  const placed = phs.map((p) => placePh(p, start, clock)).toSorted((a, b) => a.at - b.at)
  const hours = hourLog(
    points,
    placed.map((p) => ({ taken: new Date(p.at).toISOString(), ph: p.ph, calibrated: calibrated === true })),
  )
  if (!hours)
    return {
      ...openJudgement(log),
      ...head,
      because: 'the air of the chamber has fewer than two readings',
    }
  const counted = countDegreeHours(hours, targetPh, {
    phTolerance,
    ...(toleranceC === undefined ? {} : { toleranceC }),
  })
  const early = placed.filter((p) => p.at < hours.startAt)
  const taken = placed.length > 0 && asked.phTolerance === undefined ? `; ${phErrorTaken(phTolerance)}` : ''
  const findings = heldBack(
    counted.findings
      .filter((f) => places.some((p) => p === f.jurisdiction))
      .map((f) => ({ ...f, because: `${f.because}${taken}` })),
    [
      checkOverdue && { because: "the thermometer's check is overdue", settle: 'check the thermometer' },
      early.some((p) => p.ph - phTolerance <= targetPh) && {
        because: `pH ${targetPh} was measured before the log begins`,
        settle: 'the log of the chamber from when the sausage went in',
      },
    ],
  )
  const { because: _, ...open } = openJudgement(log)
  return {
    ...open,
    ...head,
    ...verdictOf(findings),
    ...(placed.length > 0 ? { phTolerance } : {}),
    questions: placed.length > 0 && calibrated === undefined ? [unsaid] : [],
    notes: [
      ...log.notes,
      ...(toleranceC === undefined
        ? ['the error of the thermometer is not given and taken as none (--tolerance-c)']
        : []),
      ...(early.length > 0 ? [`${early.length} pH taken before the log begins: left out of the count`] : []),
      ...(placed.length === 0 ? ['no pH is given (--ph, --ph-file): the count goes on to the last reading'] : []),
    ],
    readings: placed.map((p) => ({
      hour: (p.at - hours.startAt) / HOUR,
      ph: p.ph,
      counts: calibrated === true && p.at >= hours.startAt,
    })),
    systems: counted.systems.map((s) => onItsClock(s, clock)),
    ...(counted.lastTempC === undefined ? {} : { lastTempC: counted.lastTempC }),
    findings,
  }
}

const verdictOf = (findings: readonly Finding[]): { verdict: Verdict; because?: string } => {
  const verdict = overall(findings)
  const told = findings.find((f) => f.verdict === verdict)
  return { verdict, ...(verdict === 'pass' || !told ? {} : { because: told.because }) }
}
