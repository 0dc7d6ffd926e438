import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { backupTo } from '../src/backup.ts'
import { openSqlite } from '../src/dialect/sqlite.ts'
import { openLedger } from '../src/index.ts'
import { migrate, steps } from '../src/migrations.ts'
import { requireNode } from '../src/node-version.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

const at = '2026-03-02T08:00:00.000Z'

describe('the stored schema', () => {
  it('is the one released: what is here may be added to, never changed', async () => {
    const ledger = await open()
    const store = await openSqlite({ file: ledger.file, readOnly: true })
    try {
      expect(await store.schema()).toMatchSnapshot()
    } finally {
      await store.close()
    }
  })

  it('holds every table strict, foreign keys on, each commit waited for', async () => {
    const ledger = await open()
    await ledger.append(ready)
    const db = new Database(ledger.file)
    const loose = db
      .prepare(
        `select name from pragma_table_list where schema = 'main' and type = 'table' and strict = 0 and name not like 'sqlite_%'`,
      )
      .all()
    expect(loose).toEqual([])
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal')
    expect(db.pragma('foreign_key_check')).toEqual([])
    db.close()
  })

  it('is brought up to date once, and again without effect', async () => {
    const file = join(folder(), 'record.db')
    const store = await openSqlite({ file })
    await migrate(store, { at })
    const first = await store.schema()
    await migrate(store, { at })
    expect(await store.schema()).toEqual(first)
    expect(await store.sql.all('select id from migration order by id')).toEqual(steps.map(({ id }) => ({ id })))
    await store.close()
  })
})

describe('a record written by a newer program', () => {
  it('is refused by name and left as it is', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    await ledger.close()
    const db = new Database(ledger.file)
    db.exec(`insert into migration (id, at) values ('9999-future', '${at}')`)
    db.close()
    await expect(openLedger({ folder: where })).rejects.toMatchObject({
      problem: 'newer-file',
      message: expect.stringContaining('9999-future') as unknown,
    })
  })
})

describe('a new step', () => {
  const added = { id: '9000-added', sql: () => ['create table extra (id integer primary key) strict'] }
  const broken = {
    id: '9001-broken',
    sql: () => ['create table half (id integer primary key) strict', 'create table half (id integer)'],
  }

  it('is taken after the file was copied, and a step that fails leaves nothing of itself', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    await ledger.close()
    const store = await openSqlite({ file: ledger.file })
    const copy = join(where, 'before.db')
    const beforeChange = () => backupTo(store, copy).then(() => undefined)
    await expect(migrate(store, { at, steps: [...steps, added, broken], beforeChange })).rejects.toThrow(/half/)
    expect(existsSync(copy)).toBe(true)
    expect(await store.tableNames()).toContain('extra')
    expect(await store.tableNames()).not.toContain('half')
    await store.close()
    const before = await openLedger({ file: copy })
    expect((await before.head()).entries).toBe(5)
    await before.close()
  })
})

describe('the derived tables of another version', () => {
  it('are rebuilt when the record is opened', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append([...ready, draft.lot('PORK-2')])
    await ledger.close()
    const db = new Database(ledger.file)
    db.exec(`update view_version set version = '0'; update lot set balance_mg = 1`)
    db.close()
    const again = await open(where)
    expect((await again.lots()).map((l) => l.balanceKg)).toEqual([50, 50])
    expect(readdirSync(where).filter((f) => f.endsWith('.db'))).toEqual(['record.db'])
  })
})

describe('the Node it runs on', () => {
  it('is refused when its native interface is too old for the driver', () => {
    expect(() => requireNode('20.20.2')).toThrow(/Node 20.20.2; the record needs Node 22 or newer/)
    expect(() => requireNode('24.21.0')).not.toThrow()
  })
})
