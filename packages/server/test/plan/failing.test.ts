import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Week } from '../../src/plan/week.ts'
import { weekSheet } from '../../src/paper/week.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
const scale = (instrument: string, g: number): Draft[] => [
  {
    kind: 'instrument.add',
    by,
    body: { instrument, type: 'scale', name: instrument, readabilityG: g, toleranceG: g, checkEveryDays: 30 },
  },
  {
    kind: 'instrument.check',
    by,
    body: { instrument, method: 'test-load', reference: 500, reading: 500, unit: 'g', tolerance: g, on: '2026-12-29' },
  },
]
const made = (batch: string, cureKg: number): Draft[] => {
  const lines = [
    { line: 'meat', material: 'pork-shoulder-trim', lot: 'PS-9', targetKg: 20, scale: 'BIG' },
    { line: 'salt', material: 'salt', targetKg: 0.36, scale: 'FINE' },
    { line: 'cure', material: 'curing-salt-6.25-nitrite', targetKg: 0.048, scale: 'FINE' },
  ]
  return [
    {
      kind: 'batch.plan',
      by,
      body: { batch, recipe: 'HUNTER', version: 1, on: '2026-12-30', meatKg: 20, jurisdictions: ['US'], lines },
    },
    ...lines.map((l): Draft => ({
      kind: 'batch.weigh',
      by,
      body: { batch, line: l.line, kg: l.line === 'cure' ? cureKg : l.targetKg, instrument: l.scale },
    })),
  ]
}

describe('a batch that fails a limit is no supply', () => {
  let house: House
  beforeAll(async () => {
    house = await openHouse({ now: () => new Date('2026-12-31T12:00:00Z') })
    await house.ledger.append([
      ...smallKitchen.filter((d) => d.kind !== 'batch.plan'),
      { kind: 'lot.receive', by, body: { lot: 'PS-9', material: 'pork-shoulder-trim', kg: 100, on: '2026-12-20' } },
      ...scale('BIG', 5),
      ...scale('FINE', 0.1),
      ...made('GOOD', 0.048),
      // 58 g of 6.25 % in 20 kg: 181 mg/kg of nitrite, over 156 (9 CFR 424.21(c)).
      ...made('OVER', 0.058),
      ...made('SOLD', 0.058),
      {
        kind: 'batch.decide',
        by,
        body: {
          batch: 'SOLD',
          decision: 'release',
          reasons: ['looked at'],
          signed: 'a'.repeat(64),
          counts: { pass: 1, fail: 0, cannotTell: 0 },
        },
      },
      {
        kind: 'batch.pack',
        by,
        body: { batch: 'SOLD', pack: 'P-1', count: 10, totalKg: 10, on: '2026-12-31', useBy: '2027-02-01' },
      },
      {
        kind: 'order.take',
        by,
        body: {
          order: 'O-1',
          customer: 'Corner shop',
          on: '2026-12-20',
          due: '2027-01-04',
          lines: [{ recipe: 'HUNTER', kg: 30 }],
        },
      },
    ])
  })
  afterAll(() => house.close())

  it('neither what is under way of it nor what is packed, and the plan and its sheet say which and why', async () => {
    const week = (await house.ask('GET', '/api/plan?days=7&buyFrom=2027-01-01')).body as unknown as Week
    const of = (batch: string) => week.underWay.find((b) => b.batch === batch)!
    expect(of('GOOD').finishedKg).toBeGreaterThan(17)
    expect(of('GOOD').fails).toBeUndefined()
    expect(of('OVER')).toMatchObject({ finishedKg: 0, fails: [expect.stringMatching(/nitrite/i)] })
    const [product] = week.products
    expect(product).toMatchObject({ recipe: 'HUNTER', stockKg: 0 })
    expect(product!.comingKg).toBeCloseTo(of('GOOD').finishedKg, 9)
    const note = week.notes.find((n) => n.startsWith('Fails a limit and not counted on'))!
    expect(note).toMatch(/OVER \(.*nitrite.*\)/i)
    expect(note).toMatch(/SOLD/)
    expect(note).not.toContain('GOOD')
    // What is missing has to be made.
    expect(week.plan!.batches.reduce((s, b) => s + b.finishedKg, 0)).toBeCloseTo(30 - of('GOOD').finishedKg, 3)
    const kitchen = (await house.ledger.kitchen())!
    const paper = JSON.stringify(
      weekSheet({
        week,
        kitchen,
        size: 'A4',
        head: { seq: 1, hash: 'a'.repeat(64), at: '2026-12-31T12:00:00Z' },
      } as never).content,
    )
    expect(paper).toContain('Fails a limit and not counted on')
    expect(paper).toContain('OVER')
  })
})
