import {
  closeSync,
  copyFileSync,
  openSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { canonical, openLedger, sha256, type Entry, type Ledger } from '../src/index.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

/** A record of some entries and a file, closed; and a hand that reaches past the program into its tables. */
async function tampered(hand: (db: Database.Database) => void, entries = 40): Promise<Ledger> {
  const where = folder()
  const ledger = await open(where)
  await ledger.append([...ready, ...Array.from({ length: entries - 5 }, (_, i) => draft.lot(`L${i}`))])
  await ledger.putFile(new TextEncoder().encode('time,core\n0,20\n'))
  await ledger.close()
  const db = new Database(ledger.file)
  for (const { name } of db.prepare(`select name from sqlite_schema where type = 'trigger'`).all() as {
    name: string
  }[])
    db.exec(`drop trigger ${name}`)
  db.pragma('foreign_keys = OFF')
  hand(db)
  db.close()
  return open(where)
}

const row = (db: Database.Database, seq: number) =>
  db.prepare('select * from entry where seq = ?').get(seq) as { text: string; hash: string }

describe('verify names the first entry that does not hold', () => {
  it('when a weight was changed in its text', async () => {
    const ledger = await tampered((db) => {
      for (const seq of [20, 30])
        db.prepare('update entry set text = ? where seq = ?').run(row(db, seq).text.replace('"kg":50', '"kg":60'), seq)
    })
    const report = await ledger.verify()
    expect(report).toMatchObject({ ok: false, entries: 19, broken: { seq: 20, what: 'hash' } })
    expect(report.broken!.because).toMatch(/the entry was changed/)
  })

  it('when its hash was made to fit the changed text', async () => {
    const ledger = await tampered((db) => {
      const text = row(db, 20).text.replace('"kg":50', '"kg":60')
      db.prepare('update entry set text = ?, hash = ? where seq = 20').run(text, sha256(text))
    })
    expect(await ledger.verify()).toMatchObject({ ok: false, broken: { seq: 21, what: 'prev' } })
  })

  it('when an entry was taken out', async () => {
    const ledger = await tampered((db) => db.exec('delete from entry where seq = 20'))
    expect(await ledger.verify()).toMatchObject({ ok: false, broken: { seq: 20, what: 'gap' } })
  })

  it('when two entries changed places', async () => {
    const ledger = await tampered((db) =>
      db.exec('update entry set seq = -seq where seq in (20, 21); update entry set seq = 41 + seq where seq < 0'),
    ).catch((error: unknown) => error)
    // The table's own check may refuse the move; then nothing was changed, and that is as good.
    if (ledger instanceof Error) expect(ledger.message).toMatch(/CHECK/)
    else expect((await (ledger as Ledger).verify()).broken!.seq).toBe(20)
  })

  it.each([
    ['author', `'eve'`],
    ['kind', `'lot.adjust'`],
    ['at', `'2026-03-02T07:00:00.000Z'`],
    ['send_key', `'k'`],
  ])('when its column %s says other than its text', async (column, value) => {
    const ledger = await tampered((db) => db.exec(`update entry set ${column} = ${value} where seq = 20`))
    expect(await ledger.verify()).toMatchObject({ ok: false, broken: { seq: 20, what: 'content' } })
  })

  it('and tells that the end was cut off only against a head noted elsewhere', async () => {
    let head: Entry['hash'] = ''
    const ledger = await tampered((db) => {
      head = row(db, 40).hash
      db.exec('delete from entry where seq > 35')
    })
    expect((await ledger.verify()).ok).toBe(true)
    expect(await ledger.verify({ expect: { entries: 40, head } })).toMatchObject({
      ok: false,
      broken: { seq: 36, what: 'gap' },
    })
  })

  it('and a rewritten chain against a head noted elsewhere', async () => {
    let head = ''
    const ledger = await tampered((db) => {
      head = row(db, 40).hash
      let prev = row(db, 19).hash
      for (let seq = 20; seq <= 40; seq += 1) {
        const entry = { ...(JSON.parse(row(db, seq).text) as object), prev, why: 'rewritten' }
        const text = canonical(entry)
        db.prepare('update entry set text = ?, hash = ?, prev = ? where seq = ?').run(text, sha256(text), prev, seq)
        prev = sha256(text)
      }
    })
    expect((await ledger.verify()).ok).toBe(true)
    expect(await ledger.verify({ expect: { entries: 40, head } })).toMatchObject({ ok: false, broken: { seq: 40 } })
  })

  it('names a file whose bytes were changed', async () => {
    const ledger = await tampered((db) => db.exec(`update file set data = x'00'`))
    const report = await ledger.verify()
    expect(report.ok).toBe(false)
    expect(report.files.broken[0]!.because).toMatch(/the file was changed/)
  })
})

describe('the database itself refuses', () => {
  it.each(['update entry set author = author', 'delete from entry', 'update file set bytes = 1', 'delete from file'])(
    '%s',
    async (statement) => {
      const where = folder()
      const ledger = await open(where)
      await ledger.append(ready)
      await ledger.putFile(Uint8Array.of(1))
      const db = new Database(ledger.file)
      expect(() => db.exec(statement)).toThrow(/the record only grows/)
      db.close()
    },
  )
})

/** A closed record of some size, as one plain file. */
async function closed(): Promise<{ folder: string; file: string }> {
  const where = folder()
  const ledger = await open(where)
  await ledger.append([...ready, ...Array.from({ length: 400 }, (_, i) => draft.lot(`L${i}`))])
  await ledger.close()
  return { folder: where, file: ledger.file }
}

const openingOf = (where: string): Promise<unknown> =>
  openLedger({ folder: where }).then(
    (l) => l.close().then(() => 'opened'),
    (e: unknown) => e,
  )

describe('a damaged file is named and never repaired', () => {
  it('when its pages were overwritten', async () => {
    const { folder: where, file } = await closed()
    const size = statSync(file).size
    const handle = openSync(file, 'r+')
    for (let at = 4096 * 3; at < size; at += 4096 * 2) writeSync(handle, Buffer.alloc(2048, 0x5a), 0, 2048, at)
    closeSync(handle)
    const before = sha256(readFileSync(file))
    expect(await openingOf(where)).toMatchObject({
      problem: 'damaged',
      message: expect.stringContaining('Nothing was repaired') as unknown,
    })
    expect(sha256(readFileSync(file))).toBe(before)
  })

  it('when it was cut short', async () => {
    const { folder: where, file } = await closed()
    truncateSync(file, Math.floor(statSync(file).size / 2))
    expect(await openingOf(where)).toMatchObject({ problem: 'damaged' })
  })

  it('when it is no database', async () => {
    const where = folder()
    writeFileSync(join(where, 'record.db'), 'x'.repeat(10_000))
    expect(await openingOf(where)).toMatchObject({ problem: 'damaged' })
  })

  it('bit by bit: a flipped bit anywhere is found at start or by verify, or changes nothing the record says', async () => {
    const { folder: where, file } = await closed()
    const sound = readFileSync(file)
    const ledger = await openLedger({ folder: where })
    const said = JSON.stringify([await ledger.entries({ limit: 1000 }), await ledger.lots({ limit: 1000 })])
    await ledger.close()
    let named = 0
    const flips = 60
    for (let i = 0; i < flips; i += 1) {
      const bytes = Buffer.from(sound)
      // Spread over the file by the golden ratio, bit after bit.
      const at = Math.floor(((i * 0.618033988749895) % 1) * bytes.length)
      bytes[at] = bytes[at]! ^ (1 << (i % 8))
      const place = folder()
      writeFileSync(join(place, 'record.db'), bytes)
      let found: boolean
      try {
        const damaged = await openLedger({ folder: place })
        found = !(await damaged.verify({ views: true })).ok
        if (!found)
          expect(JSON.stringify([await damaged.entries({ limit: 1000 }), await damaged.lots({ limit: 1000 })])).toBe(
            said,
          )
        await damaged.close()
      } catch (error) {
        expect(error).toMatchObject({ name: 'RecordError' })
        found = true
      }
      if (found) named += 1
    }
    expect(named).toBeGreaterThan(flips / 3)
  })

  it('when a page of it is damaged while it is backed up: no backup is called good', async () => {
    const { file } = await closed()
    const other = folder()
    copyFileSync(file, join(other, 'record.db'))
    const ledger = await openLedger({ folder: other })
    const db = new Database(join(other, 'record.db'))
    db.exec('drop trigger entry_never_updated')
    db.exec(`update entry set text = replace(text, '"kg":50', '"kg":51') where seq = 100`)
    db.close()
    await expect(ledger.backup(join(other, 'b.db'))).rejects.toMatchObject({
      problem: 'damaged',
      message: expect.stringContaining('entry 100') as unknown,
    })
    await ledger.close()
  })
})
