import { overall, type Finding, type Verdict } from '@forcemeat/craft/finding'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'

/** A batch as the rules in force on its day see it. */
export type Judged = { readonly findings: readonly Finding[]; readonly verdict: Verdict }

type JudgeBatch = (facts: BatchRecord) => readonly Finding[]

let judgeBatch: JudgeBatch | undefined
async function judge(): Promise<JudgeBatch> {
  const path = '@forcemeat/rulebook/batch/judge-batch'
  return (judgeBatch ??= ((await import(path)) as { judgeBatch: JudgeBatch }).judgeBatch)
}

/** Findings of a batch, made anew from its facts and the rulebook. */
export async function judged(_ledger: Ledger, record: BatchRecord): Promise<Judged> {
  const findings = (await judge())(record)
  return { findings, verdict: overall(findings) }
}

const unjudged: Finding = {
  rule: 'release.judged',
  title: 'Something was judged',
  jurisdiction: 'everywhere',
  verdict: 'cannot-tell',
  weight: 'limit',
  unit: '',
  because: 'No rule could be held against this batch: nothing says that it is safe.',
  settle: 'record what was weighed, measured and logged',
  source: { document: 'common practice', section: '', edition: '', mark: 'common-practice' },
  inForce: {},
}

/** Findings that stand between a batch and its release: limits that fail or cannot be told and have no alternative that passes. */
export function stopsRelease({ findings, verdict }: Judged): readonly Finding[] {
  if (verdict === 'pass') return []
  const met = new Set(findings.filter((f) => f.verdict === 'pass' && f.anyOf !== undefined).map((f) => f.anyOf))
  const stops = findings.filter(
    (f) => f.weight !== 'advice' && f.verdict !== 'pass' && !(f.anyOf !== undefined && met.has(f.anyOf)),
  )
  return stops.length > 0 ? stops : [unjudged]
}
