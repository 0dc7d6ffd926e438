import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import { isSlow } from './slow-kind.ts'

/** A log of the batch's cook or chill that stands on another batch too, byte for byte. */
export type SharedLog = {
  /** Entry of this batch's own curve. */
  readonly seq: number
  readonly fileName: string
  readonly other: { readonly batch: string; readonly on: string; readonly seq: number; readonly slow: boolean }
  readonly later: 'this' | 'other'
  /** What the later of the two says. */
  readonly note?: string | undefined
}

/** Days apart that two batches cooked together may have been made; choices of ours. A slow one may be cooked weeks on. */
const APART = { cooked: 2, slow: 60 } as const

/** Whether a note names a batch: its code as a word of its own. */
export const namesBatch = (note: string | undefined, batch: string): boolean => {
  const code = batch.replaceAll('.', '\\.')
  return note !== undefined && new RegExp(`(^|[^A-Za-z0-9-])${code}($|[^A-Za-z0-9-])`, 'i').test(note)
}

const daysApart = (a: string, b: string): number => Math.abs(Date.parse(a) - Date.parse(b)) / 86_400_000

/** What keeps a shared log from answering for this batch; undefined where it is explained. */
function unexplained(facts: BatchFacts, { fileName, other, later, note }: SharedLog): string | undefined {
  const named = later === 'this' ? other.batch : facts.batch
  const where = `${fileName} is recorded on batch ${other.batch} of ${other.on} too (entry ${other.seq})`
  if (!namesBatch(note, named)) return `${where}, and nobody says that both were in that cook`
  const days = daysApart(facts.on, other.on)
  return days > (isSlow(facts) || other.slow ? APART.slow : APART.cooked)
    ? `${where}, which was made ${days} days from this one`
    : undefined
}

/**
 * A log is of the batch that was in the cook. One that stands on several batches answers for each of them only where the curve attached later
 * names the other batch and says so, and both were made about the same day. Nothing where no log is shared.
 */
export function judgeSharedLogs(facts: BatchFacts): Finding[] {
  const shared = facts.sharedLogs ?? []
  const open = shared.flatMap((s) => {
    const because = unexplained(facts, s)
    return because === undefined ? [] : [{ s, because }]
  })
  const s = open[0]?.s
  if (s !== undefined) {
    const [seq, of, names] =
      s.later === 'this' ? [s.seq, 'this batch', s.other.batch] : [s.other.seq, `batch ${s.other.batch}`, facts.batch]
    return [
      recordFinding('curveShared', {
        verdict: 'cannot-tell',
        because: [...new Set(open.map((o) => o.because))].join('; '),
        settle: `the log of this batch; or, where both were cooked together, entry ${seq} of ${of} corrected with a note that names ${names} and says so; or the entry withdrawn from the batch that was not in the cook`,
      }),
    ]
  }
  // Of the earlier batch nothing is said: what it was signed with stands as it was.
  const later = shared.filter((s) => s.later === 'this')
  if (later.length === 0) return []
  return [
    recordFinding('curveShared', {
      verdict: 'pass',
      because: later
        .map((s) => `${s.fileName} is of batch ${s.other.batch} of ${s.other.on}, too: “${s.note}”`)
        .join('; '),
    }),
  ]
}
