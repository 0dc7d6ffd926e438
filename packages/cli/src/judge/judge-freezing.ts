import { overall, type Verdict } from '@forcemeat/craft/finding'
import { freezing } from '@forcemeat/craft/pork/freezing'
import { THIN_BLOCK_MM } from '@forcemeat/rulebook/pork/thin'
import { porkSpecies, type FreezingInput, type FreezingOutput } from '@forcemeat/craft/pork/schema'
import { heldBack, openJudgement, type Asked, type SlowJudgement } from './slow-judgement.ts'
import type { WholeLog } from './whole-log.ts'

export const freezingPlaces = ['US', 'EU'] as const

export type FreezingAsked = {
  readonly thicknessMm: number
  /** What the meat is of; absent where nobody said. */
  readonly species?: (typeof porkSpecies)[number]
  readonly toleranceC?: number
  readonly checkOverdue: boolean
  readonly places?: readonly (typeof freezingPlaces)[number][]
}

export type FreezingJudgement = SlowJudgement &
  Partial<Pick<FreezingOutput, 'stretches' | 'working'>> & {
    readonly as: 'freezing'
    readonly thicknessMm: number
    readonly species?: string
    /** The probe that did worst. */
    readonly probe?: string
  }

const unsaid: Asked = {
  about: 'species',
  text: 'Which meat is it? The Trichinella of game and horse survive freezing.',
  choices: [...porkSpecies],
}

const rank: Readonly<Record<Verdict, number>> = { fail: 0, 'cannot-tell': 1, pass: 2 }
const longest = (o: FreezingOutput): number => o.stretches.reduce((s, x) => s + x.hours, 0)

/** The published freezing schedules by the temperature at the centre; of several probes the worst decides. */
export function judgeFreezingLog(log: WholeLog, asked: FreezingAsked): FreezingJudgement {
  const { thicknessMm, species, toleranceC, checkOverdue, places } = asked
  const head = { as: 'freezing' as const, thicknessMm, ...(species === undefined ? {} : { species }) }
  if (log.questions.length > 0) return { ...openJudgement(log), ...head }
  if (species === undefined)
    return {
      ...openJudgement(log),
      ...head,
      questions: [unsaid],
      because: 'what the meat is of is not said',
    }
  if (log.used.some(({ series }) => series.filter((p) => p.tempC !== null).length < 2))
    return { ...openJudgement(log), ...head, because: 'the centre has fewer than two readings' }
  const rest: Omit<FreezingInput, 'log'> = {
    thicknessMm,
    species,
    ...(toleranceC === undefined ? {} : { toleranceC }),
    ...(places === undefined ? {} : { jurisdictions: [...places] }),
  }
  const probes = log.used.map(({ name, series }) => {
    const output = freezing({ ...rest, log: series.map((p) => ({ hour: p.minute / 60, centreC: p.tempC })) })
    const findings = heldBack(output.findings, [
      checkOverdue && { because: "the thermometer's check is overdue", settle: 'check the thermometer' },
    ])
    // With no place named, any published schedule that is met is enough.
    const verdict = overall(
      places === undefined ? findings.map((f) => (f.anyOf === undefined ? f : { ...f, anyOf: 'any' })) : findings,
    )
    return { name, output, findings, verdict }
  })
  const worst = probes.toSorted(
    (a, b) => rank[a.verdict] - rank[b.verdict] || longest(a.output) - longest(b.output),
  )[0]!
  const told = worst.findings.find((f) => f.verdict === worst.verdict)
  const { because: _, ...open } = openJudgement(log)
  return {
    ...open,
    ...head,
    verdict: worst.verdict,
    ...(worst.verdict === 'pass' || !told ? {} : { because: told.because }),
    notes: [
      ...log.notes,
      ...(toleranceC === undefined
        ? ['the error of the thermometer is not given and taken as none (--tolerance-c)']
        : []),
      ...(thicknessMm < THIN_BLOCK_MM
        ? [`${thicknessMm} mm is thin for a block of meat; the schedules by the centre do not turn on it`]
        : []),
      ...(probes.length > 1 ? [`${probes.length} probes: the worst, ${worst.name}, is shown and decides`] : []),
      ...(places === undefined ? ['no place is named (--place): any published schedule that is met is enough'] : []),
    ],
    probe: worst.name,
    findings: worst.findings,
    stretches: worst.output.stretches,
    working: worst.output.working,
  }
}
