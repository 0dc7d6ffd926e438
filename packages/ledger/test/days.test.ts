import { describe, expect, it } from 'vitest'
import type { Draft, Ledger } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

const by = 'ada'

/** Batch B-1 of 2 March out of lot PORK-1 of 1 March, decided and packed. */
async function packed(): Promise<Ledger> {
  const ledger = await open()
  await ledger.append([
    ...ready,
    draft.plan('B-1', 'PORK-1'),
    draft.weigh('B-1', 'meat', 20),
    draft.decide('B-1'),
    draft.pack('B-1', 'P-1', 10),
  ])
  return ledger
}

describe('a day that cannot be', () => {
  const impossible: readonly (readonly [string, Draft, RegExp])[] = [
    [
      'packs before their batch',
      { kind: 'batch.pack', by, body: { batch: 'B-1', pack: 'P-0', count: 1, totalKg: 1, on: '2020-01-01' } },
      /body\.on: is 2020-01-01, before batch B-1/,
    ],
    [
      'rework before its batch',
      { kind: 'lot.rework', by, body: { batch: 'B-1', lot: 'RW', material: 'pork-shoulder', kg: 1, on: '2020-01-01' } },
      /body\.on: is 2020-01-01, before batch B-1/,
    ],
    [
      'a part before its lot',
      { kind: 'lot.split', by, body: { from: 'PORK-1', lot: 'PORK-1A', kg: 1, on: '2026-02-20' } },
      /body\.on: is 2026-02-20, before lot PORK-1/,
    ],
    [
      'a count before the lot',
      { kind: 'lot.adjust', by, body: { lot: 'PORK-1', kg: -1, reason: 'count', on: '2026-02-20' } },
      /body\.on: is 2026-02-20, before lot PORK-1/,
    ],
    [
      'a consignment before the pack, note or no note',
      { kind: 'pack.ship', by, body: { pack: 'P-1', to: 'The inn', count: 1, on: '2020-01-01', note: 'sent' } },
      /body\.on: is 2020-01-01, before pack P-1/,
    ],
  ]
  it.each(impossible)('is refused: %s', async (_, given, why) => {
    const ledger = await packed()
    await expect(ledger.append([given])).rejects.toThrow(why)
  })

  it('is refused of a lot weighed into a batch of days before it came in; the day before is the plan’s own slack', async () => {
    const ledger = await open()
    const late = (lot: string, on: string): Draft => ({
      kind: 'lot.receive',
      by,
      body: { lot, material: 'pork-shoulder', kg: 50, on },
    })
    await ledger.append([
      ...ready,
      late('PORK-9', '2026-03-09'),
      late('PORK-3', '2026-03-03'),
      draft.plan('B-9', 'PORK-9'),
      draft.plan('B-3', 'PORK-3'),
    ])
    await expect(ledger.append([draft.weigh('B-9', 'meat', 1)])).rejects.toThrow(
      /takes from lot PORK-9, which came in or was made on 2026-03-09/,
    )
    await ledger.append([draft.weigh('B-3', 'meat', 1)])
  })
})

describe('the last owner', () => {
  const person = (change: object): Draft => ({
    kind: 'person.add',
    by,
    body: { person: by, name: 'Ada', role: 'owner', ...change },
  })
  it('neither leaves nor becomes something else until another is owner', async () => {
    const ledger = await open()
    await ledger.append(ready)
    const [first] = (await ledger.entries({ kind: 'person.add', limit: 10 })).filter(
      (e) => e.kind === 'person.add' && e.body.person === by,
    )
    const change = (what: object): Draft => ({ ...person(what), corrects: first!.seq, why: 'moved on' })
    await expect(ledger.append([change({ left: true })])).rejects.toThrow(
      /body\.left: leaves the house without an owner/,
    )
    await expect(ledger.append([change({ role: 'reader' })])).rejects.toThrow(
      /body\.role: leaves the house without an owner/,
    )
    await ledger.append([person({ person: 'bea', name: 'Bea' }), change({ left: true })])
  })
})
