import { appendFileSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { readLog } from '@forcemeat/craft/log/read'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createApp } from '../../src/index.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const start = Date.UTC(2026, 10, 21, 6, 0)
let house: House
const now = () => new Date(start)
const by = 'ana'

beforeEach(async () => {
  house = await openHouse({ now })
  await house.ledger.append(smallKitchen)
})
afterEach(() => house.close())

const post = (readings: unknown) => house.ask('POST', '/api/feed/B-1/readings', readings)
const close = (body: object) => house.ask('POST', '/api/feed/B-1/close', { by, purpose: 'ferment', ...body })
const feed = async () => (await house.ask('GET', '/api/feed/B-1')).body
const faultsOf = (answer: { body: Record<string, unknown> }) =>
  answer.body['faults'] as { path: string; message: string }[]
const air = (minute: number, tempC: number, channel = 'chamber') => ({ minute, channel, tempC })
const moist = (minute: number, rhPct: number, channel = 'humidity') => ({ minute, channel, rhPct })
const both = [
  { channel: 'chamber', role: 'house' },
  { channel: 'humidity', role: 'humidity' },
]

describe('humidity among the readings of a feed', () => {
  it('is kept as sent beside the temperatures, read again, told as the latest, and kept once when sent again', async () => {
    expect((await post([air(0, 24), moist(0, 91.5), moist(1, 92)])).body).toMatchObject({ added: 3, count: 3 })
    expect((await post([moist(1, 92), moist(2, 92.25)])).body).toMatchObject({ added: 1, count: 4 })
    expect(await feed()).toMatchObject({
      channels: ['chamber', 'humidity'],
      readings: [air(0, 24), moist(0, 91.5), moist(1, 92), moist(2, 92.25)],
    })
    const { feeds } = (await house.ask('GET', '/api/feed')).body as { feeds: { last: object }[] }
    expect(feeds[0]!.last).toEqual({ t: 120_000, channel: 'humidity', rhPct: 92.25 })
  })

  it('survives a restart, and a line that a power cut left half written', async () => {
    await post([air(0, 24), moist(0, 91.5)])
    appendFileSync(join(house.folder, 'feed', 'B-1.jsonl'), '[[60000,"humidity",9')
    const again = createApp({ ledger: house.ledger, log: () => undefined, now })
    const answer = (await (await again.request('/api/feed/B-1')).json()) as { readings: unknown[] }
    again.hangUp()
    expect(answer.readings).toEqual([air(0, 24), moist(0, 91.5)])
  })

  it('stands in its file with its sign; a file from before it was fed reads as temperatures', async () => {
    const folder = join(house.folder, 'feed')
    mkdirSync(folder, { recursive: true })
    const head = JSON.stringify({ feed: 1, batch: 'B-1', opened: now().toISOString(), origin: start - 600_000 })
    writeFileSync(join(folder, 'B-1.jsonl'), `${head}\n[[0,"chamber",24]]\n[[60000,"chamber",24.5]]\n`)
    expect(await feed()).toMatchObject({ readings: [air(0, 24), air(1, 24.5)] })
    expect((await post([moist(1, 90)])).status).toBe(201)
    expect(readFileSync(join(folder, 'B-1.jsonl'), 'utf8').split('\n').at(-2)).toBe('[[60000,"humidity",90,"%"]]')
  })

  it('of a sensor in saturated air may read a little over 100', async () => {
    expect((await post([moist(0, 0), moist(1, 100), moist(2, 104.9)])).status).toBe(201)
  })

  it.each([
    ['both quantities at once', [{ ...air(0, 24), rhPct: 90 }], '[0].rhPct', 'allowed: one of tempC'],
    ['neither', [{ minute: 0, channel: 'humidity' }], '[0].tempC', 'is missing, and so is rhPct; allowed: one of'],
    [
      'more than a sensor reads in saturated air',
      [moist(0, 106)],
      '[0].rhPct',
      'is 106; allowed: a number in % RH, at least 0 and at most 105',
    ],
    ['less than nothing', [moist(0, -1)], '[0].rhPct', 'at least 0 and at most 105'],
    ['a text', [{ minute: 0, channel: 'humidity', rhPct: '90 %' }], '[0].rhPct', 'is the text "90 %"'],
    ['a name that says degrees', [moist(0, 90, 'rh C')], '[0].channel', 'something other than a relative humidity'],
    ['a name of other moisture', [moist(0, 90, 'dew point')], '[0].channel', 'allowed: another name'],
    [
      'two quantities on a channel',
      [air(0, 24), moist(1, 90, 'chamber')],
      '[1].rhPct',
      'are temperatures; allowed: tempC',
    ],
  ])('is refused with %s, and nothing is kept', async (_what, readings, path, words) => {
    const answer = await post(readings)
    expect(answer.status).toBe(400)
    expect(faultsOf(answer)[0]!.path).toBe(path)
    expect(faultsOf(answer)[0]!.message).toContain(words)
    expect((await feed())['open']).toBe(false)
  })

  it('is refused on a channel that read temperatures before, and a temperature where humidity was, after a restart too', async () => {
    await post([air(0, 24), moist(0, 90)])
    const again = createApp({ ledger: house.ledger, log: () => undefined, now })
    const sent = async (reading: object) => {
      const answer = await again.request('/api/feed/B-1/readings', { method: 'POST', body: JSON.stringify([reading]) })
      return { status: answer.status, body: (await answer.json()) as Record<string, unknown> }
    }
    const first = await sent(moist(1, 90, 'chamber'))
    expect([first.status, faultsOf(first)[0]!.path]).toEqual([400, '[0].rhPct'])
    const second = await sent(air(1, 24, 'humidity'))
    again.hangUp()
    expect([second.status, faultsOf(second)[0]!.path]).toEqual([400, '[0].tempC'])
    expect(faultsOf(second)[0]!.message).toContain('are relative humidity; allowed: rhPct')
  })

  it('of another figure at the same instant is refused, with the one that is there', async () => {
    await post([moist(0, 90)])
    const clash = await post([moist(0, 91)])
    expect(faultsOf(clash)[0]).toMatchObject({
      path: '[0].rhPct',
      message: expect.stringContaining('has 90 % at that instant already') as string,
    })
  })
})

describe('a feed with humidity that is closed', () => {
  const rows = Array.from({ length: 30 }, (_, m) => [air(m, 24 + m / 10), moist(m, 90 + m / 2)]).flat()
  const filesOf = async () => {
    const record = (await house.ledger.batch('B-1'))!
    return Promise.all(
      record.curves.map(async (c) => ({
        channels: c.channels,
        text: new TextDecoder().decode(await house.ledger.getFile(c.file)),
      })),
    )
  }

  it('is one file where the instants are shared, each column in its unit, and reads back with nobody’s help', async () => {
    await post(rows)
    const closed = await close({ channels: both })
    expect(closed.status, JSON.stringify(closed.body)).toBe(201)
    const [file, ...more] = await filesOf()
    expect(more).toEqual([])
    expect(file!.text.split('\n').slice(0, 3)).toEqual([
      'Time;chamber;humidity',
      ';°C;%RH',
      '2026-11-21T05:31:00Z;24;90',
    ])
    expect(file!.channels).toEqual([
      { column: 'chamber', role: 'house' },
      { column: 'humidity', role: 'humidity' },
    ])
    const read = readLog(file!.text)
    expect(read.questions).toEqual([])
    expect(read.channels.map((c) => c.name)).toEqual(['chamber'])
    expect(read.humidity[0]!.series.map((p) => p.rhPct)).toEqual(
      // What stands over saturation counts as saturated.
      Array.from({ length: 30 }, (_, m) => Math.min(100, 90 + m / 2)),
    )
    expect(file!.text).toContain(';104.5\n')
  })

  it('is a file for each where the instants differ, so that neither leaves holes in the other', async () => {
    await post(rows.filter((r) => 'tempC' in r))
    await post(Array.from({ length: 20 }, (_, m) => moist(m + 0.5, 91)))
    expect((await close({ channels: both })).status).toBe(201)
    expect((await filesOf()).map((f) => f.channels)).toEqual([
      [{ column: 'chamber', role: 'house' }],
      [{ column: 'humidity', role: 'humidity' }],
    ])
  })

  it('may hold humidity only: the record of a chamber whose temperature lies in a file', async () => {
    await post([moist(0, 90), moist(1, 91)])
    expect(faultsOf(await close({ channels: [{ channel: 'humidity', role: 'ignore' }] }))[0]!.message).toContain(
      'names no humidity',
    )
    expect((await close({ channels: [{ channel: 'humidity', role: 'humidity' }] })).status).toBe(201)
  })

  it('takes a role for what its channel reads, and no other; what is refused stays open', async () => {
    await post(rows)
    const wrong = await close({
      channels: [
        { channel: 'chamber', role: 'humidity' },
        { channel: 'humidity', role: 'house' },
      ],
    })
    expect(wrong.status).toBe(400)
    expect(faultsOf(wrong).slice(0, 2)).toEqual([
      {
        path: 'channels[0].role',
        message:
          'is humidity, but the readings of chamber are temperatures; allowed: core, house, surface, wet-bulb, ignore',
      },
      {
        path: 'channels[1].role',
        message: 'is house, but the readings of humidity are relative humidity; allowed: humidity, ignore',
      },
    ])
    expect(await house.ledger.batch('B-1')).toMatchObject({ curves: [] })
    const noHouse = await close({ channels: [both[1]] })
    expect(faultsOf(noHouse)[0]!.message).toContain('names no house')
    const asCook = await close({ purpose: 'cook', channels: both })
    expect(faultsOf(asCook)[0]!.message).toContain('names no core')
    expect((await feed())['count']).toBe(60)
  })

  it('says that one reading is no log yet, rather than that it does not read back', async () => {
    await post([...rows.filter((r) => 'tempC' in r), moist(3.5, 91)])
    const early = await close({ channels: both })
    expect(faultsOf(early)[0]).toEqual({
      path: 'channels[1].role',
      message:
        'is humidity, but humidity has 1 reading, and a log begins with 2; allowed: another reading first, or ignore',
    })
    expect((await close({ channels: [both[0], { channel: 'humidity', role: 'ignore' }] })).status).toBe(201)
    const [kept] = readdirSync(join(house.folder, 'feed', 'closed'))
    expect(readFileSync(join(house.folder, 'feed', 'closed', kept!), 'utf8')).toContain('"humidity",91,"%"')
  })

  it('sent again under its key answers with what was recorded', async () => {
    await post(rows)
    const first = await close({ channels: both, key: 'k-1' })
    const again = await close({ channels: both, key: 'k-1' })
    expect([first.status, again.status]).toEqual([201, 200])
    expect(again.body).toEqual(first.body)
  })

  it('beside a cook keeps the humidity of its house', async () => {
    await post(Array.from({ length: 10 }, (_, m) => [air(m, 60, 'core'), moist(m, 40, 'house humidity')]).flat())
    const closed = await close({
      purpose: 'cook-and-chill',
      channels: [
        { channel: 'core', role: 'core' },
        { channel: 'house humidity', role: 'humidity' },
      ],
    })
    expect(closed.status, JSON.stringify(closed.body)).toBe(201)
    expect((await house.ask('GET', '/api/batches/B-1')).status).toBe(200)
  })
})
