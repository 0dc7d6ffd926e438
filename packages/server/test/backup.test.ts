import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { restoreBackup } from '@forcemeat/ledger'
import { restoreFeeds } from '../src/backup/feeds.ts'
import { openFeeds } from '../src/feed/store.ts'
import { backupAndTry, scheduleBackups } from '../src/backup/schedule.ts'
import { openHouse, smallKitchen, type House } from './support.ts'

let house: House
let folder: string
afterEach(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})
const begin = async (): Promise<void> => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-backups-'))
  house = await openHouse()
  await house.ledger.append(smallKitchen)
}

describe('backups by the clock', () => {
  it('are restored into a scratch record and end in the same entry, while work goes on', async () => {
    await begin()
    const { entries, head } = await house.ledger.head()
    const [report] = await Promise.all([
      backupAndTry(house.ledger, folder, () => new Date('2026-11-25T08:00:00Z')),
      house.ledger.append([
        { kind: 'lot.adjust', by: 'ana', body: { lot: 'PS-1', kg: -1, reason: 'waste', on: '2026-11-25' } },
      ]),
    ])
    expect([entries, entries + 1]).toContain(report.entries)
    if (report.entries === entries) expect(report.head).toBe(head)
    expect(readdirSync(folder)).toEqual(['record-2026-11-25T080000000Z.db'])
  })

  it('keep as many copies as the plan says, and touch no other file', async () => {
    await begin()
    writeFileSync(join(folder, 'letters.db'), 'mine')
    let clock = Date.parse('2026-11-25T08:00:00Z')
    const plan = { folder, everyHours: 24, keep: 2 }
    const backups = scheduleBackups(
      house.ledger,
      plan,
      () => new Date(clock),
      () => undefined,
    )
    for (let i = 0; i < 4; i += 1) {
      await backups.run()
      clock += 86_400_000
    }
    await backups.stop()
    expect(readdirSync(folder).sort()).toEqual([
      'letters.db',
      'record-2026-11-27T080000000Z.db',
      'record-2026-11-28T080000000Z.db',
    ])
    expect(backups.state().last).toMatchObject({ entries: smallKitchen.length })
  })

  it('that fail say so, are logged, and leave the last good one standing', async () => {
    await begin()
    let clock = Date.parse('2026-11-25T08:00:00Z')
    const lines: unknown[] = []
    const target = join(folder, 'disk')
    const backups = scheduleBackups(
      house.ledger,
      { folder: target, everyHours: 1, keep: 5 },
      () => new Date(clock),
      (l) => lines.push(l),
    )
    await backups.run()
    expect(backups.state().trouble).toBeUndefined()
    rmSync(target, { recursive: true })
    writeFileSync(target, 'a file where the folder was')
    clock += 3_600_000
    await backups.run()
    expect(backups.state()).toMatchObject({
      last: { at: '2026-11-25T08:00:00.000Z' },
      trouble: { at: '2026-11-25T09:00:00.000Z' },
    })
    expect(lines).toMatchObject([{ level: 'error' }])
    rmSync(target)
    mkdirSync(target)
    clock += 3_600_000
    await backups.run()
    expect(backups.state().trouble).toBeUndefined()
    await backups.stop()
    expect(existsSync(join(target, 'record-2026-11-25T100000000Z.db'))).toBe(true)
  })
})

describe('readings that are in no entry yet', () => {
  const readings = (minute: number) => [
    { at: `2026-11-25T08:${String(minute).padStart(2, '0')}:00Z`, channel: 'core', tempC: 20 + minute },
  ]
  const post = (minute: number) => house.ask('POST', '/api/feed/B-1/readings', readings(minute))

  it('are copied beside the backup, go with it when it goes, and come back with it', async () => {
    await begin()
    for (const minute of [0, 1, 2]) expect((await post(minute)).status).toBe(201)
    let clock = Date.parse('2026-11-25T09:00:00Z')
    const plan = { folder, everyHours: 24, keep: 1 }
    const backups = scheduleBackups(
      house.ledger,
      plan,
      () => new Date(clock),
      () => undefined,
    )
    await backups.run()
    clock += 86_400_000
    expect((await post(3)).status).toBe(201)
    await backups.run()
    await backups.stop()
    expect(backups.state()).toMatchObject({ last: { feeds: ['B-1'] } })
    expect(readdirSync(folder).sort()).toEqual(['record-2026-11-26T090000000Z.db', 'record-2026-11-26T090000000Z.feed'])
    const backup = join(folder, 'record-2026-11-26T090000000Z.db')
    const there = join(folder, 'elsewhere')
    const { file } = await restoreBackup({ folder: there, from: backup })
    expect(await restoreFeeds(backup, file)).toEqual({ restored: ['B-1'], left: [] })
    const feed = await openFeeds(join(there, 'feed')).feed('B-1')
    expect(feed?.readings.map((r) => r.value)).toEqual([20, 21, 22, 23])
    // What is there is never written over.
    expect(await restoreFeeds(backup, file)).toEqual({ restored: [], left: ['B-1'] })
  })
})

describe('a copy asked for', () => {
  const clock = Date.parse('2026-11-25T08:00:00Z')
  const ask = () => house.ask('POST', '/api/backup')

  it('is restored and held against the record like those by the clock, and says when and with which open feeds', async () => {
    await begin()
    const at = [{ at: '2026-11-25T08:00:00Z', channel: 'core', tempC: 20 }]
    expect((await house.ask('POST', '/api/feed/B-1/readings', at)).status).toBe(201)
    const begun = new Date().toISOString()
    const { status, body } = await ask()
    expect(status, JSON.stringify(body)).toBe(201)
    const { entries, head } = await house.ledger.head()
    expect(body).toMatchObject({ entries, head, feeds: ['B-1'] })
    expect(String(body['file'])).toMatch(/^backups[/\\]record-.*Z\.db$/)
    expect(String(body['at']) >= begun && String(body['tried']) >= String(body['at'])).toBe(true)
    const { files: _files, bytes: _bytes, ...byHand } = body
    expect((await house.ask('GET', '/api/backup')).body).toEqual({ byHand })
    const there = join(folder, 'elsewhere')
    const restored = await restoreBackup({ folder: there, from: join(house.folder, String(body['file'])) })
    expect(restored).toMatchObject({ entries, head })
  })

  it('twice at once is one', async () => {
    await begin()
    const [one, two] = await Promise.all([ask(), ask()])
    expect([one.status, two.status, two.body]).toEqual([201, 201, one.body])
    expect(readdirSync(join(house.folder, 'backups'))).toHaveLength(1)
  })

  it('that does not end where the record does is refused, set aside and named for it', async () => {
    await begin()
    const { ledger } = house
    const lying = {
      file: ledger.file,
      backup: async (file: string) => ({ ...(await ledger.backup(file)), head: 'f'.repeat(64) }),
    }
    await expect(backupAndTry(lying, folder, () => new Date(clock))).rejects.toThrow(/restored, it ends in entry/)
    expect(readdirSync(folder)).toEqual(['record-2026-11-25T080000000Z.db.failed'])
  })
})
