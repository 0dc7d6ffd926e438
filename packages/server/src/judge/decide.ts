import { InvalidInput } from '@forcemeat/craft/calculation'
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

/** Key of the deviation a hold opens, from that of the hold. */
const deviationKey = (key: string): string => `${key.slice(0, 80)}.deviation`

/**
 * The entries a decision was recorded as before, under its key: the same decision on the same batch for the same reasons. What was
 * signed then stands as it was signed. @throws InvalidInput where the key was used for something else
 */
async function decidedBefore(ledger: Ledger, asked: Decision): Promise<Entry[] | undefined> {
  const { batch, decision, reasons, by, key } = asked
  const entry = key === undefined ? undefined : await ledger.entryOfKey(key)
  if (key === undefined || !entry) return undefined
  const said = (e: Pick<Decision, 'batch' | 'decision' | 'reasons'>) => JSON.stringify([e.batch, e.decision, e.reasons])
  if (entry.kind !== 'batch.decide' || entry.by !== by || said(entry.body) !== said({ batch, decision, reasons }))
    throw new InvalidInput([
      {
        path: 'key',
        message: `was used for entry ${entry.seq} with other content; allowed: a key of its own for each entry`,
      },
    ])
  const opened = decision === 'hold' ? await ledger.entryOfKey(deviationKey(key)) : undefined
  const mine = opened?.kind === 'deviation.open' && opened.body.about.some((a) => a.type === 'batch' && a.id === batch)
  return mine ? [entry, opened] : [entry]
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
      ...(key === undefined ? {} : { key: deviationKey(key) }),
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
 * Record a person's release or hold. A hold on a limit that failed opens a deviation with it. The batch is judged here and now, and what is
 * signed is computed here. The same decision sent again under its key is answered with what was recorded (`again`).
 * @throws Refusal 404 for a batch that is not there; 409, with the findings, for a release that a limit stops; InvalidInput
 */
export async function decide(
  ledger: Ledger,
  { batch, decision, reasons, by, key }: Decision,
  today = new Date().toISOString().slice(0, 10),
): Promise<{ entries: Entry[]; findings: readonly Finding[]; again?: true }> {
  const record = await ledger.batch(batch)
  if (!record) throw notHere('batch', batch)
  const judgement = await judged(ledger, record)
  const { findings } = judgement
  const before = await decidedBefore(ledger, { batch, decision, reasons, by, key })
  if (before) return { entries: before, findings, again: true }
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
