import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { openHouse, smallKitchen, type House } from './support.ts'

const by = 'ana'
const check = (on: string, reading: number): Draft => ({
  kind: 'instrument.check',
  by,
  body: { instrument: 'BENCH-30', method: 'test-load', reference: 1000, reading, unit: 'g', tolerance: 5, on },
})

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append([
    ...smallKitchen,
    check('2026-11-18', 1001),
    { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', kg: 20 } },
    check('2026-11-24', 1020),
    {
      kind: 'deviation.open',
      by,
      body: {
        deviation: 'D-1',
        on: '2026-11-24',
        about: [{ type: 'instrument', id: 'BENCH-30' }],
        what: 'scale 20 g off',
      },
    },
  ])
})
afterAll(() => house.close())

describe('records on paper', () => {
  it('of an instrument and of a deviation are printed on both sizes', async () => {
    for (const path of ['/paper/instrument/BENCH-30.pdf', '/paper/instrument/SPICE-3.pdf', '/paper/deviation/D-1.pdf'])
      for (const size of ['A4', 'Letter']) {
        const response = await house.app.request(`${path}?size=${size}`)
        expect([response.status, response.headers.get('content-type')], path).toEqual([200, 'application/pdf'])
        expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(8_000)
      }
  })

  it('of what is not there are 404', async () => {
    for (const path of ['/paper/instrument/NONE.pdf', '/paper/deviation/NONE.pdf', '/paper/instrument/x'])
      expect((await house.app.request(path)).status, path).toBe(404)
  })
})
