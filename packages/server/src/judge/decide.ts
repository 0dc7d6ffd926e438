import type { Finding } from '@forcemeat/craft/finding'
import type { Entry, Ledger } from '@forcemeat/ledger'
import { notHere, Refusal } from '../http/refusal.ts'
import { spoken } from './doubt.ts'
import { judged, stopsRelease } from './judged.ts'
import { signedHash } from './sign.ts'

export type Decision = {
  readonly batch: string
  readonly decision: 'release' | 'hold'
  readonly reasons: readonly string[]
  readonly by: string
  readonly key?: string | undefined
}

const count = (findings: readonly Finding[], verdict: Finding['verdict']) =>
  findings.filter((f) => f.verdict === verdict).length

/**
 * Record a person's release or hold. The batch is judged here and now, and what is signed is computed here.
 * @throws Refusal 404 for a batch that is not there; 409, with the findings, for a release that a limit stops; InvalidInput
 */
export async function decide(
  ledger: Ledger,
  { batch, decision, reasons, by, key }: Decision,
): Promise<{ entries: Entry[]; findings: readonly Finding[] }> {
  const record = await ledger.batch(batch)
  if (!record) throw notHere('batch', batch)
  const judgement = await judged(ledger, record)
  const { findings } = judgement
  const inTheWay = decision === 'release' ? stopsRelease(judgement) : []
  if (inTheWay.length > 0)
    throw new Refusal(
      409,
      inTheWay.map((f) => ({ path: 'decision', message: spoken(f) })),
      { findings: inTheWay },
    )
  const body = {
    batch,
    decision,
    reasons: [...reasons],
    signed: signedHash(record, findings),
    counts: {
      pass: count(findings, 'pass'),
      fail: count(findings, 'fail'),
      cannotTell: count(findings, 'cannot-tell'),
    },
  }
  const entries = await ledger.append([{ kind: 'batch.decide', body, by, ...(key === undefined ? {} : { key }) }])
  return { entries, findings }
}
