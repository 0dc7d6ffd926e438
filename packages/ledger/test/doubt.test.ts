import { describe, expect, it } from 'vitest'
import type { Draft } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

const by = 'ada'

describe('an instrument found out of tolerance', () => {
  const before = async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.check('2026-02-20', 1000), draft.plan(), draft.weigh()])
    return ledger
  }

  it('casts doubt on every batch it touched since its last good check, and on none after a good one', async () => {
    const ledger = await before()
    expect(await ledger.doubts()).toEqual([])
    const [bad] = await ledger.append([draft.check('2026-03-05', 1009)])
    await ledger.append([draft.check('2026-03-05', 1000), draft.check('2026-03-20', 1009)])
    const [first, second] = await ledger.doubts('S1')
    expect(first).toMatchObject({ check: bad!.seq, since: '2026-02-20', found: '2026-03-05', error: 9 })
    expect(first!.batches.map((b) => b.batch)).toEqual(['B-1'])
    expect(second!.batches).toEqual([])
    expect((await ledger.batch('B-1'))!.instruments[0]).toMatchObject({ standing: 'in-date', inDoubt: { error: 9 } })
    expect((await ledger.today('2026-03-21')).doubts.map((d) => d.check)).toEqual([bad!.seq])
  })

  it('is dealt with batch by batch: said to stand, the doubt is lifted; not relied on, it stays', async () => {
    const ledger = await before()
    const [bad] = await ledger.append([draft.check('2026-03-05', 1009)])
    const settle = (outcome: 'stands' | 'not-relied') =>
      ({
        kind: 'doubt.settle',
        by,
        body: { batch: 'B-1', instrument: 'S1', check: bad!.seq, outcome, because: 'nine grams in twenty kilograms' },
      }) as const
    await ledger.append([settle('not-relied')])
    expect((await ledger.batch('B-1'))!.instruments[0]!.inDoubt).toBeDefined()
    expect((await ledger.today('2026-03-06')).doubts).toEqual([])
    await ledger.append([settle('stands')])
    expect((await ledger.batch('B-1'))!.instruments[0]!.inDoubt).toBeUndefined()
    await expect(
      ledger.append([{ ...settle('stands'), body: { ...settle('stands').body, check: 1 } }]),
    ).rejects.toThrow(/standing check of S1/)
  })
})

describe('a deviation', () => {
  const opened: Extract<Draft, { kind: 'deviation.open' }> = {
    kind: 'deviation.open',
    by,
    body: { deviation: 'D-1', on: '2026-03-02', about: [{ type: 'lot', id: 'PORK-1' }], what: 'arrived at 9 °C' },
  }
  const act = (body: { product?: string; cause?: string; prevention?: string }) =>
    ({ kind: 'deviation.act', by, body: { deviation: 'D-1', on: '2026-03-02', ...body } }) as const
  const close = { kind: 'deviation.close', by, body: { deviation: 'D-1', on: '2026-03-03', because: 'seen' } } as const

  it('stands on Today until product, cause and prevention are said and somebody closes it', async () => {
    const ledger = await open()
    await ledger.append([...ready, opened])
    expect((await ledger.today('2026-03-02')).deviations.map((d) => d.deviation)).toEqual(['D-1'])
    await expect(ledger.append([close])).rejects.toThrow(/product, cause, prevention/)
    await ledger.append([act({ product: 'sent back', cause: 'van' }), act({ prevention: 'probe at the door' }), close])
    const [d] = await ledger.deviations()
    expect(d).toMatchObject({ product: 'sent back', cause: 'van', prevention: 'probe at the door', closed: { by } })
    expect((await ledger.today('2026-03-03')).deviations).toEqual([])
    await expect(ledger.append([act({ product: 'more' })])).rejects.toThrow(/closed/)
  })

  it('names only what the record has', async () => {
    const ledger = await open()
    await ledger.append(ready)
    await expect(
      ledger.append([{ ...opened, body: { ...opened.body, about: [{ type: 'batch', id: 'NONE' }] } }]),
    ).rejects.toThrow(/NONE/)
  })
})

describe('a second person on release', () => {
  it('is asked for where the kitchen wants it', async () => {
    const ledger = await open()
    await ledger.append([
      ...ready,
      { kind: 'kitchen.set', by, body: { ...draft.kitchen.body, jurisdictions: ['GB'], secondPerson: true } },
      { kind: 'person.add', by, body: { person: 'bo', name: 'Bo', role: 'checker' } },
      draft.plan(),
      draft.weigh(),
    ])
    await expect(ledger.append([draft.decide()])).rejects.toThrow(/second person/)
    await ledger.append([draft.decide('B-1', 'hold')])
    const [entry] = await ledger.append([{ ...draft.decide(), by: 'bo' }])
    expect(entry!.by).toBe('bo')
  })
})
