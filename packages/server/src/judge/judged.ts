import type { Finding } from '@forcemeat/craft/finding'
import { zoneOf, type BatchRecord, type Ledger } from '@forcemeat/ledger'
import { recordFinding } from '@forcemeat/rulebook/batch/own-rules'
import { judgeBatch, type BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { channelsOf } from '../curves/recorded.ts'
import { slowLogsOf } from '../curves/slow-logs.ts'

/** A batch as the rules in force on its day, and the limits the kitchen had set itself by then, see it: made anew from its facts, its files and the rulebook. */
export async function judged(ledger: Ledger, record: BatchRecord): Promise<BatchJudgement> {
  const ownLimits = (await ledger.kitchenOn(record.on))?.ownLimits
  // The kitchen may say later where it stands; it stood there before.
  const timeZone = zoneOf(await ledger.kitchen())
  const facts = { ...record, timeZone, ...(ownLimits === undefined ? {} : { ownLimits }) }
  return judgeBatch(facts, await channelsOf(ledger, record), await slowLogsOf(ledger, record))
}

const unjudged = recordFinding('judged', {
  verdict: 'cannot-tell',
  because: 'no binding rule could be held against this batch: nothing says that it is safe',
  settle: 'record what was weighed, measured and logged',
})

/** Findings that stand between a batch and its release: limits that fail or cannot be told and have no alternative that passes. */
export function stopsRelease({ findings, verdict }: Pick<BatchJudgement, 'findings' | 'verdict'>): readonly Finding[] {
  if (verdict === 'pass') return []
  const met = new Set(findings.filter((f) => f.verdict === 'pass' && f.anyOf !== undefined).map((f) => f.anyOf))
  const stops = findings.filter(
    (f) => f.weight !== 'advice' && f.verdict !== 'pass' && !(f.anyOf !== undefined && met.has(f.anyOf)),
  )
  return stops.length > 0 ? stops : [unjudged]
}
