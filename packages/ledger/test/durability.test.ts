import { chmodSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { killRounds } from '../../../scripts/ledger/trials/kill-rounds.ts'
import { openSqlite } from '../src/dialect/sqlite.ts'
import { openLedger, type Entry } from '../src/index.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

/** Raise to try longer, e.g. KILL_ROUNDS=500. */
const rounds = Number(process.env['KILL_ROUNDS'] ?? 30)

describe('a writer killed at any moment', () => {
  it(`loses no acknowledged entry in ${rounds} rounds, and leaves a chain that verifies`, async () => {
    const report = await killRounds({ rounds, seed: 11 })
    expect(report.faults).toEqual([])
    expect(report.acknowledged).toBeGreaterThan(rounds)
    expect(report.entries).toBeGreaterThanOrEqual(report.acknowledged)
  }, 600_000)
})

describe('two programs on one record', () => {
  it("both record, neither loses an entry, and each hears of the other's", async () => {
    const where = folder()
    const [one, two] = [await open(where), await openLedger({ folder: where, watchMs: 20 })]
    await one.append(ready)
    const heard: Entry[] = []
    const stop = two.onAppend((entries) => heard.push(...entries))
    await Promise.all(
      Array.from({ length: 40 }, (_, i) => [
        one.append([draft.lot(`ONE-${i}`)]),
        two.append([draft.lot(`TWO-${i}`)]),
      ]).flat(),
    )
    expect(await one.verify({ views: true })).toMatchObject({ ok: true, entries: 85 })
    await expect.poll(() => heard.filter((e) => e.seq > 5).length).toBe(80)
    expect(heard.map((e) => e.seq)).toEqual(heard.map((e) => e.seq).toSorted((a, b) => a - b))
    stop()
    await two.close()
  })

  it('of two processes writing at once, every acknowledged entry is in one chain', async () => {
    const where = folder()
    await (await open(where)).append(ready)
    const child = fileURLToPath(new URL('./writer.ts', import.meta.url))
    const write = (name: string) =>
      new Promise<string[]>((resolve, reject) => {
        const program = spawn(process.execPath, [child, where, name, '60'], { stdio: ['ignore', 'pipe', 'inherit'] })
        let out = ''
        program.stdout.on('data', (d: Buffer) => (out += d.toString()))
        program.on('close', (code) =>
          code === 0 ? resolve(out.trim().split('\n')) : reject(new Error(`ended with ${code}`)),
        )
      })
    const acknowledged = (await Promise.all([write('A'), write('B')])).flat()
    const ledger = await open(where)
    const entries = await ledger.entries({ limit: 1000 })
    expect(new Set(acknowledged).size).toBe(120)
    expect(entries.filter((e) => acknowledged.includes(`${e.seq} ${e.hash}`))).toHaveLength(120)
    expect(await ledger.verify({ views: true })).toMatchObject({ ok: true, entries: 125 })
  })

  it('says so when the other does not finish, and records after it has', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const store = await openSqlite({ file: ledger.file, waitMs: 50 })
    const other = new Database(ledger.file)
    other.exec('begin immediate')
    await expect(store.transaction(async () => undefined)).rejects.toMatchObject({ problem: 'busy' })
    other.exec('rollback')
    other.close()
    await store.transaction(async () => undefined)
    await store.close()
  })
})

describe('a disk', () => {
  it('that is full refuses by name, keeps what was there and takes entries again when there is room', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    await ledger.close()
    const { makeAppender } = await import('../src/append.ts')
    const store = await openSqlite({ file: ledger.file })
    // The database's own bound on pages stands for the disk's: the same code of refusal, met inside a commit.
    const [{ page_count: pages }] = (await store.sql.all<{ page_count: number }>('pragma page_count')) as [
      { page_count: number },
    ]
    await store.transaction(async () => undefined)
    const appender = makeAppender(
      store,
      () => '2026-03-02T09:00:00.000Z',
      () => undefined,
    )
    const bound = (to: number) =>
      store.transaction(async (sql) => void (await sql.all(`pragma max_page_count = ${to}`)))
    await bound(pages)
    const many = Array.from({ length: 400 }, (_, i) => draft.lot(`FULL-${i}`))
    await expect(appender.append(many)).rejects.toMatchObject({
      problem: 'disk-full',
      message: expect.stringContaining('nothing of this write was kept') as unknown,
    })
    await bound(1_000_000)
    expect(await appender.append(many)).toHaveLength(400)
    await store.close()
    expect(await (await open(where)).verify({ views: true })).toMatchObject({ ok: true, entries: 405 })
  })

  it.skipIf(process.getuid?.() === 0)('that cannot be written is named', async () => {
    const where = folder()
    chmodSync(where, 0o500)
    await expect(openLedger({ folder: where })).rejects.toMatchObject({ name: 'RecordError' })
    chmodSync(where, 0o700)
  })

  it('whose folder cannot be made is named', async () => {
    const file = join(folder(), 'a-file')
    writeFileSync(file, '')
    await expect(openLedger({ folder: join(file, 'here') })).rejects.toMatchObject({ problem: 'not-found' })
  })
})
