import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { LogFormat, Question } from '@forcemeat/craft/log/format'
import type { AnomalyReport } from '@forcemeat/craft/log/anomalies'
import type { WholeLog } from './whole-log.ts'

/** Something open: what the file does not say, or what nobody said beside it. */
export type Asked = Omit<Question, 'about'> & { readonly about: Question['about'] | 'ph-meter' | 'species' }

/** What a fermentation and a freezing have in common once judged. */
export type SlowJudgement = {
  readonly format?: LogFormat
  readonly notes: readonly string[]
  readonly questions: readonly Asked[]
  readonly verdict: Verdict
  readonly because?: string
  readonly rows: number
  /** From the first row to the last. */
  readonly minutes: number
  readonly firstStamp?: number
  readonly anomalies: AnomalyReport
  /** The columns that were judged. */
  readonly columns: readonly string[]
  readonly findings: readonly Finding[]
}

/** A log before anything is judged of it. */
export const openJudgement = ({ read, notes, questions, used }: WholeLog): SlowJudgement => ({
  ...(read.format === undefined ? {} : { format: read.format }),
  notes,
  questions,
  verdict: 'cannot-tell',
  because: 'the file does not say everything needed to read it',
  rows: read.rows,
  minutes: used[0]?.series.at(-1)?.minute ?? 0,
  ...(read.firstStamp === undefined ? {} : { firstStamp: read.firstStamp }),
  anomalies: read.anomalies,
  columns: used.map((c) => c.name),
  findings: [],
})

type Doubt = { readonly because: string; readonly settle: string }

/** Findings where nothing passes that a doubt stands against; what fails, fails all the same. */
export function heldBack(findings: readonly Finding[], doubts: readonly (Doubt | false)[]): Finding[] {
  const open = doubts.filter((d) => d !== false)
  if (open.length === 0) return [...findings]
  return findings.map((f) =>
    f.verdict === 'pass'
      ? {
          ...f,
          verdict: 'cannot-tell',
          because: `${f.because}; but ${open.map((d) => d.because).join('; ')}`,
          settle: open.map((d) => d.settle).join('; '),
        }
      : f,
  )
}
