import { appendFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLedger, restoreBackup, sha256 } from '../src/index.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

const bytes = new TextEncoder().encode('minute;core\n0;21,5\n')

describe('a backup', () => {
  it('holds the entries and files of the record, taken while others write, as one plain file', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const { sha256: name } = await ledger.putFile(bytes)
    const target = join(where, 'backups', 'monday.db')
    const [report] = await Promise.all([
      ledger.backup(target),
      ...Array.from({ length: 50 }, (_, i) => ledger.append([draft.lot(`L${i}`)])),
    ])
    expect(report.entries).toBeGreaterThanOrEqual(5)
    expect(report).toMatchObject({ file: target, files: 1 })
    expect((await ledger.entry(report.entries))!.hash).toBe(report.head)
    expect(readdirSync(join(where, 'backups'))).toEqual(['monday.db'])
    const copy = await openLedger({ file: target })
    expect(Uint8Array.from((await copy.getFile(name))!)).toEqual(bytes)
    expect(await copy.verify({ views: true })).toMatchObject({ ok: true, entries: report.entries })
    await copy.close()
    await expect(ledger.backup(target)).rejects.toMatchObject({ problem: 'not-empty' })
  })
})

describe('a restore', () => {
  it('puts a backup where there is no record', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const backup = await ledger.backup(join(where, 'b.db'))
    const elsewhere = folder()
    expect(await restoreBackup({ folder: elsewhere, from: backup.file })).toMatchObject({
      entries: 5,
      head: backup.head,
    })
    expect(await (await open(elsewhere)).lot('PORK-1')).toMatchObject({ balanceKg: 50 })
  })

  it('refuses to replace a record that goes on past the backup, unless forced; what it replaces is kept aside', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const { file: from } = await ledger.backup(join(where, 'b.db'))
    await ledger.append([draft.lot('PORK-2')])
    await expect(restoreBackup({ folder: where, from, force: true })).rejects.toMatchObject({ problem: 'busy' })
    await ledger.close()
    await expect(restoreBackup({ folder: where, from })).rejects.toMatchObject({
      problem: 'would-lose',
      message: expect.stringContaining('goes to entry 6') as unknown,
    })
    const report = await restoreBackup({ folder: where, from, force: true })
    expect(report.entries).toBe(5)
    const aside = await openLedger({ file: report.replaced! })
    expect((await aside.head()).entries).toBe(6)
    await aside.close()
  })

  it("refuses another kitchen's backup, even a longer one", async () => {
    const [mine, theirs] = [folder(), folder()]
    const ledger = await open(mine)
    await ledger.append(ready)
    await ledger.close()
    const other = await open(theirs, () => '2026-03-03T08:00:00.000Z')
    await other.append([...ready, draft.lot('PORK-2')])
    const { file: from } = await other.backup(join(theirs, 'b.db'))
    await expect(restoreBackup({ folder: mine, from })).rejects.toMatchObject({ problem: 'would-lose' })
  })

  it('brings a record forward to a later backup of itself without being forced', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const early = await ledger.backup(join(where, 'early.db'))
    await ledger.append([draft.lot('PORK-2')])
    const late = await ledger.backup(join(where, 'late.db'))
    const elsewhere = folder()
    await restoreBackup({ folder: elsewhere, from: early.file })
    expect(await restoreBackup({ folder: elsewhere, from: late.file })).toMatchObject({ entries: 6, head: late.head })
  })

  it('refuses a damaged backup, and a damaged record only yields to force', async () => {
    const where = folder()
    const ledger = await open(where)
    await ledger.append(ready)
    const { file: from } = await ledger.backup(join(where, 'b.db'))
    await ledger.close()
    const spoiled = join(where, 'spoiled.db')
    writeFileSync(spoiled, readFileSync(from).fill(0x5a, 4096 * 4, 4096 * 12))
    await expect(restoreBackup({ folder: folder(), from: spoiled })).rejects.toMatchObject({ problem: 'damaged' })
    writeFileSync(ledger.file, 'no database')
    await expect(restoreBackup({ folder: where, from })).rejects.toMatchObject({ problem: 'would-lose' })
    expect(await restoreBackup({ folder: where, from, force: true })).toMatchObject({ entries: 5 })
  })

  it('refuses a file that is no record', async () => {
    const where = folder()
    writeFileSync(join(where, 'x.db'), 'x'.repeat(5000))
    await expect(restoreBackup({ folder: where, from: join(where, 'x.db') })).rejects.toMatchObject({
      problem: 'damaged',
    })
    await expect(restoreBackup({ folder: where, from: join(where, 'none.db') })).rejects.toMatchObject({
      problem: 'not-found',
    })
  })
})

describe('an export as plain files', () => {
  it('imported into an empty record gives the same chain, files and views', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.plan(), draft.weigh()])
    const { sha256: name } = await ledger.putFile(bytes)
    await ledger.append([{ ...draft.weigh('B-1', 'meat', 18), corrects: 7, why: 'tare left on' }])
    const out = join(folder(), 'out')
    const report = await ledger.exportTo(out)
    expect(report).toEqual({ folder: out, entries: 8, head: (await ledger.head()).head, files: 1 })
    expect(sha256(readFileSync(join(out, 'files', name)))).toBe(name)
    const copy = await open()
    expect(await copy.importFrom(out)).toMatchObject({ entries: 8, head: report.head, files: 1 })
    expect(await copy.entries()).toEqual(await ledger.entries())
    expect(await copy.batch('B-1')).toEqual(await ledger.batch('B-1'))
    expect(await copy.verify({ views: true })).toMatchObject({ ok: true, entries: 8 })
    await copy.append([draft.weigh('B-1', 'salt', 0.36)])
    await expect(copy.importFrom(out)).rejects.toMatchObject({ problem: 'not-empty' })
    await expect(ledger.exportTo(out)).rejects.toMatchObject({ problem: 'not-empty' })
  })

  it('changed, cut short or reordered is refused by its line, and nothing of it is kept', async () => {
    const ledger = await open()
    await ledger.append(ready)
    const out = join(folder(), 'out')
    await ledger.exportTo(out)
    const path = join(out, 'entries.jsonl')
    const text = readFileSync(path, 'utf8')
    const lines = text.trimEnd().split('\n')
    const cases: [string, string][] = [
      [text.replace('"kg":50', '"kg":5'), 'line 4: has the hash'],
      [lines.slice(0, 4).join('\n'), 'head.json: says 5 entries, and entries.jsonl holds 4'],
      [[lines[1], lines[0]].join('\n'), 'line 1: does not follow entry 0'],
      ['{', 'line 1: is not JSON'],
    ]
    for (const [spoiled, fault] of cases) {
      writeFileSync(path, spoiled)
      const empty = await open()
      await expect(empty.importFrom(out)).rejects.toThrow(fault)
      expect((await empty.head()).entries).toBe(0)
    }
    writeFileSync(path, text)
    writeFileSync(join(out, 'files', 'a'.repeat(64)), 'x')
    await expect((await open()).importFrom(out)).rejects.toThrow(/holds other bytes/)
    expect(existsSync(path)).toBe(true)
    appendFileSync(path, '')
  })
})
