import type { Finding } from '@forcemeat/craft/finding'
import type { Draft, Entry, Ledger } from '@forcemeat/ledger'
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

/** A deviation for a hold on limits that failed: what failed, about the batch. None where one about it is open already. */
async function deviationOf(
  ledger: Ledger,
  { batch, by, key }: Decision,
  failed: readonly Finding[],
  today: string,
): Promise<readonly Draft[]> {
  const rule = failed[0]?.rule
  if (rule === undefined) return []
  const all = await ledger.deviations()
  const mine = all.filter((d) => d.about.some((a) => a.type === 'batch' && a.id === batch))
  if (mine.some((d) => d.closed === undefined)) return []
  const taken = new Set(all.map((d) => d.deviation))
  const name = (n: number): string => `D-${batch.slice(0, 50)}${n === 1 ? '' : `-${n}`}`
  let n = 1
  while (taken.has(name(n))) n += 1
  return [
    {
      kind: 'deviation.open',
      by,
      ...(key === undefined ? {} : { key: `${key.slice(0, 80)}.deviation` }),
      body: {
        deviation: name(n),
        on: today,
        about: [{ type: 'batch', id: batch }],
        what: failed.map(spoken).join(' ').slice(0, 2000),
        rule: rule.slice(0, 120),
      },
    },
  ]
}

/**
 * Record a person's release or hold. A hold on a limit that failed opens a deviation with it. The batch is judged here and now, and what is signed is computed here.
 * @throws Refusal 404 for a batch that is not there; 409, with the findings, for a release that a limit stops; InvalidInput
 */
export async function decide(
  ledger: Ledger,
  { batch, decision, reasons, by, key }: Decision,
  today = new Date().toISOString().slice(0, 10),
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
  const failed = decision === 'hold' ? findings.filter((f) => f.verdict === 'fail' && f.weight !== 'advice') : []
  const entries = await ledger.append([
    { kind: 'batch.decide', body, by, ...(key === undefined ? {} : { key }) },
    ...(await deviationOf(ledger, { batch, decision, reasons, by, key }, failed, today)),
  ])
  return { entries, findings }
}
