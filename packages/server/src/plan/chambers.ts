import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { chamberLogs, type ChamberLog } from '../slow/chamber.ts'

/** Most logs kept read, so that a list of batches does not read the same files again and again. */
const mostKept = 100

type Purposes = Parameters<typeof chamberLogs>[2]
export type Chambers = (record: BatchRecord, purposes: Purposes) => Promise<ChamberLog[]>

/** Logs of the rooms about batches, read once for each standing set of curves. */
export function chambers(ledger: Ledger): Chambers {
  const kept = new Map<string, Promise<ChamberLog[]>>()
  return (record, purposes) => {
    const curves = record.curves.filter((c) => purposes.includes(c.purpose)).map((c) => c.seq)
    const key = `${record.batch} ${purposes.join('+')} ${curves.join(',')}`
    const known = kept.get(key)
    if (known) return known
    const read = chamberLogs(ledger, record, purposes)
    kept.set(key, read)
    read.catch(() => kept.delete(key))
    if (kept.size > mostKept) kept.delete(kept.keys().next().value!)
    return read
  }
}
