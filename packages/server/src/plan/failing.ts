import { canonical, sha256, type BatchRecord, type Ledger } from '@forcemeat/ledger'
import { judged, stopsRelease } from '../judge/judged.ts'

type Known = { readonly facts: string; readonly fails: readonly string[] }

/** Verdicts of the batches a plan asked about last, by record: a week is planned again and again on the same facts. */
const held = new WeakMap<Ledger, Map<string, Known>>()
/** Most batches remembered. */
const most = 1000

/**
 * The limits a batch fails by its facts and the rules now, by their titles; empty where it fails none. What cannot be told yet fails nothing:
 * a batch under way waits for most of what it will be judged by.
 */
export async function failsOf(ledger: Ledger, record: BatchRecord): Promise<readonly string[]> {
  const known = held.get(ledger) ?? new Map<string, Known>()
  held.set(ledger, known)
  const { packs: _packs, ...judgedOn } = record
  const facts = sha256(canonical({ ...judgedOn, ownLimits: (await ledger.kitchen())?.ownLimits ?? null }))
  const before = known.get(record.batch)
  if (before?.facts === facts) return before.fails
  const stops = stopsRelease(await judged(ledger, record))
  const fails = [...new Set(stops.filter((f) => f.verdict === 'fail').map((f) => f.title))]
  if (known.size >= most) known.clear()
  known.set(record.batch, { facts, fails })
  return fails
}
