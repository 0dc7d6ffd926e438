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

describe('an instrument of a slow batch, used weeks after its day', () => {
  const meter = { instrument: 'PH1', type: 'ph-meter', name: 'pH meter', checkEveryDays: 30 } as const
  const recipe: Draft = {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'SLOW',
      version: 1,
      body: {
        name: 'Slow sausage',
        kind: 'dried',
        smoked: false,
        readyToEat: true,
        meat: [{ material: 'pork-shoulder', pct: 100 }],
        additions: [{ material: 'salt', pct: 2.7 }],
      },
    },
  }
  const buffer = (on: string, reading: number): Draft => ({
    kind: 'instrument.check',
    by,
    body: { instrument: 'PH1', method: 'buffer', reference: 7, reading, unit: 'pH', tolerance: 0.05, on },
  })
  const ph = (batch: string, taken: string): Draft => ({
    kind: 'batch.measure',
    by,
    body: { batch, step: 'dry', what: 'ph', value: 5.1, unit: 'pH', taken, instrument: 'PH1' },
  })
  const made = (batch: string, on: string): Draft => {
    const plan = draft.plan(batch) as Extract<Draft, { kind: 'batch.plan' }>
    return { ...plan, body: { ...plan.body, recipe: 'SLOW', on } }
  }
  const kitchen = async () => {
    const clock = { now: '2026-03-02T08:00:00.000Z' }
    const ledger = await open(undefined, () => clock.now)
    await ledger.append([
      ...ready,
      recipe,
      { kind: 'instrument.add', by, body: meter },
      buffer('2026-03-01', 7),
      made('SLOW-1', '2026-03-02'),
    ])
    const on = async (day: string, ...drafts: Draft[]) => {
      clock.now = `${day}T10:00:00.000Z`
      await ledger.append(drafts)
    }
    return { ledger, on }
  }
  const touched = async (ledger: Awaited<ReturnType<typeof open>>) =>
    (await ledger.doubts('PH1')).map((d) => d.batches.map((b) => b.batch))

  it('stands in doubt by the day of the reading, not by its own, on Today as on its page', async () => {
    const { ledger, on } = await kitchen()
    await on('2026-03-20', buffer('2026-03-20', 7.01))
    await on('2026-03-24', ph('SLOW-1', '2026-03-24T09:00:00Z'))
    await on('2026-03-28', buffer('2026-03-28', 7.4))
    expect(await touched(ledger)).toEqual([['SLOW-1']])
    expect((await ledger.today('2026-03-28')).doubts[0]!.batches.map((b) => b.batch)).toEqual(['SLOW-1'])
    expect((await ledger.batch('SLOW-1'))!.instruments.find((i) => i.instrument === 'PH1')!.inDoubt).toBeDefined()
  })

  it('stands in none where the instrument was read before its last good check, or after it was put right', async () => {
    const { ledger, on } = await kitchen()
    await on('2026-03-04', ph('SLOW-1', '2026-03-04T09:00:00Z'))
    await on('2026-03-20', buffer('2026-03-20', 7.01))
    await on('2026-03-28', buffer('2026-03-28', 7.4), buffer('2026-03-29', 7))
    await on('2026-04-02', ph('SLOW-1', '2026-04-02T09:00:00Z'))
    expect(await touched(ledger)).toEqual([[]])
    expect((await ledger.batch('SLOW-1'))!.instruments.find((i) => i.instrument === 'PH1')!.inDoubt).toBeUndefined()
  })

  it('is not missed where the reading is written down days later, or the logger ran over the span', async () => {
    const { ledger, on } = await kitchen()
    await on('2026-03-10', made('SLOW-2', '2026-03-10'))
    await on('2026-03-20', buffer('2026-03-20', 7.01))
    await on('2026-03-28', buffer('2026-03-28', 7.4), buffer('2026-03-29', 7))
    await on('2026-04-02', ph('SLOW-1', '2026-03-24T09:00:00Z'))
    const { sha256: file } = await ledger.putFile(new TextEncoder().encode('Time,Air\n0,20\n1,21\n'))
    await on('2026-04-03', {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'SLOW-2',
        purpose: 'dry',
        file,
        fileName: 'room.csv',
        reading: {},
        channels: [{ column: 'Air', role: 'house', instrument: 'PH1' }],
      },
    })
    expect(await touched(ledger)).toEqual([['SLOW-1', 'SLOW-2']])
  })

  it.each([
    ['called dried', 'SLOW', true],
    ['called cooked, that sours', 'SEMI', true],
    ['cooked', 'RING', false],
  ] as const)(
    'stands in doubt with the thermometer its meat was frozen by: one %s',
    async (_title, recipeCode, stands) => {
      const { ledger, on } = await kitchen()
      const called = (name: string, more: object): Draft => {
        const { body } = recipe.body
        return {
          kind: 'recipe.save',
          by,
          body: { recipe: name, version: 1, body: { ...body, kind: 'cooked', ...more } },
        }
      }
      await on('2026-03-03', called('SEMI', { ferment: { targetPh: 5 } }), called('RING', {}))
      const treat: Draft = {
        kind: 'lot.treat',
        by,
        body: {
          lot: 'PORK-1',
          way: 'frozen-room',
          on: '2026-03-30',
          thicknessMm: 100,
          roomC: -20,
          from: '2026-03-08T08:00:00Z',
          until: '2026-03-30T08:00:00Z',
          instrument: 'PH1',
        },
      }
      const plan = made('SLOW-2', '2026-03-31') as Extract<Draft, { kind: 'batch.plan' }>
      await on('2026-03-30', treat, { ...plan, body: { ...plan.body, recipe: recipeCode } })
      await on('2026-03-31', {
        ...draft.weigh('SLOW-2'),
        body: { batch: 'SLOW-2', line: 'meat', kg: 20, lot: 'PORK-1' },
      } as Draft)
      await on('2026-04-01', buffer('2026-04-01', 7.4))
      expect(await touched(ledger)).toEqual([stands ? ['SLOW-2'] : []])
    },
  )
})

describe.each(['fresh', 'cooked', 'fermented', 'dried'] as const)('a %s batch', (kind) => {
  const kitchen = async () => {
    const clock = { now: '2026-03-02T08:00:00.000Z' }
    const ledger = await open(undefined, () => clock.now)
    const plan = draft.plan('K-1') as Extract<Draft, { kind: 'batch.plan' }>
    await ledger.append([
      ...ready,
      {
        kind: 'recipe.save',
        by,
        body: {
          recipe: 'KIND',
          version: 1,
          body: {
            name: 'One of a kind',
            kind,
            smoked: false,
            readyToEat: false,
            meat: [{ material: 'pork-shoulder', pct: 100 }],
            additions: [{ material: 'salt', pct: 1.8 }],
          },
        },
      },
      {
        kind: 'instrument.add',
        by,
        body: { instrument: 'T1', type: 'thermometer', name: 'Core probe', checkEveryDays: 30 },
      },
    ])
    const on = async (day: string, ...drafts: Draft[]) => {
      clock.now = `${day}T10:00:00.000Z`
      await ledger.append(drafts)
    }
    const made = (day: string): Draft => ({ ...plan, body: { ...plan.body, recipe: 'KIND', on: day } })
    const doubted = async () => ({
      today: (await ledger.today('2026-04-10')).doubts.flatMap((d) => d.batches.map((b) => b.batch)),
      instrument: (await ledger.doubts('T1')).flatMap((d) => d.batches.map((b) => b.batch)),
      page: (await ledger.batch('K-1'))!.instruments.flatMap((i) => (i.inDoubt ? ['K-1'] : [])),
    })
    return { ledger, on, made, doubted }
  }
  const ice = (day: string, reading: number): Draft => ({
    kind: 'instrument.check',
    by,
    body: { instrument: 'T1', method: 'ice-point', reference: 0, reading, unit: '°C', tolerance: 0.5, on: day },
  })
  const core = (taken: string): Draft => ({
    kind: 'batch.measure',
    by,
    body: { batch: 'K-1', step: 'chill', what: 'temperature', value: 3, unit: '°C', taken, instrument: 'T1' },
  })

  it('stands in doubt by the day it was read, on Today, by its instrument and on its own page', async () => {
    const { on, made, doubted } = await kitchen()
    await on('2026-03-02', ice('2026-03-01', 0), made('2026-03-02'))
    await on('2026-03-20', ice('2026-03-20', 0.1))
    await on('2026-03-24', core('2026-03-24T09:00:00Z'))
    await on('2026-03-28', ice('2026-03-28', 2))
    expect(await doubted()).toEqual({ today: ['K-1'], instrument: ['K-1'], page: ['K-1'] })
  })

  it('stands in none anywhere where only its own day lies in the span, and its reading after it', async () => {
    const { on, made, doubted } = await kitchen()
    await on('2026-03-20', ice('2026-03-20', 0))
    await on('2026-03-24', made('2026-03-24'))
    await on('2026-03-28', ice('2026-03-28', 2), ice('2026-03-29', 0))
    await on('2026-04-02', core('2026-04-02T09:00:00Z'))
    expect(await doubted()).toEqual({ today: [], instrument: [], page: [] })
  })

  it('stands in doubt with the logger of a curve that ran into the span', async () => {
    const { ledger, on, made, doubted } = await kitchen()
    await on('2026-03-02', ice('2026-03-01', 0), made('2026-03-02'))
    await on('2026-03-20', ice('2026-03-20', 0))
    await on('2026-03-28', ice('2026-03-28', 2), ice('2026-03-29', 0))
    const { sha256: file } = await ledger.putFile(new TextEncoder().encode('Time,Core\n0,20\n1,21\n'))
    await on('2026-04-03', {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'K-1',
        purpose: 'chill',
        file,
        fileName: 'core.csv',
        reading: {},
        channels: [{ column: 'Core', role: 'core', instrument: 'T1' }],
      },
    })
    expect(await doubted()).toEqual({ today: ['K-1'], instrument: ['K-1'], page: ['K-1'] })
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
