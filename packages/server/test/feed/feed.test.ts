import { appendFileSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { readLog } from '@forcemeat/craft/log/read'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createApp } from '../../src/index.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const start = Date.UTC(2026, 10, 21, 6, 0)
let house: House
let clock = start
const now = () => new Date(clock)
const by = 'ana'

beforeEach(async () => {
  clock = start
  house = await openHouse({ now })
  await house.ledger.append([
    ...smallKitchen,
    {
      kind: 'instrument.add',
      by,
      body: { instrument: 'PROBE-1', type: 'thermometer', name: 'Core probe', toleranceC: 0.5, checkEveryDays: 30 },
    },
  ])
})
afterEach(() => house.close())

const post = (readings: unknown, batch = 'B-1') => house.ask('POST', `/api/feed/${batch}/readings`, readings)
const faultsOf = (answer: { body: Record<string, unknown> }) =>
  answer.body['faults'] as { path: string; message: string }[]
const core = (minute: number, tempC: number) => ({ minute, channel: 'core', tempC })

/** A cook and chill, a reading a minute of core and house, figures as a converter from °F sends them. */
const whole = Array.from({ length: 400 }, (_, m) => [
  { minute: m, channel: 'core', tempC: m < 200 ? 8 + m * 0.3111 : 70.2 - (m - 200) * 0.33 },
  { minute: m, channel: 'house', tempC: m < 200 ? 78.125 : 1.5 },
]).flat()

describe('readings of a batch that cooks', () => {
  it('are kept as sent and read again, in parts too', async () => {
    expect((await house.ask('GET', '/api/feed/B-1')).body).toEqual({
      batch: 'B-1',
      open: false,
      channels: [],
      count: 0,
      readings: [],
    })
    const made = await post([core(0, 8.2), core(1, 8.4), { minute: 1, channel: 'house', tempC: 55 }])
    expect(made.status).toBe(201)
    expect(made.body).toMatchObject({ added: 3, count: 3 })
    const { body } = await house.ask('GET', '/api/feed/B-1')
    expect(body['readings']).toEqual([core(0, 8.2), core(1, 8.4), { minute: 1, channel: 'house', tempC: 55 }])
    expect((await house.ask('GET', '/api/feed/B-1?after=2')).body['readings']).toEqual([
      { minute: 1, channel: 'house', tempC: 55 },
    ])
    expect((await house.ask('GET', '/api/feed')).body['feeds']).toMatchObject([{ batch: 'B-1', count: 3 }])
  })

  it('stand on one clock whether sent with minutes or with instants', async () => {
    clock = start + 10 * 60_000
    await post([{ at: '2026-11-21T06:04:00Z', channel: 'core', tempC: 9 }])
    await post([core(2.5, 10)])
    const { body } = await house.ask('GET', '/api/feed/B-1')
    expect(body['origin']).toBe('2026-11-21T06:04:00.000Z')
    expect(body['readings']).toEqual([core(0, 9), core(2.5, 10)])
  })

  it('sent again are kept once; another figure for the same instant is refused', async () => {
    await post([core(0, 8), core(1, 9)])
    expect((await post([core(1, 9), core(2, 10)])).body).toMatchObject({ added: 1, count: 3 })
    const clash = await post([core(2, 11)])
    expect(clash.status).toBe(400)
    expect(faultsOf(clash)[0]!.path).toBe('[0].tempC')
    expect(faultsOf(clash)[0]!.message).toContain('has 10 °C at that instant already')
  })

  it('survive a restart, and a line that a power cut left half written', async () => {
    await post([core(0, 8), core(1, 9)])
    const file = join(house.folder, 'feed', 'B-1.jsonl')
    appendFileSync(file, '[[120000,"core",10.')
    const again = createApp({ ledger: house.ledger, log: () => undefined, now })
    const read = async () => (await (await again.request('/api/feed/B-1')).json()) as { readings: unknown[] }
    expect((await read()).readings).toEqual([core(0, 8), core(1, 9)])
    await again.request('/api/feed/B-1/readings', { method: 'POST', body: JSON.stringify([core(2, 10.5)]) })
    const third = createApp({ ledger: house.ledger, log: () => undefined, now })
    expect(((await (await third.request('/api/feed/B-1')).json()) as { readings: unknown[] }).readings).toEqual([
      core(0, 8),
      core(1, 9),
      core(2, 10.5),
    ])
    again.hangUp()
    third.hangUp()
  })

  it('sent by many at once are all kept', async () => {
    const posts = Array.from({ length: 40 }, (_, m) => post([core(m, m)]))
    for (const p of await Promise.all(posts)) expect(p.status).toBe(201)
    expect((await house.ask('GET', '/api/feed/B-1')).body['count']).toBe(40)
  })

  it('are told of on the live line', async () => {
    const answer = await house.app.request('/api/live')
    const reader = answer.body!.getReader()
    const decoder = new TextDecoder()
    let heard = decoder.decode((await reader.read()).value)
    await post([core(0, 8)])
    while (!heard.includes('event: feed')) heard += decoder.decode((await reader.read()).value)
    expect(heard).toContain('"batch":"B-1"')
    await reader.cancel()
  })
})

describe('what a feed refuses', () => {
  it.each([
    ['an empty list', [], '(input)', '1 to 5000'],
    ['no list', { minute: 0, channel: 'core', tempC: 8 }, '(input)', 'allowed: a list'],
    ['a reading without a time', [{ channel: 'core', tempC: 8 }], '[0].minute', 'allowed: one of minute'],
    [
      'two times',
      [{ minute: 0, at: '2026-11-21T06:00:00Z', channel: 'core', tempC: 8 }],
      '[0].minute',
      'allowed: one of minute',
    ],
    ['a figure no probe gives', [core(0, 850)], '[0].tempC', 'at most 400'],
    ['a text for a figure', [{ minute: 0, channel: 'core', tempC: '8' }], '[0].tempC', 'is the text "8"'],
    ['a field it does not know', [{ ...core(0, 8), tempF: 46 }], '[0].tempF', 'allowed'],
    [
      'a channel with a delimiter in it',
      [{ minute: 0, channel: 'core;1', tempC: 8 }],
      '[0].channel',
      'allowed: letters',
    ],
    [
      'a channel a reader of logs takes for a humidity',
      [{ minute: 0, channel: 'humidity', tempC: 8 }],
      '[0].channel',
      'allowed: another name',
    ],
    [
      'an instant to come',
      [{ at: '2026-11-21T07:00:00Z', channel: 'core', tempC: 8 }],
      '[0].at',
      'ahead of this machine',
    ],
    ['a time that is none', [{ at: '06:00', channel: 'core', tempC: 8 }], '[0].at', 'allowed: an instant'],
  ])('%s, and names it', async (_what, readings, path, words) => {
    const answer = await post(readings)
    expect(answer.status).toBe(400)
    expect(faultsOf(answer)[0]!.path).toBe(path)
    expect(faultsOf(answer)[0]!.message).toContain(words)
    expect((await house.ask('GET', '/api/feed/B-1')).body['open']).toBe(false)
  })

  it('a batch that is not there, and a path for a name', async () => {
    expect((await post([core(0, 8)], 'NO-1')).status).toBe(404)
    expect((await post([core(0, 8)], '..%2F..%2Fx')).status).toBe(404)
    expect(readdirSync(house.folder).filter((f) => f === 'feed')).toEqual([])
  })

  it('an instant before its minute 0', async () => {
    await post([{ at: '2026-11-21T06:00:00Z', channel: 'core', tempC: 8 }])
    const answer = await post([{ at: '2026-11-21T05:59:00Z', channel: 'core', tempC: 7 }])
    expect(faultsOf(answer)[0]!.message).toContain('before the feed')
  })

  it('more than a megabyte, more than 5000 readings at once, more than 16 channels', async () => {
    expect((await post(JSON.stringify([core(0, 8)]) + ' '.repeat(1_100_000))).status).toBe(413)
    expect((await post(Array.from({ length: 5001 }, (_, m) => core(m, 8)))).status).toBe(400)
    const many = await post(Array.from({ length: 17 }, (_, i) => ({ minute: 0, channel: `core ${i}`, tempC: 8 })))
    expect(faultsOf(many)[0]!.message).toContain('16 channels')
  })
})

describe('a feed that is closed', () => {
  const closing = {
    by,
    purpose: 'cook-and-chill',
    channels: [
      { channel: 'core', role: 'core', instrument: 'PROBE-1' },
      { channel: 'house', role: 'house' },
    ],
  }

  it('becomes a logger file that reads back as it was sent, and a curve of the batch', async () => {
    await post(whole)
    const closed = await house.ask('POST', '/api/feed/B-1/close', closing)
    expect(closed.status, JSON.stringify(closed.body)).toBe(201)
    const record = (await house.ledger.batch('B-1'))!
    expect(record.curves).toHaveLength(1)
    const { file, channels } = record.curves[0]!
    expect(channels).toEqual([
      { column: 'core', role: 'core', instrument: 'PROBE-1' },
      { column: 'house', role: 'house' },
    ])
    const read = readLog((await house.ledger.getFile(file))!)
    expect(read.questions).toEqual([])
    expect(read.firstStamp).toBe((start - 399 * 60_000) / 1000)
    for (const name of ['core', 'house']) {
      const series = read.channels.find((c) => c.name === name)!.series
      const sent = whole.filter((r) => r.channel === name)
      expect(series.map((p) => p.minute)).toEqual(sent.map((r) => r.minute))
      expect(series.map((p) => p.tempC)).toEqual(sent.map((r) => Number(r.tempC.toFixed(4))))
    }
    const { body } = await house.ask('GET', '/api/batches/B-1')
    expect((body['findings'] as { rule: string }[]).map((f) => f.rule)).toContain('us.fsis.stabilization')
    expect((await house.ask('GET', '/api/feed/B-1')).body['open']).toBe(false)
  })

  it('keeps its readings beside the record and lets another be opened', async () => {
    await post([core(0, 8), core(1, 9), core(2, 10)])
    await house.ask('POST', '/api/feed/B-1/close', { ...closing, channels: [{ channel: 'core', role: 'core' }] })
    const [kept] = readdirSync(join(house.folder, 'feed', 'closed'))
    expect(readFileSync(join(house.folder, 'feed', 'closed', kept!), 'utf8')).toContain('[60000,"core",9]')
    expect((await post([core(0, 60)])).body).toMatchObject({ added: 1, count: 1 })
  })

  it('gives probes read at other instants files of their own, so that none leaves holes in another', async () => {
    await post([0, 5, 10, 15].map((m) => core(m, 8 + m)))
    await post(Array.from({ length: 90 }, (_, i) => ({ minute: i / 6, channel: 'house', tempC: 60 })))
    await house.ask('POST', '/api/feed/B-1/close', closing)
    const record = (await house.ledger.batch('B-1'))!
    expect(record.curves.map((c) => c.channels.map((ch) => ch.column))).toEqual([['core'], ['house']])
  })

  it('needs a core, a channel it holds, a person of the kitchen and something to close; readings stay when it is refused', async () => {
    expect((await house.ask('POST', '/api/feed/B-1/close', closing)).status).toBe(404)
    await post([core(0, 8), core(1, 9), core(2, 10)])
    const noCore = await house.ask('POST', '/api/feed/B-1/close', {
      ...closing,
      channels: [{ channel: 'core', role: 'house' }],
    })
    expect(faultsOf(noCore).at(-1)!.message).toContain('names no core')
    const unknown = await house.ask('POST', '/api/feed/B-1/close', closing)
    expect(faultsOf(unknown)[0]!.path).toBe('channels[1].channel')
    const nobody = await house.ask('POST', '/api/feed/B-1/close', {
      ...closing,
      by: 'eve',
      channels: [{ channel: 'core', role: 'core' }],
    })
    expect(nobody.status).toBe(400)
    expect((await house.ask('GET', '/api/feed/B-1')).body['count']).toBe(3)
  })

  describe('sent again under its key after a lost answer', () => {
    const once = { ...closing, key: 'close-1', note: 'from the bench' }
    const close = (body: object = once) => house.ask('POST', '/api/feed/B-1/close', body)
    const counted = async () => (await house.ledger.head()).entries

    it('comes back with 200 and what was recorded, every file of it, and records nothing twice', async () => {
      await post([0, 5, 10, 15].map((m) => core(m, 8 + m)))
      await post(Array.from({ length: 90 }, (_, i) => ({ minute: i / 6, channel: 'house', tempC: 60 })))
      const first = await close()
      expect([first.status, (first.body['files'] as unknown[]).length]).toEqual([201, 2])
      const before = await counted()
      const again = await close()
      expect(again.status, JSON.stringify(again.body)).toBe(200)
      expect(again.body).toEqual(first.body)
      expect(await counted()).toBe(before)
    })

    it('comes back after a restart, and leaves a feed alone that was opened since', async () => {
      await post(whole)
      const first = await close()
      await post([core(0, 60), core(1, 61), core(2, 62)])
      const restarted = createApp({ ledger: house.ledger, log: () => undefined, now })
      const answer = await restarted.request('/api/feed/B-1/close', { method: 'POST', body: JSON.stringify(once) })
      restarted.hangUp()
      expect([answer.status, await answer.json()]).toEqual([200, first.body])
      expect((await house.ask('GET', '/api/feed/B-1')).body).toMatchObject({ open: true, count: 3 })
    })

    it('comes back where the machine went down between the record and the putting away of the feed', async () => {
      await post(whole)
      const file = join(house.folder, 'feed', 'B-1.jsonl')
      const kept = readFileSync(file)
      const first = await close()
      // As the crash leaves it: in the record, and the feed still open.
      for (const name of readdirSync(join(house.folder, 'feed', 'closed')))
        rmSync(join(house.folder, 'feed', 'closed', name))
      writeFileSync(file, kept)
      const before = await counted()
      const restarted = createApp({ ledger: house.ledger, log: () => undefined, now })
      const answer = await restarted.request('/api/feed/B-1/close', { method: 'POST', body: JSON.stringify(once) })
      expect([answer.status, await answer.json()]).toEqual([200, first.body])
      expect(await counted()).toBe(before)
      expect(await (await restarted.request('/api/feed/B-1')).json()).toMatchObject({ open: false })
      restarted.hangUp()
    })

    it('is recorded once where it is sent many times at once', async () => {
      await post(whole)
      const before = await counted()
      const answers = await Promise.all(Array.from({ length: 6 }, () => close()))
      expect(answers.map((a) => a.status).toSorted((a, b) => a - b)).toEqual([200, 200, 200, 200, 200, 201])
      for (const { body } of answers) expect(body).toEqual(answers[0]!.body)
      expect(await counted()).toBe(before + 1)
    })

    it('is refused where only some of its files are named', async () => {
      await post([0, 5, 10, 15].map((m) => core(m, 8 + m)))
      await post(Array.from({ length: 90 }, (_, i) => ({ minute: i / 6, channel: 'house', tempC: 60 })))
      await close()
      expect((await close({ ...once, channels: [closing.channels[0]] })).status).toBe(400)
    })

    it('is refused where the key closed it as something else, and 404 under another key or none', async () => {
      await post(whole)
      await close()
      const before = await counted()
      for (const other of [
        { purpose: 'cook' },
        { note: 'another' },
        { channels: [{ channel: 'core', role: 'core', instrument: 'PROBE-1' }] },
      ]) {
        const answer = await close({ ...once, ...other })
        expect(answer.status, JSON.stringify(other)).toBe(400)
        expect(faultsOf(answer)[0]).toMatchObject({ path: 'key', message: expect.stringContaining('other') as string })
      }
      expect((await close({ ...once, key: 'close-2' })).status).toBe(404)
      expect((await close(closing)).status).toBe(404)
      expect(await counted()).toBe(before)
    })
  })

  it('takes no reading for a batch that is released', async () => {
    await house.ledger.append([
      {
        kind: 'batch.decide',
        by,
        body: {
          batch: 'B-1',
          decision: 'release',
          reasons: ['test'],
          signed: 'a'.repeat(64),
          counts: { pass: 0, fail: 0, cannotTell: 0 },
        },
      },
    ])
    expect((await post([core(0, 8)])).status).toBe(409)
  })
})

describe('the cooks of a recipe laid over one another', () => {
  it('give each batch with a log its come-up, its way through the chill, its peak and its core', async () => {
    expect((await house.ask('GET', '/api/recipes/HUNTER/curves')).body).toEqual({ recipe: 'HUNTER', batches: [] })
    await post(whole)
    await house.ask('POST', '/api/feed/B-1/close', {
      by,
      purpose: 'cook-and-chill',
      channels: [{ channel: 'core', role: 'core' }],
    })
    const { body } = await house.ask('GET', '/api/recipes/HUNTER/curves')
    const [one] = body['batches'] as {
      batch: string
      comeUpMinutes: number
      chill: { shown: string; minutes: number }[]
      peakC: number
      core: [number, number][]
    }[]
    expect(one!.batch).toBe('B-1')
    // 10 to 54.4 °C at 0.3111 °C a minute up, by hand (54.4 − 10)/0.3111 = 142.9; the fall from 54.4 to 10 counts again.
    expect(one!.comeUpMinutes).toBeGreaterThan(142)
    // 54.4 to 26.7 °C at 0.33 °C a minute: 84.2 min.
    expect(one!.chill[0]!.minutes).toBeCloseTo(27.78 / 0.33, 0)
    expect(one!.peakC).toBeCloseTo(70.2, 1)
    expect(one!.core.length).toBeGreaterThan(50)
    expect((await house.ask('GET', '/api/recipes/NONE/curves')).status).toBe(404)
  })
})
