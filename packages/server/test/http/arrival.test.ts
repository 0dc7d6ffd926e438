import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
  await house.ledger.append([
    {
      kind: 'kitchen.set',
      by: 'ana',
      body: {
        name: 'Brook kitchen (invented)',
        jurisdictions: ['EU'],
        units: 'metric',
        ownLimits: { arrivalMaxC: 4, reworkMaxPct: 10 },
      },
    },
    {
      kind: 'instrument.add',
      by: 'ana',
      body: { instrument: 'TH-1', type: 'thermometer', name: 'probe', toleranceC: 0.5, checkEveryDays: 30 },
    },
    {
      kind: 'instrument.check',
      by: 'ana',
      body: {
        instrument: 'TH-1',
        method: 'ice-point',
        reference: 0,
        reading: 0.1,
        unit: '°C',
        tolerance: 0.5,
        on: '2026-11-20',
      },
    },
  ])
})
afterAll(() => house.close())

const ask = async (query: string) => {
  const { status, body } = await house.ask('GET', `/api/arrival?${query}`)
  return { status, findings: (body['findings'] ?? []) as { rule: string; verdict: string }[], body }
}

describe('arrival over HTTP', () => {
  it('judges by the places of the kitchen, its own limit, and the thermometer as it stood on the day', async () => {
    const said = async (query: string) => (await ask(query)).findings.map((f) => `${f.rule} ${f.verdict}`)
    expect(await said('material=pork-shoulder-trim&on=2026-11-25&arrivalC=5&instrument=TH-1')).toEqual([
      'receive.eu.red pass',
      'receive.own fail',
    ])
    // A day after its next check was due.
    expect(await said('material=pork-shoulder-trim&on=2027-01-15&arrivalC=3&instrument=TH-1')).toEqual([
      'receive.eu.red cannot-tell',
      'receive.own cannot-tell',
    ])
    expect(await said('material=salt&on=2026-11-25')).toEqual([])
  })

  it.each([
    'material=pork-liver',
    'on=2026-11-25',
    'material=x&on=tomorrow',
    'material=x&on=2026-11-25&arrivalC=1e9',
    'material=x&on=2026-11-25&more=1',
  ])('refuses %s, naming what is allowed', async (query) => {
    const { status, body } = await ask(query)
    expect(status).toBe(400)
    expect((body['faults'] as unknown[]).length).toBeGreaterThan(0)
  })
})

describe('rework in a batch, against the limit of the kitchen', () => {
  it('is a finding of the batch: advice, by what was weighed', async () => {
    const by = 'ana'
    const recorded = await house.ask('POST', '/api/entries', [
      { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', lot: 'PS-1', kg: 15 } },
      {
        kind: 'lot.rework',
        by,
        body: { lot: 'RW-1', batch: 'B-1', material: 'pork-shoulder-trim', kg: 5, on: '2026-11-21', allergens: [] },
      },
      { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', lot: 'RW-1', kg: 5 } },
    ])
    expect(recorded.status, JSON.stringify(recorded.body)).toBe(201)
    const { findings } = (await house.ask('GET', '/api/batches/B-1')).body as { findings: { rule: string }[] }
    expect(findings.find((f) => f.rule === 'rework.own-share')).toMatchObject({
      verdict: 'fail',
      weight: 'advice',
      limit: 10,
      because: expect.stringContaining('RW-1') as string,
    })
  })
})
