import type { Finding } from '../../finding.ts'
import type { LabelBlock } from './schema.ts'

/** Whether all that is open is that nobody has read the rule's source: then a person may answer for it. */
const onlyUnread = (f: Finding): boolean =>
  f.verdict === 'cannot-tell' && f.source.mark === 'from-memory' && !(f.margin !== undefined && f.margin < 0)

/** Rules that ask for something done by hand or said by whoever knows the product, which a person may answer for. */
const byHand = (f: Finding): boolean =>
  f.verdict === 'cannot-tell' &&
  ['.safe-handling', '.name.documents', '.raw-perishable', '.display-shape', '.premises', '.legend'].some((end) =>
    f.rule.endsWith(end),
  )

/** Whether another way of meeting the same requirement passes. */
const metOtherwise = (f: Finding, all: readonly Finding[]): boolean =>
  f.anyOf !== undefined &&
  all.some((g) => g.anyOf === f.anyOf && g.jurisdiction === f.jurisdiction && g.verdict === 'pass')

/** What stops the approval of a label, from its findings: limits that failed, and what cannot be told. */
export const blocksOf = (findings: readonly Finding[]): LabelBlock[] =>
  findings
    .filter((f) => f.weight !== 'advice' && f.verdict !== 'pass' && !metOtherwise(f, findings))
    .map((f) => ({
      id: `${f.rule}@${f.jurisdiction}`,
      what: `${f.title}: ${f.because}`,
      settle: f.settle ?? 'change what the rule limits',
      by: onlyUnread(f) || byHand(f) ? 'person' : 'data',
    }))

export const block = (id: string, what: string, settle: string, by: LabelBlock['by'] = 'data'): LabelBlock => ({
  id,
  what,
  settle,
  by,
})
