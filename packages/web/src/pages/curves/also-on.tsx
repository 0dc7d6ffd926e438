import type { SharedLog } from '@forcemeat/rulebook/batch/shared-logs'

/** Other batches on which the file of a curve stands too, each in one click, with what was said of it. */
export function AlsoOn({ logs, seq }: { logs: readonly SharedLog[] | undefined; seq: number }) {
  const mine = (logs ?? []).filter((s) => s.seq === seq)
  if (mine.length === 0) return null
  return (
    <p>
      The same file is on{' '}
      {mine.map(({ other, later, note }, i) => (
        <span key={other.seq}>
          {i > 0 && ', and on '}
          <a href={`/curves/${encodeURIComponent(other.batch)}/${other.seq}`}>{other.batch}</a> of {other.on}
          {note === undefined
            ? ', and nobody said why'
            : // Its own note stands beside it already.
              later === 'other' && `: “${note}”`}
        </span>
      ))}
    </p>
  )
}
