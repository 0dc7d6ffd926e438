// Puts a great many entries into an empty record: sealed and chained as the ledger does it, and not held against what is there. A test
// holds that the same drafts, appended one by one, are admitted and give the same chain and the same derived tables.
import { openLedger } from '@forcemeat/ledger'
import { genesis } from '@forcemeat/ledger/canonical'
import { openSqlite } from '@forcemeat/ledger/dialect/sqlite'
import { insertEntry, seal } from '@forcemeat/ledger/entry'
import type { Dated } from './plant.ts'

const together = 200_000

/** Load an empty record in a folder and fill its derived tables. Returns the number of entries and how long each part took, s. */
export async function load(
  folder: string,
  drafts: Iterable<Dated>,
): Promise<{ entries: number; loadSeconds: number; rebuildSeconds: number }> {
  const made = await openLedger({ folder })
  await made.close()
  const store = await openSqlite({ file: made.file })
  let begun = performance.now()
  let [seq, prev] = [0, genesis]
  const from = drafts[Symbol.iterator]()
  try {
    let next = from.next()
    while (!next.done)
      await store.transaction(async (sql) => {
        // Hashes fall anywhere in their index: without room for it in memory, each entry would read and write a page of its own.
        await sql.run('pragma cache_size = -2000000')
        for (let i = 0; i < together && !next.done; i += 1, next = from.next()) {
          seq += 1
          const unsealed = { ...next.value.draft, seq, at: next.value.at, prev }
          const { text, hash } = seal(unsealed)
          await insertEntry(sql, { ...unsealed, hash }, text)
          prev = hash
        }
      })
  } finally {
    await store.close()
  }
  const loadSeconds = (performance.now() - begun) / 1000
  const ledger = await openLedger({ folder })
  try {
    begun = performance.now()
    await ledger.rebuildViews()
    return { entries: seq, loadSeconds, rebuildSeconds: (performance.now() - begun) / 1000 }
  } finally {
    await ledger.close()
  }
}
