import type { Finding } from '@forcemeat/craft/finding'
import { canonical, sha256, type BatchRecord } from '@forcemeat/ledger'

/**
 * What comes after the facts a decision rests on, or is counted from them. A released batch is taken down from its room; where it hung before
 * speaks through the findings.
 */
const afterwards = new Set([
  // A log put on another batch later is no fact of this one; what it leaves open speaks through the findings.
  'sharedLogs',
  'placements',
  'state',
  'packs',
  'decisions',
  'decision',
  'waitsFor',
  'packCount',
  'weighedLines',
])

const without = (fact: object, left: ReadonlySet<string>): object =>
  Object.fromEntries(Object.entries(fact).filter(([key]) => !left.has(key)))

/** What was planned, weighed, measured and logged, from what, on what. A lot's balance goes on changing and is no fact of the batch. */
const factsOf = (record: BatchRecord): object => ({
  ...without(record, afterwards),
  lots: record.lots.map((lot) => without(lot, new Set(['balanceKg']))),
})

/** What a person signs: SHA-256 over the canonical JSON of the facts and the findings as they stand. */
export const signedHash = (record: BatchRecord, findings: readonly Finding[]): string =>
  sha256(canonical({ facts: factsOf(record), findings }))
