import { describe, expect, it } from 'vitest'
import { draft, open, ready } from './bench-of-one.ts'

describe('one batch from lot to shipment', () => {
  it('is recorded, read back, traced both ways and verified', async () => {
    const ledger = await open()
    await ledger.append(ready)
    await ledger.append([draft.check('2026-03-01', 1001)])
    await ledger.append([draft.plan(), draft.weigh(), draft.weigh('B-1', 'salt', 0.36)])
    expect((await ledger.batch('B-1'))!).toMatchObject({ state: 'made', waitsFor: ['release or hold', 'packing'] })
    await ledger.append([draft.decide(), draft.pack(), draft.ship()])

    const batch = (await ledger.batch('B-1'))!
    expect(batch).toMatchObject({ state: 'packed', decision: 'release', recipeName: 'Breakfast link', waitsFor: [] })
    expect(batch.instruments[0]).toMatchObject({
      instrument: 'S1',
      standing: 'in-date',
      nextDue: '2026-03-31',
      lastCheck: { error: 1 },
    })
    expect(await ledger.lot('PORK-1')).toMatchObject({
      balanceKg: 30,
      movements: [{ kg: 50 }, { kg: -20, batch: 'B-1', balanceKg: 30 }],
    })
    expect(await ledger.traceLot('PORK-1')).toMatchObject({
      batches: [{ batch: 'B-1', kgOfLot: 20 }],
      packs: [{ pack: 'P-1', hereCount: 30 }],
      customers: ['Corner shop'],
      kg: { received: 50, used: 20, adjusted: 0, left: 30 },
    })
    expect(await ledger.tracePack('P-1')).toMatchObject({
      lots: [{ lot: 'PORK-1', kgInBatch: 20 }],
      suppliers: ['Meadow End Farm'],
      withoutLot: [{ line: 'salt', kg: 0.36 }],
    })
    expect(await ledger.massBalance('B-1')).toMatchObject({
      inKg: 20.36,
      packedKg: 19,
      differenceKg: 1.36,
      shippedKg: 4.75,
    })
    expect(await ledger.today('2026-03-04')).toMatchObject({
      batches: [],
      holds: [],
      lotsNearUseBy: [{ lot: 'PORK-1', daysLeft: 2 }],
    })
    expect(await ledger.verify()).toMatchObject({ ok: true, entries: 12 })
    expect((await ledger.entries({ about: 'lot:PORK-1' })).map((e) => e.kind)).toEqual([
      'lot.receive',
      'batch.plan',
      'batch.weigh',
    ])
  })
})
