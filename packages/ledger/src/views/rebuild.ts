import type { Sql, Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import { facts } from '../facts.ts'
import { indexViews, remakeViews } from '../migrations.ts'
import { project, refreshBatches, type PlanCache } from './project.ts'

const chunk = 5000

/** Make the derived tables anew inside a transaction and fill them from the entries. Returns the number of the last entry. */
export async function fillViews(store: Store, sql: Sql, progress?: (done: number) => void): Promise<number> {
  await remakeViews(store, sql)
  const plans: PlanCache = new Map()
  let last = 0
  for (;;) {
    const rows = await sql.all<{ seq: number; text: string; hash: string }>(
      'select seq, text, hash from entry where seq > ? order by seq limit ?',
      [last, chunk],
    )
    for (const row of rows) {
      const entry = fromText(row.text, row.hash)
      // A kind this version does not know stays in the record and waits for a version that does.
      if (entry.kind in facts) await project(sql, entry, { plans, refreshLater: true })
      last = row.seq
    }
    if (rows.length < chunk) break
    progress?.(last)
  }
  await indexViews(store, sql)
  await refreshBatches(sql)
  return last
}

/** Drop the derived tables and fill them again from the entries, in one transaction: all of it or nothing. */
export const rebuildViews = (store: Store, progress?: (done: number) => void): Promise<number> =>
  store.transaction((sql) => fillViews(store, sql, progress))
