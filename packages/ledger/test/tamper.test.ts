// Whoever reaches past the program into the database is found out by verify, which names the first entry that does not hold.
import Database from 'better-sqlite3'
import * as fc from 'fast-check'
import { beforeAll, afterAll, expect, it } from 'vitest'
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setting, tell } from '../../../scripts/ledger/trials/every-kind.ts'
import { openLedger } from '../src/index.ts'
import { viewTables } from '../src/tables.ts'

let place: string
let file: string
let end: { entries: number; head: string }
let copies = 0
beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), 'ledger-tamper-'))
  const ledger = await openLedger({ folder: place, now: () => '2026-03-02T08:00:00.000Z' })
  await ledger.append(setting)
  for (const n of [1, 2]) await tell(n, ledger)
  const { entries, head } = await ledger.head()
  end = { entries, head: head! }
  await ledger.close()
  file = ledger.file
})
afterAll(() => rmSync(place, { recursive: true, force: true }))

/** A copy in which a hand has been at work, and what verify says of it; `refused` where it does not open. */
async function verdictOn(hand: (db: Database.Database) => void) {
  const folder = join(place, `copy-${(copies += 1)}`)
  const copy = join(folder, 'record.db')
  mkdirSync(folder)
  copyFileSync(file, copy)
  const db = new Database(copy)
  for (const { name } of db.prepare(`select name from sqlite_schema where type = 'trigger'`).all() as {
    name: string
  }[])
    db.exec(`drop trigger ${name}`)
  db.pragma('foreign_keys = OFF')
  db.pragma('ignore_check_constraints = ON')
  hand(db)
  db.pragma('journal_mode = DELETE')
  db.close()
  try {
    const ledger = await openLedger({ folder })
    try {
      return await ledger.verify({ views: true, expect: end })
    } finally {
      await ledger.close()
    }
  } catch (error) {
    return { refused: error as Error }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

type Column = 'seq' | 'at' | 'author' | 'kind' | 'send_key' | 'prev' | 'hash' | 'text'
const columns: readonly Column[] = ['seq', 'at', 'author', 'kind', 'send_key', 'prev', 'hash', 'text']

/** Another value for a column: one character other, one more, one less, empty, or another entry's. */
function otherThan(value: string, how: number, where: number, of: string): string {
  const at = where % Math.max(1, value.length)
  const other = value[at] === 'x' ? 'y' : 'x'
  const ways = [value.slice(0, at) + other + value.slice(at + 1), `${value}0`, value.slice(0, -1), '', of]
  return ways[how % ways.length]!
}

it('a changed value of any column of any entry, by a character, in length, or another entry’s', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.nat(),
      fc.nat(),
      fc.constantFrom(...columns.filter((c) => c !== 'seq')),
      fc.nat(4),
      fc.nat(2000),
      async (a, b, column, how, where) => {
        const [seq, from] = [1 + (a % end.entries), 1 + (b % end.entries)]
        let changed = false
        const verdict = await verdictOn((db) => {
          const valueAt = (n: number) =>
            (db.prepare(`select ${column} as v from entry where seq = ?`).get(n) as { v: string | null }).v
          const [value, other] = [valueAt(seq), valueAt(from)]
          const next = otherThan(value ?? 'k', how, where, other ?? 'k')
          changed = next !== value
          try {
            if (changed) db.prepare(`update entry set ${column} = ? where seq = ?`).run(next, seq)
          } catch {
            // Two entries cannot have one hash or one key: the database itself refuses, and nothing was changed.
            changed = false
          }
        })
        if (!changed) return
        if ('refused' in verdict) throw verdict.refused
        expect(verdict.ok).toBe(false)
        expect(verdict.broken?.seq, `${column} of entry ${seq}: ${JSON.stringify(verdict)}`).toBe(seq)
      },
    ),
    { numRuns: 60 },
  )
}, 120_000)

it('an entry taken out, put elsewhere or put in, anywhere', async () => {
  await fc.assert(
    fc.asyncProperty(fc.nat(), fc.constantFrom('out', 'elsewhere', 'in'), async (a, how) => {
      const seq = 1 + (a % end.entries)
      const verdict = await verdictOn((db) => {
        if (how === 'out') db.prepare('delete from entry where seq = ?').run(seq)
        else if (how === 'elsewhere') db.prepare('update entry set seq = ? where seq = ?').run(end.entries + 7, seq)
        else {
          db.prepare('update entry set seq = -seq - 1 where seq >= ?').run(seq)
          db.prepare('update entry set seq = -seq where seq < 0').run()
          db.prepare(
            `insert into entry select ?, at, author, kind, null, prev, substr(hash, 2) || 'f', text from entry where seq = ?`,
          ).run(seq, seq + 1)
        }
      })
      if ('refused' in verdict) throw verdict.refused
      expect(verdict.ok).toBe(false)
      expect(verdict.broken?.seq, JSON.stringify(verdict)).toBe(seq)
    }),
    { numRuns: 20 },
  )
}, 120_000)

it('a changed, missing or added row of any derived table, by its name', async () => {
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...viewTables), fc.nat(), fc.nat(), fc.boolean(), async (table, r, c, gone) => {
      let changed = false
      const verdict = await verdictOn((db) => {
        const all = db.prepare(`select * from ${table}`).all() as Record<string, unknown>[]
        const row = all[r % all.length]!
        const names = Object.keys(row)
        const where = names.map((n) => `${n} is ?`).join(' and ')
        if (gone) changed = db.prepare(`delete from ${table} where ${where}`).run(...Object.values(row)).changes > 0
        else {
          const name = names[c % names.length]!
          const next = typeof row[name] === 'number' ? row[name] + 1 : `${JSON.stringify(row[name])}x`
          try {
            changed =
              db.prepare(`update ${table} set ${name} = ? where ${where}`).run(next, ...Object.values(row)).changes > 0
          } catch {
            changed = false
          }
        }
      })
      if (!changed) return
      if ('refused' in verdict) return expect(verdict.refused.message).toMatch(/damaged/)
      expect(verdict.ok).toBe(false)
      expect(verdict.views, JSON.stringify([table, verdict])).toContain(table)
    }),
    { numRuns: 60 },
  )
}, 120_000)

it('a changed byte, size or name of a kept file', async () => {
  for (const statement of [
    `update file set data = cast(data || x'00' as blob)`,
    `update file set bytes = bytes + 1`,
    `update file set sha256 = substr(sha256, 2) || '0'`,
    `delete from file`,
  ]) {
    const verdict = await verdictOn((db) => db.exec(statement))
    if ('refused' in verdict) throw verdict.refused
    expect([statement, verdict.ok, verdict.files.broken.length > 0]).toEqual([statement, false, true])
  }
})
