import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { fileOf, openLedger, verifyFile } from '@forcemeat/ledger'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { createApp, serve } from '../src/index.ts'
import { refuseWrites, verifyAtStart, verifyBeside } from '../src/integrity.ts'
import { smallKitchen } from './support.ts'

let folder: string
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-'))
  const ledger = await openLedger({ folder })
  await ledger.append(smallKitchen)
  await ledger.close()
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

/** As somebody with a database program would, past what keeps rows from being changed. */
function change(statement: string): void {
  const db = new Database(fileOf({ folder }))
  db.exec('drop trigger entry_never_updated')
  db.exec(statement)
  db.close()
}
const flipped = `update entry set text = replace(text, 'Ana Brook', 'Ana Bsook') where seq = 1`

it.each([
  ['a flipped bit', flipped],
  ['an entry rewritten with its hash left', `update entry set text = '{}' where seq = 1`],
])('a changed entry is found at start and named, and the server does not start: %s', async (_, statement) => {
  change(statement)
  await expect(serve({ port: 0, folder, log: () => undefined })).rejects.toMatchObject({
    name: 'RecordError',
    problem: 'damaged',
    message: expect.stringMatching(/record is damaged \(entry 1 is the first.*Nothing was repaired/) as string,
  })
})

it('a whole record starts, and health says that its chain holds', async () => {
  const serving = await serve({ port: 0, folder, log: () => undefined })
  try {
    const health = (await (await fetch(`${serving.url}api/health`)).json()) as object
    expect(health).toMatchObject({ ok: true, record: { chain: 'holds' } })
  } finally {
    await serving.close()
  }
})

it('a record too long for that is walked beside the work; once it is found broken, nothing more is written', async () => {
  change(flipped)
  const opened = await openLedger({ folder })
  expect(await verifyAtStart(opened, 1)).toBe(true)
  const { ledger, integrity, found } = refuseWrites(opened)
  const app = createApp({ ledger, integrity, log: () => undefined })
  const write = () =>
    app.request('/api/entries', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ kind: 'person.add', by: 'ana', body: { person: 'bo', name: 'Bo Reed', role: 'maker' } }),
    })
  expect((await write()).status).toBe(201)
  const lines: string[] = []
  await new Promise<void>((resolve) => {
    const log = (line: object): void => void lines.push(JSON.stringify(line))
    verifyBeside(ledger.file, log, (because) => {
      found(because)
      setImmediate(resolve)
    })
  })
  const refused = await write()
  expect(refused.status).toBe(503)
  expect(await refused.text()).toMatch(/entry 1 is the first that does not hold/)
  expect(lines.join()).toMatch(/"level":"error".*entry 1 is the first/)
  const health = await app.request('/api/health')
  expect(await health.json()).toMatchObject({ ok: false, record: { chain: 'broken' } })
  expect((await app.request('/api/lots')).status).toBe(200)
  app.hangUp()
  await ledger.close()
}, 20_000)

it('a whole record is walked through a connection that only reads', async () => {
  expect(await verifyFile(fileOf({ folder }))).toMatchObject({ ok: true, entries: smallKitchen.length })
})
