import { describe, expect, it } from 'vitest'
import type { Draft, Ledger } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

const by = 'ada'
const on = '2026-03-02'
const split = (from: string, lot: string, kg: number): Draft => ({ kind: 'lot.split', by, body: { from, lot, kg, on } })
const rework = (batch: string, lot: string, kg: number, note?: string): Draft => ({
  kind: 'lot.rework',
  by,
  body: { lot, batch, material: 'pork-shoulder', kg, on, allergens: ['milk'], ...(note ? { note } : {}) },
})

/** A lot split in two; half into a batch, rework of it into a second batch, rework of that into a third, which is sold. */
async function threeLevels(): Promise<Ledger> {
  const ledger = await open()
  await ledger.append([
    ...ready,
    split('PORK-1', 'PORK-1A', 30),
    draft.plan('B-1', 'PORK-1A'),
    draft.weigh('B-1', 'meat', 20),
    rework('B-1', 'RW-1', 4),
    draft.plan('B-2', 'RW-1'),
    draft.weigh('B-2', 'meat', 3),
    rework('B-2', 'RW-2', 2),
    draft.plan('B-3', 'RW-2'),
    draft.weigh('B-3', 'meat', 1.5),
    {
      kind: 'business.add',
      by,
      body: { business: 'C1', name: 'Corner shop', address: '3 Low Street, Brindleholt', as: ['customer'] },
    },
    draft.decide('B-3'),
    draft.pack('B-3', 'P-3', 15),
    draft.ship('P-3', 6, 'corner SHOP'),
    draft.ship('P-3', 5, 'Far inn'),
  ])
  return ledger
}

describe('a lot split', () => {
  it('takes from the whole what it gives to the part, which keeps material, seller and date', async () => {
    const ledger = await open()
    await ledger.append([...ready, split('PORK-1', 'PORK-1A', 30)])
    const [whole, part] = [await ledger.lot('PORK-1'), await ledger.lot('PORK-1A')]
    expect([whole?.balanceKg, part?.balanceKg, part?.kg]).toEqual([20, 30, 30])
    expect(part).toMatchObject({
      material: 'pork-shoulder',
      supplier: 'Meadow End Farm',
      useBy: '2026-03-06',
      origin: { lot: 'PORK-1' },
    })
    expect((await ledger.verify({ views: true })).views).toEqual([])
  })

  it('of more than there is needs a note, and a part used cannot be withdrawn', async () => {
    const ledger = await open()
    await ledger.append(ready)
    await expect(ledger.append([split('PORK-1', 'X', 51)])).rejects.toThrow(/holds 50 kg/)
    const [entry] = await ledger.append([split('PORK-1', 'X', 30)])
    await ledger.append([draft.plan('B-1', 'X'), draft.weigh('B-1', 'meat', 20)])
    await expect(ledger.append([draft.withdraw(entry!.seq)])).rejects.toThrow(/lean/)
  })

  it('follows a correction of how the whole came in', async () => {
    const ledger = await open()
    const entries = await ledger.append([...ready, split('PORK-1', 'A', 30), split('A', 'B', 5)])
    const received = entries.find((e) => e.kind === 'lot.receive')!
    if (received.kind !== 'lot.receive') throw new Error('not a receipt')
    await ledger.append([
      {
        kind: 'lot.receive',
        by,
        corrects: received.seq,
        why: 'date misread',
        body: { ...received.body, useBy: '2026-03-04' },
      },
    ])
    expect((await ledger.lots({})).map((l) => l.useBy)).toEqual(['2026-03-04', '2026-03-04', '2026-03-04'])
    expect((await ledger.verify({ views: true })).views).toEqual([])
  })

  it('withdrawn, is as if it had never been', async () => {
    const ledger = await open()
    const entries = await ledger.append([...ready, split('PORK-1', 'A', 30)])
    await ledger.append([draft.withdraw(entries.at(-1)!.seq)])
    expect(await ledger.lot('A')).toBeUndefined()
    expect((await ledger.lot('PORK-1'))?.balanceKg).toBe(50)
    expect((await ledger.verify({ views: true })).views).toEqual([])
  })
})

describe('rework', () => {
  it('is no more than was weighed in, unless a note says why', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.plan(), draft.weigh()])
    await expect(ledger.append([rework('B-1', 'R', 20.5)])).rejects.toThrow(/has 20 kg/)
    await ledger.append([rework('B-1', 'R', 12), rework('B-1', 'R2', 9, 'ice taken up')])
    expect((await ledger.massBalance('B-1'))?.reworkKg).toBe(21)
  })
})

describe('a part split off rework', () => {
  const kind = async (as: 'cooked' | 'fresh') => {
    const ledger = await open()
    const entries = [...ready]
    const recipe = entries.find((e) => e.kind === 'recipe.save') as Extract<Draft, { kind: 'recipe.save' }>
    const saved: Draft = {
      ...recipe,
      body: { ...recipe.body, recipe: 'KIND', body: { ...recipe.body.body, kind: as } },
    }
    const plan = draft.plan('B-2', 'RW-1b') as Extract<Draft, { kind: 'batch.plan' }>
    await ledger.append([
      ...entries,
      saved,
      split('PORK-1', 'PORK-1A', 30),
      draft.plan('B-1', 'PORK-1A'),
      draft.weigh('B-1', 'meat', 20),
      rework('B-1', 'RW-1', 4),
      split('RW-1', 'RW-1a', 3),
      split('RW-1a', 'RW-1b', 2),
      { ...plan, body: { ...plan.body, recipe: 'KIND' } },
      draft.weigh('B-2', 'meat', 2),
    ])
    return ledger
  }

  it.each(['cooked', 'fresh'] as const)('leads a %s batch back to the rework it is of', async (as) => {
    const made = (await (await kind(as)).batch('B-2'))!
    expect(made.ancestry?.lots.find((l) => l.lot === 'RW-1')?.origin).toEqual({ batch: 'B-1', allergens: ['milk'] })
    expect(made.ancestry?.lots.map((l) => l.lot)).toEqual(expect.arrayContaining(['RW-1a', 'RW-1']))
  })
})

describe('a recall', () => {
  it('from a lot finds what was sold three batches on, with weights at each step', async () => {
    const ledger = await threeLevels()
    const found = (await ledger.recall({ type: 'lot', id: 'PORK-1' }))!
    expect(found.level).toEqual({
      lots: { 'PORK-1': 0, 'PORK-1A': 1, 'RW-1': 3, 'RW-2': 5 },
      batches: { 'B-1': 2, 'B-2': 4, 'B-3': 6 },
    })
    expect(found.steps.map((s) => [s.from.id, s.to.id, s.kg])).toEqual([
      ['PORK-1', 'PORK-1A', 30],
      ['PORK-1A', 'B-1', 20],
      ['B-1', 'RW-1', 4],
      ['RW-1', 'B-2', 3],
      ['B-2', 'RW-2', 2],
      ['RW-2', 'B-3', 1.5],
    ])
    expect(found.customers.map((c) => [c.name, c.count, c.customer?.address])).toEqual([
      ['Corner shop', 6, '3 Low Street, Brindleholt'],
      ['Far inn', 5, undefined],
    ])
    expect(found.quantity).toMatchObject({ packs: 15, shipped: 11, here: 4, unaccountedPacks: 0 })
    expect(found.quantity.stockKg).toBe(20 + 10 + 1 + 0.5)
    // 20 kg in and 4 back as rework, 3 in and 2 back, and all of the third packed.
    expect(found.quantity.notPackedKg).toBe(16 + 1)
  })

  it('from a pack finds its batch, what became of it, and what lies behind it back to the door', async () => {
    const ledger = await threeLevels()
    const found = (await ledger.recall({ type: 'pack', id: 'P-3' }))!
    expect(found.batches.map((b) => b.batch)).toEqual(['B-3'])
    expect(found.behind.lots.map((l) => l.lot).sort()).toEqual(['PORK-1', 'PORK-1A', 'RW-1', 'RW-2'])
    expect(found.suppliers.map((s) => s.name)).toEqual(['Meadow End Farm'])
    const back = await ledger.tracePack('P-3')
    expect(back?.behind.batches.map((b) => [b.batch, b.level])).toEqual([
      ['B-1', 4],
      ['B-2', 2],
    ])
  })

  it('ends where rework goes round in a ring', async () => {
    const ledger = await threeLevels()
    await ledger.append([{ kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', lot: 'RW-2', kg: 0.5 } }])
    const found = (await ledger.recall({ type: 'batch', id: 'B-2' }))!
    expect(found.batches.map((b) => b.batch).sort()).toEqual(['B-1', 'B-2', 'B-3'])
  })

  it('of something the record does not have is undefined', async () => {
    const ledger = await threeLevels()
    expect(await ledger.recall({ type: 'lot', id: 'NONE' })).toBeUndefined()
  })
})
