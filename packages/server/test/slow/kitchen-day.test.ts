import type { Draft } from '@forcemeat/ledger'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const check = (on: string): Draft[] =>
  [4.01, 7].map((reference) => ({
    kind: 'instrument.check',
    by,
    body: { instrument: 'PH', method: 'buffer', reference, reading: reference, unit: 'pH', tolerance: 0.02, on },
  }))

describe('the day of a check and of a reading is the day at the kitchen', () => {
  let house: House
  beforeEach(async () => {
    house = await openHouse()
  })
  afterEach(() => house.close())

  async function read(timeZone: string, day: string): Promise<(boolean | undefined)[]> {
    await house.ledger.append([
      { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
      {
        kind: 'kitchen.set',
        by,
        body: { name: 'Brackwater', jurisdictions: ['AU-NZ'], units: 'metric', demo: true, timeZone },
      },
      { kind: 'instrument.add', by, body: { instrument: 'PH', type: 'ph-meter', name: 'pH meter', checkEveryDays: 1 } },
      ...check(day),
      {
        kind: 'recipe.save',
        by,
        body: {
          recipe: 'stick',
          version: 1,
          body: {
            name: 'Slow stick',
            kind: 'fermented',
            smoked: false,
            readyToEat: true,
            meat: [{ material: 'beef-chuck', pct: 100 }],
            additions: [],
            ferment: { targetPh: 5.2 },
          },
        },
      },
      {
        kind: 'batch.plan',
        by,
        body: {
          batch: 'B1',
          recipe: 'stick',
          version: 1,
          on: '2026-03-03',
          meatKg: 20,
          jurisdictions: ['AU-NZ'],
          lines: [{ line: '1', material: 'beef-chuck', targetKg: 20 }],
        },
      },
      {
        kind: 'batch.measure',
        by,
        body: { batch: 'B1', step: 'ferment', what: 'ph', value: 5.1, taken: '2026-03-04T20:00:00Z', instrument: 'PH' },
      },
    ] as Draft[])
    const record = (await house.ledger.batch('B1'))!
    const { body } = await house.ask('GET', '/api/batches/B1/ferment')
    return [
      (await judged(house.ledger, record)).ferment?.ph[0]?.counts,
      (body['readings'] as { calibrated: boolean }[])[0]?.calibrated,
    ]
  }

  it('09:00 on the 5th in Auckland counts by the check of the 5th', async () => {
    expect(await read('Pacific/Auckland', '2026-03-05')).toEqual([true, true])
  })
  it('and not by the check of the 4th', async () => {
    expect(await read('Pacific/Auckland', '2026-03-04')).toEqual([false, false])
  })
  it('in UTC it is the evening of the 4th', async () => {
    expect(await read('UTC', '2026-03-04')).toEqual([true, true])
  })
  it('a zone no clock knows is refused by name', async () => {
    await expect(read('Mars/Base', '2026-03-04')).rejects.toThrow(/timeZone.*Mars\/Base.*Europe\/London/)
  })
})
