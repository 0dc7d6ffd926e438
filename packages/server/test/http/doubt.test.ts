import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { openHouse, type House } from '../support.ts'

let house: House
const by = 'nell'
const today = new Date().toISOString().slice(0, 10)
type Weighed = { seq: number; line: string; kg: number; lot?: string; instrument?: string }
type InDoubt = { batch: string; verdict: string; because: string[] }
const inDoubt = async () => (await house.ask('GET', '/api/today')).body['batchesInDoubt'] as InDoubt[]
const ship = (note?: string) =>
  house.ask('POST', '/api/entries', {
    kind: 'pack.ship',
    by,
    body: { pack: 'P-T', to: 'Mill Inn', count: 1, on: today, ...(note ? { note } : {}) },
  })

beforeAll(async () => {
  house = await openHouse({ now: () => new Date() })
  await fillWithDemo(house.ledger)
  const packed = await house.ask('POST', '/api/entries', {
    kind: 'batch.pack',
    by,
    body: { batch: 'RING-0117', pack: 'P-T', count: 10, totalKg: 1, on: today },
  })
  expect(packed.status, JSON.stringify(packed.body)).toBe(201)
}, 60_000)
afterAll(() => house.close())

describe('a batch that is out, and is found wrong afterwards', () => {
  it('stands in no doubt while it passes as it was signed, and its packs go out', async () => {
    const { body } = await house.ask('GET', '/api/batches/RING-0117')
    expect([body['verdict'], body['signedStillHolds'], body['doubt']]).toEqual(['pass', true, undefined])
    expect((await inDoubt()).map((d) => d.batch)).not.toContain('RING-0117')
    expect((await ship()).status).toBe(201)
  })

  it('is shown first of all when a corrected weight makes it fail, with what is wrong', async () => {
    const before = await house.ask('GET', '/api/batches/RING-0117')
    const { seq, line, kg, lot, instrument } = (before.body['weighings'] as Weighed[]).find(
      (w) => w.kg < 0.2 && w.kg > 0.04,
    )!
    const cure = {
      batch: 'RING-0117',
      line,
      kg: kg * 3,
      ...(lot ? { lot } : {}),
      ...(instrument ? { instrument } : {}),
    }
    const corrected = await house.ask('POST', '/api/entries', {
      kind: 'batch.weigh',
      by,
      corrects: seq,
      why: 'the slip says another weight',
      body: { ...cure, note: 'from the slip' },
    } satisfies Draft)
    expect(corrected.status, JSON.stringify(corrected.body)).toBe(201)
    const { body } = await house.ask('GET', '/api/batches/RING-0117')
    expect([body['verdict'], body['signedStillHolds']]).toEqual(['fail', false])
    expect((body['doubt'] as string[]).join(' ')).toMatch(/nitrite.*fails/i)
    const today = (await inDoubt()).find((d) => d.batch === 'RING-0117')
    expect(today).toMatchObject({ batch: 'RING-0117', verdict: 'fail', because: body['doubt'] })
    const { batches } = (await house.ask('GET', '/api/batches')).body as {
      batches: { batch: string; inDoubt?: true }[]
    }
    expect(batches.filter((b) => b.inDoubt).map((b) => b.batch)).toEqual(['RING-0117'])
  })

  it('goes out no more without a note that says why', async () => {
    const refused = await ship()
    expect(refused.status).toBe(409)
    expect((refused.body['findings'] as { verdict: string }[]).some((f) => f.verdict === 'fail')).toBe(true)
    expect(JSON.stringify(refused.body['faults'])).toMatch(/body\.pack.*note that says why/)
    expect((await ship('back to the maker, to be destroyed')).status).toBe(201)
  })

  it('stands in no doubt again once its facts are right again', async () => {
    const wrong = (
      (await house.ask('GET', '/api/batches/RING-0117')).body['weighings'] as (Weighed & { note?: string })[]
    ).find((w) => w.note === 'from the slip')!
    const { seq, line, kg, lot, instrument } = wrong
    const right = {
      batch: 'RING-0117',
      line,
      kg: kg / 3,
      ...(lot ? { lot } : {}),
      ...(instrument ? { instrument } : {}),
    }
    await house.ask('POST', '/api/entries', { kind: 'batch.weigh', by, corrects: seq, why: 'misread', body: right })
    const { body } = await house.ask('GET', '/api/batches/RING-0117')
    expect(body['verdict']).toBe('pass')
    // The entry is another than the one signed: a person looks at it again.
    expect(body['signedStillHolds']).toBe(false)
    expect(body['doubt']).toEqual([expect.stringMatching(/changed since/)])
    const again = await house.ask('POST', '/api/batches/RING-0117/decide', {
      decision: 'release',
      reasons: ['looked at again'],
      by,
    })
    expect(again.status, JSON.stringify(again.body)).toBe(201)
    expect(await inDoubt()).toEqual([])
    expect((await ship()).status).toBe(201)
  })
})
