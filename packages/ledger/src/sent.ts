import { InvalidInput } from '@forcemeat/craft/calculation'
import { canonical } from './canonical.ts'
import type { Sql } from './dialect/store.ts'
import { parseDrafts } from './draft.ts'
import { fromText } from './entry.ts'
import type { Draft, Entry } from './facts.ts'

/** The entry recorded under a sender's key, whether it still stands or not. */
export async function entryOfKey(sql: Sql, key: string): Promise<Entry | undefined> {
  const [row] = await sql.all<{ text: string; hash: string }>('select text, hash from entry where send_key = ?', [key])
  return row && fromText(row.text, row.hash)
}

/** Whether an entry holds what a draft says: the same fact, by the same person, correcting the same entry for the same reason. */
export function holds(entry: Entry, draft: Draft): boolean {
  const content = ({ kind, body, by, corrects, why }: Draft) => canonical({ kind, body, by, corrects, why })
  return content(entry) === content(draft)
}

/**
 * For each of some drafts the entry it was recorded as before, under its key and with the same content; nothing where it has no key, was
 * not recorded, or has no readable shape. A sender whose line broke asks this before anything is held against it again.
 */
export async function sentBefore(sql: Sql, drafts: readonly unknown[]): Promise<(Entry | undefined)[]> {
  const found: (Entry | undefined)[] = []
  for (const given of drafts) {
    const key = (given as { key?: unknown } | null)?.key
    const entry = typeof key === 'string' ? await entryOfKey(sql, key) : undefined
    found.push(entry && isOf(entry, given) ? entry : undefined)
  }
  return found
}

function isOf(entry: Entry, given: unknown): boolean {
  try {
    return holds(entry, parseDrafts([given])[0]!)
  } catch (error) {
    if (error instanceof InvalidInput) return false
    throw error
  }
}
