import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loggerFile } from '../logger-file.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
const by = 'ana'
const check = (instrument: string, method: string, unit: string): Draft => ({
  kind: 'instrument.check',
  by,
  body: {
    instrument,
    method: method as 'ice-point',
    reference: unit === 'g' ? 500 : 0,
    reading: unit === 'g' ? 500 : 0,
    unit: unit as 'g',
    tolerance: 1,
    on: '2026-11-20',
  },
})

beforeAll(async () => {
  house = await openHouse()
  const made = await house.ask('POST', '/api/entries', [
    ...smallKitchen,
    {
      kind: 'instrument.add',
      by,
      body: { instrument: 'PROBE-1', type: 'thermometer', name: 'Core probe', toleranceC: 0.5, checkEveryDays: 30 },
    },
    check('BENCH-30', 'test-load', 'g'),
    check('SPICE-3', 'test-load', 'g'),
    check('PROBE-1', 'ice-point', '°C'),
  ])
  expect(made.status, JSON.stringify(made.body)).toBe(201)
})
afterAll(() => house.close())

describe('a batch over HTTP', () => {
  it('waits for its weighing, and cannot be released before', async () => {
    const { status, body } = await house.ask('GET', '/api/batches/B-1')
    expect(status).toBe(200)
    expect(body['verdict']).toBe('cannot-tell')
    expect(body['waitsFor']).toContain('weighing')
    const refused = await house.ask('POST', '/api/batches/B-1/decide', {
      decision: 'release',
      reasons: ['looks good'],
      by,
    })
    expect(refused.status).toBe(409)
    expect((refused.body['findings'] as unknown[]).length).toBeGreaterThan(0)
    expect(JSON.stringify(refused.body['faults'])).toContain('settle')
    expect((await house.ledger.batch('B-1'))!.decisions).toEqual([])
  })

  it('takes weights and a logger’s file, and draws the curve with its limits and chill stages', async () => {
    for (const [line, kg] of [
      ['meat', 20],
      ['salt', 0.36],
      ['cure', 0.048],
    ] as const)
      expect(
        (await house.ask('POST', '/api/entries', { kind: 'batch.weigh', by, body: { batch: 'B-1', line, kg } })).status,
      ).toBe(201)
    const text = loggerFile()
    const read = await house.ask('POST', '/api/curves/read', text)
    expect(read.status).toBe(200)
    expect(read.body['questions'], JSON.stringify(read.body).slice(0, 400)).toEqual([])
    const put = await house.ask('PUT', '/api/files', text)
    expect(put.status).toBe(201)
    const kept = await house.app.request(`/api/files/${String(put.body['sha256'])}`)
    expect(await kept.text()).toBe(text)
    expect(kept.headers.get('content-disposition')).toContain('attachment')
    const channels = [
      { column: 'Core 1 (°C)', role: 'core', instrument: 'PROBE-1' },
      { column: 'House (°C)', role: 'house' },
    ]
    const names = (read.body['channels'] as { column: string }[]).map((c) => c.column)
    channels.forEach((c, i) => (c.column = names[i]!))
    const recorded = await house.ask('POST', '/api/entries', {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'B-1',
        purpose: 'cook-and-chill',
        file: put.body['sha256'],
        fileName: 'house.csv',
        reading: {},
        channels,
      },
    })
    expect(recorded.status, JSON.stringify(recorded.body)).toBe(201)
    const { seq } = (recorded.body['entries'] as { seq: number }[])[0]!
    const view = await house.ask('GET', `/api/batches/B-1/curves/${seq}`)
    expect(view.status, JSON.stringify(view.body)).toBe(200)
    expect((view.body['limits'] as { label: string }[])[0]).toMatchObject({ label: 'core target', c: 71.1 })
    expect((view.body['windows'] as unknown[]).length).toBeGreaterThan(0)
    const log = (view.body['lethality'] as { values: number[] }).values
    expect(log.at(-1)).toBeGreaterThan(6.5)
    expect(log.every((v, i) => i === 0 || v >= log[i - 1]!)).toBe(true)
    expect((view.body['findings'] as unknown[]).length).toBeGreaterThan(0)
  })

  it('is held with reasons, signed over facts and findings as they stand, and says when they changed since', async () => {
    const held = await house.ask('POST', '/api/batches/B-1/decide', {
      decision: 'hold',
      reasons: ['a second person has not looked'],
      by,
    })
    expect(held.status, JSON.stringify(held.body)).toBe(201)
    const before = await house.ask('GET', '/api/batches/B-1')
    expect(before.body['signedStillHolds']).toBe(true)
    const cure = (before.body['weighings'] as { line: string; seq: number }[]).find((w) => w.line === 'cure')!
    const corrected = await house.ask('POST', '/api/entries', {
      kind: 'batch.weigh',
      by,
      corrects: cure.seq,
      why: 'misread the scale',
      body: { batch: 'B-1', line: 'cure', kg: 0.058, instrument: 'SPICE-3' },
    })
    expect(corrected.status, JSON.stringify(corrected.body)).toBe(201)
    expect((await house.ask('GET', '/api/batches/B-1')).body['signedStillHolds']).toBe(false)
  })

  it('is not decided by a raw entry, alone or hidden in a list', async () => {
    const draft = {
      kind: 'batch.decide',
      by,
      body: {
        batch: 'B-1',
        decision: 'release',
        reasons: ['x'],
        signed: '0'.repeat(64),
        counts: { pass: 1, fail: 0, cannotTell: 0 },
      },
    }
    for (const body of [draft, [draft], [smallKitchen[0], draft]]) {
      const refused = await house.ask('POST', '/api/entries', body)
      expect(refused.status).toBe(400)
      expect(JSON.stringify(refused.body)).toContain('/decide')
    }
  })

  it('fails with over-cure: the release is refused with the limit', async () => {
    const refused = await house.ask('POST', '/api/batches/B-1/decide', {
      decision: 'release',
      reasons: ['looks good'],
      by,
    })
    expect(refused.status).toBe(409)
    const stops = refused.body['findings'] as { verdict: string; title: string; measured?: number }[]
    const nitrite = stops.find((f) => f.verdict === 'fail' && /nitrite/i.test(f.title))
    expect(nitrite, JSON.stringify(stops.map((f) => f.title))).toBeDefined()
    expect(nitrite!.measured).toBeCloseTo(181.25, 1)
  })
})
