import { describe, expect, it } from 'vitest'
import type { Draft, Ledger } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

const by = 'ada'
type Order = Extract<Draft, { kind: 'order.take' }>
const order = (code: string, more: Partial<Order['body']> = {}): Order => ({
  kind: 'order.take',
  by,
  body: {
    order: code,
    customer: 'Corner shop (invented)',
    on: '2026-03-02',
    due: '2026-03-05',
    lines: [{ recipe: 'BREAKFAST', kg: 12 }],
    ...more,
  },
})
const close = (code: string, on = '2026-03-05'): Draft => ({
  kind: 'order.close',
  by,
  body: { order: code, outcome: 'delivered', on },
})
const price = (from: string, costPerKg: number, supplier?: string): Draft => ({
  kind: 'price.set',
  by,
  body: { material: 'pork-shoulder', costPerKg, from, ...(supplier === undefined ? {} : { supplier }) },
})
const room = (code: string): Draft => ({
  kind: 'room.add',
  by,
  body: { room: code, name: `Room ${code}`, purpose: 'dry', tempC: 14, rhPct: 80 },
})
const place = (batch: string, at: string, where?: string): Draft => ({
  kind: 'batch.place',
  by,
  body: { batch, at, ...(where === undefined ? {} : { room: where }) },
})

async function filled(): Promise<Ledger> {
  const ledger = await open()
  await ledger.append(ready)
  return ledger
}

describe('an order', () => {
  it('is open until it is closed, once; the list has the one due first on top', async () => {
    const ledger = await filled()
    await ledger.append([order('O-2', { due: '2026-03-09' }), order('O-1')])
    expect((await ledger.orders()).map((o) => [o.order, o.closed?.outcome])).toEqual([
      ['O-1', undefined],
      ['O-2', undefined],
    ])
    await ledger.append([close('O-1')])
    expect((await ledger.orders())[0]!.closed).toMatchObject({ outcome: 'delivered', on: '2026-03-05' })
    await expect(ledger.append([close('O-1')])).rejects.toThrow(/was delivered on 2026-03-05/)
  })

  it('names what is wrong: a recipe nobody has, a day before it was taken, a code used before', async () => {
    const ledger = await filled()
    await expect(ledger.append([order('O-1', { lines: [{ recipe: 'NONE', kg: 1 }] })])).rejects.toThrow(
      /lines\[0\].recipe/,
    )
    await expect(ledger.append([order('O-1', { due: '2026-03-01' })])).rejects.toThrow(/body.due.*before the order/)
    await expect(ledger.append([order('O-1', { lines: [] })])).rejects.toThrow(/lines/)
    await expect(ledger.append([order('O-1', { lines: [{ recipe: 'BREAKFAST', kg: 0 }] })])).rejects.toThrow(/kg/)
    await ledger.append([order('O-1')])
    await expect(ledger.append([order('O-1')])).rejects.toThrow(/which the record has already/)
    await expect(ledger.append([close('O-9')])).rejects.toThrow(/which the record does not have/)
    await expect(ledger.append([close('O-1', '2026-02-01')])).rejects.toThrow(/body.on.*before the order/)
  })

  it('is corrected as any entry is, and not withdrawn while its closing leans on it', async () => {
    const ledger = await filled()
    const [entry] = await ledger.append([order('O-1')])
    await ledger.append([
      { ...order('O-1', { due: '2026-03-07' }), corrects: entry!.seq, why: 'rang again' },
      close('O-1'),
    ])
    const [found] = await ledger.orders()
    expect(found).toMatchObject({ due: '2026-03-07', closed: { outcome: 'delivered' } })
    await expect(ledger.append([draft.withdraw(found!.seq)])).rejects.toThrow(/lean/)
    expect((await ledger.verify({ views: true })).views).toEqual([])
  })
})

describe('a price', () => {
  it('is told once for a day and a supplier, and the list is in the order prices come to hold', async () => {
    const ledger = await filled()
    await ledger.append([price('2026-03-01', 5), price('2026-02-01', 4), price('2026-03-01', 4.8, 'Meadow End Farm')])
    expect((await ledger.prices()).map((p) => p.costPerKg)).toEqual([4, 5, 4.8])
    await expect(ledger.append([price('2026-03-01', 6)])).rejects.toThrow(/body.from.*gives a price/)
    await expect(ledger.append([price('2026-03-03', -1)])).rejects.toThrow(/costPerKg/)
  })

  it('of a product needs its recipe', async () => {
    const ledger = await filled()
    const sell = (recipe: string): Draft => ({
      kind: 'price.sell',
      by,
      body: { recipe, pricePerKg: 12, from: '2026-03-01' },
    })
    await expect(ledger.append([sell('NONE')])).rejects.toThrow(/recipe/)
    await ledger.append([sell('BREAKFAST')])
    expect((await ledger.sellingPrices())[0]).toMatchObject({ recipe: 'BREAKFAST', pricePerKg: 12 })
  })
})

describe('a resource', () => {
  it('says what takes it: a recipe only where one is named, each line once', async () => {
    const ledger = await filled()
    const resource = (takes: object[]): Draft =>
      ({
        kind: 'plan.resource',
        by,
        body: { resource: 'MIXER', name: 'Mixer', perDay: 100, unit: 'kg', takes },
      }) as Draft
    await expect(ledger.append([resource([{ of: 'recipe', perKg: 1 }])])).rejects.toThrow(/takes\[0\].recipe.*missing/)
    await expect(ledger.append([resource([{ of: 'all', recipe: 'BREAKFAST', perKg: 1 }])])).rejects.toThrow(
      /only where/,
    )
    await expect(
      ledger.append([
        resource([
          { of: 'all', perKg: 1 },
          { of: 'all', perKg: 2 },
        ]),
      ]),
    ).rejects.toThrow(/a second time/)
    await expect(ledger.append([resource([{ of: 'all', perKg: 1, fromDay: 1.5 }])])).rejects.toThrow(/whole number/)
    await ledger.append([
      resource([
        { of: 'all', perKg: 1 },
        { of: 'recipe', recipe: 'BREAKFAST', perKg: 0.5 },
      ]),
    ])
    expect((await ledger.resources())[0]).toMatchObject({ resource: 'MIXER', perDay: 100 })
  })
})

describe('rooms', () => {
  it('hold a batch from when it was put there until it is put elsewhere or taken out, whenever that was recorded', async () => {
    const ledger = await filled()
    await ledger.append([draft.plan(), room('R-1'), room('R-2')])
    const of = async () =>
      (await ledger.rooms()).map((r) => [r.room, r.hanging.map((h) => `${h.batch} ${h.since}`).join()])
    await ledger.append([place('B-1', '2026-03-02T10:00:00Z', 'R-1')])
    expect(await of()).toEqual([
      ['R-1', 'B-1 2026-03-02T10:00:00Z'],
      ['R-2', ''],
    ])
    await ledger.append([place('B-1', '2026-03-04T10:00:00Z', 'R-2')])
    // Told late: it does not undo what came after.
    await ledger.append([place('B-1', '2026-03-03T10:00:00Z', 'R-1')])
    expect(await of()).toEqual([
      ['R-1', ''],
      ['R-2', 'B-1 2026-03-04T10:00:00Z'],
    ])
    await ledger.append([place('B-1', '2026-03-09T10:00:00Z')])
    expect((await of()).map(([, h]) => h)).toEqual(['', ''])
  })

  it('are not withdrawn while a batch was hung in them', async () => {
    const ledger = await filled()
    const [, entry] = await ledger.append([draft.plan(), room('R-1')])
    await ledger.append([place('B-1', '2026-03-02T10:00:00Z', 'R-1')])
    await expect(ledger.append([draft.withdraw(entry!.seq)])).rejects.toThrow(/lean/)
  })
})

describe('packs here', () => {
  it('are what was packed less what has left, with the recipe and the decision', async () => {
    const ledger = await filled()
    await ledger.append([
      draft.plan(),
      draft.weigh(),
      draft.weigh('B-1', 'salt', 0.36),
      draft.decide(),
      draft.pack(),
      draft.ship('P-1', 10),
    ])
    const [pack] = await ledger.packsHere()
    expect(pack).toMatchObject({
      pack: 'P-1',
      recipe: 'BREAKFAST',
      count: 30,
      useBy: '2026-03-09',
      decision: 'release',
    })
    expect(pack!.kg).toBeCloseTo((19 * 30) / 40, 9)
    await ledger.append([draft.ship('P-1', 30)])
    expect(await ledger.packsHere()).toEqual([])
  })
})
