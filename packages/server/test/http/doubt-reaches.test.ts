import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { openHouse, type House } from '../support.ts'

const by = 'tom'
const day = (n: number): string => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10)
const inDoubt = async (house: House): Promise<string[]> =>
  ((await house.ask('GET', '/api/today')).body['batchesInDoubt'] as { batch: string }[]).map((b) => b.batch)
const send = async (house: House, draft: Draft): Promise<number> => {
  const { status, body } = await house.ask('POST', '/api/entries', draft)
  expect(status, JSON.stringify(body)).toBe(201)
  return status
}

let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date() })
  await fillWithDemo(house.ledger)
}, 60_000)
afterAll(() => house.close())

describe('a batch that is found wrong', () => {
  it('takes with it the batch its rework went into', async () => {
    await send(house, {
      kind: 'lot.rework',
      by,
      body: { lot: 'RW-STICK', batch: 'STICK-0109', material: 'pork-shoulder-trim', kg: 1, on: day(-2), note: 'ends' },
    })
    const lines = [
      { line: 'meat', material: 'pork-shoulder-trim', lot: 'SH-1021', targetKg: 9 },
      { line: 'rework', material: 'pork-shoulder-trim', lot: 'RW-STICK', targetKg: 1 },
    ]
    await send(house, {
      kind: 'batch.plan',
      by,
      body: {
        batch: 'LINK-RW',
        recipe: 'lane-link',
        version: 1,
        on: day(-1),
        meatKg: 10,
        jurisdictions: ['US'],
        lines,
      },
    })
    for (const { line, lot, targetKg } of lines)
      await send(house, {
        kind: 'batch.weigh',
        by,
        body: { batch: 'LINK-RW', line, lot, kg: targetKg, instrument: 'SC-FLOOR' },
      })
    const reads = async () => (await house.ask('GET', '/api/batches/LINK-RW')).body as { findings: unknown[] }
    await inDoubt(house)
    const before = JSON.stringify((await reads()).findings)
    const stick = (await house.ask('GET', '/api/batches/STICK-0109')).body as {
      weighings: { seq: number; line: string }[]
    }
    const beef = stick.weighings.find((w) => w.line === 'beef')!
    await send(house, {
      kind: 'batch.weigh',
      by,
      corrects: beef.seq,
      why: 'mustard was in the tub',
      body: { batch: 'STICK-0109', line: 'beef', lot: 'MU-03', kg: 0.4, instrument: 'SC-BENCH' },
    })
    // What Today holds against the batch is made anew, and is what its own page says.
    const own = ((await house.ask('GET', '/api/batches/LINK-RW')).body as { doubt?: string[] }).doubt
    const today = (
      (await house.ask('GET', '/api/today')).body['batchesInDoubt'] as { batch: string; because: string[] }[]
    ).find((b) => b.batch === 'LINK-RW')
    expect(JSON.stringify((await reads()).findings)).not.toBe(before)
    expect(own?.join(' ')).toMatch(/mustard/)
    expect(today?.because).toEqual(own)
  })

  it('is listed long after it was made where it dries', async () => {
    const slow = (await house.ledger.batch('SLOW-1021'))!
    const [first] = slow.lines
    expect(slow.on < day(-25)).toBe(true)
    await send(house, {
      kind: 'batch.plan',
      by,
      body: {
        batch: 'SLOW-OLD',
        recipe: 'slow-60',
        version: 1,
        on: day(-64),
        meatKg: 1,
        jurisdictions: ['US'],
        lines: [{ line: 'lean', material: first!.material, lot: 'LN-0907', targetKg: 1 }],
      },
    })
    await send(house, {
      kind: 'batch.weigh',
      by,
      body: { batch: 'SLOW-OLD', line: 'lean', lot: 'LN-0907', kg: 1, instrument: 'SC-FLOOR' },
    })
    const own = ((await house.ask('GET', '/api/batches/SLOW-OLD')).body as { doubt?: string[] }).doubt
    expect((await inDoubt(house)).includes('SLOW-OLD')).toBe(own !== undefined)
  })
})
