import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import type { RoomCalendar } from '../../src/plan/room-calendar.ts'
import type { SlowBatch } from '../../src/plan/slow.ts'
import type { Week } from '../../src/plan/week.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const now = '2026-12-31T12:00:00Z'
const recipe = (code: string, body: object): Draft =>
  ({ kind: 'recipe.save', by, body: { recipe: code, version: 1, body } }) as Draft
const plain = { smoked: false, readyToEat: false, additions: [{ material: 'salt', pct: 2 }] }
const meat = [{ material: 'pork-shoulder-trim', pct: 100 }]
const drying = {
  ...plain,
  name: 'Slow sausage',
  kind: 'dried',
  meat,
  casing: { calibreMm: 50 },
  ferment: { targetPh: 5.2, stages: [{ hours: 48, tempC: 22, rhPct: 92 }] },
  dry: { lossPct: 33, stages: [{ days: 40, tempC: 14, rhPct: 80 }] },
}
const batch = (code: string, of: string, on: string, kg: number): Draft => ({
  kind: 'batch.plan',
  by,
  body: {
    batch: code,
    recipe: of,
    version: 1,
    on,
    meatKg: kg,
    jurisdictions: ['US'],
    lines: [
      { line: 'meat', material: 'pork-shoulder-trim', lot: 'PS-1', targetKg: kg },
      { line: 'salt', material: 'salt', targetKg: kg * 0.02 },
    ],
  },
})
const weigh = (code: string, line: string, kg: number): Draft => ({
  kind: 'batch.weigh',
  by,
  body: { batch: code, line, kg },
})
const piece = (code: string, name: string, taken: string, value: number): Draft => ({
  kind: 'batch.measure',
  by,
  body: { batch: code, step: 'dry', what: 'weight', unit: 'g', piece: name, value, taken },
})
const order = (code: string, due: string, of: string, kg: number): Draft => ({
  kind: 'order.take',
  by,
  body: { order: code, customer: 'Corner shop', on: '2026-12-20', due, lines: [{ recipe: of, kg }] },
})

let house: House
const get = async <T>(path: string): Promise<T> => {
  const { status, body } = await house.ask('GET', path)
  expect(status, JSON.stringify(body)).toBe(200)
  return body as T
}

beforeAll(async () => {
  house = await openHouse({ now: () => new Date(now) })
  await house.ledger.append([
    { kind: 'person.add', by, body: { person: by, name: 'Ana', role: 'owner' } },
    { kind: 'kitchen.set', by, body: { name: 'Brackwater', jurisdictions: ['US'], units: 'metric', demo: true } },
    {
      kind: 'lot.receive',
      by,
      body: { lot: 'PS-1', material: 'pork-shoulder-trim', kg: 60, on: '2026-12-01', useBy: '2027-01-04' },
    },
    { kind: 'lot.receive', by, body: { lot: 'SA-1', material: 'salt', kg: 5, on: '2026-12-01' } },
    recipe('FRESH', { ...plain, name: 'Fresh link', kind: 'fresh', meat }),
    recipe('SLOW', drying),
    {
      kind: 'room.add',
      by,
      body: {
        room: 'DRY-1',
        name: 'Drying room',
        purpose: 'dry',
        tempC: 14,
        rhPct: 80,
        unit: { airM3PerHour: 60, coilTempC: 8 },
        capacityKg: 50,
      },
    },
    { kind: 'room.add', by, body: { room: 'COLD', name: 'Cold room', purpose: 'cold', tempC: 3 } },
  ])
})
afterAll(() => house.close())

describe('an empty kitchen', () => {
  it('has nothing to plan, and says so by having no plan', async () => {
    const week = await get<Week>('/api/plan')
    expect(week.plan).toBeUndefined()
    expect(week.lines).toEqual([])
    expect((await get<{ batches: SlowBatch[] }>('/api/slow')).batches).toEqual([])
  })
})

describe('a batch that dries', () => {
  it('has a ready date that narrows with its weighings, its room and loss, and waits for what is due', async () => {
    await house.ledger.append([
      batch('S-1', 'SLOW', '2026-12-10', 20),
      weigh('S-1', 'meat', 20),
      weigh('S-1', 'salt', 0.4),
      {
        kind: 'batch.measure',
        by,
        body: { batch: 'S-1', step: 'ferment', what: 'ph', value: 5.1, taken: '2026-12-12T12:00:00Z' },
      },
      { kind: 'batch.place', by, body: { batch: 'S-1', room: 'DRY-1', at: '2026-12-12T14:00:00Z' } },
      piece('S-1', 'P1', '2026-12-10T13:00:00Z', 1000),
      piece('S-1', 'P2', '2026-12-10T13:05:00Z', 990),
    ])
    const before = (await get<{ batches: SlowBatch[] }>('/api/slow')).batches[0]!
    expect(before.unknown).toBeUndefined()
    expect(before.ready).toMatchObject({ by: 'published figures' })
    expect(before.room).toMatchObject({ room: 'DRY-1', since: '2026-12-12T14:00:00Z' })
    expect(before.waitsFor.join()).toMatch(/weighing of the marked pieces due/)
    expect(before.late).toBe(true)
    const width = ({ ready }: SlowBatch) => (Date.parse(ready!.late!) - Date.parse(ready!.early!)) / 86_400_000
    await house.ledger.append([
      piece('S-1', 'P1', '2026-12-18T13:00:00Z', 930),
      piece('S-1', 'P2', '2026-12-18T13:05:00Z', 921),
      piece('S-1', 'P1', '2026-12-30T13:00:00Z', 860),
      piece('S-1', 'P2', '2026-12-30T13:05:00Z', 850),
    ])
    const after = (await get<{ batches: SlowBatch[] }>('/api/slow')).batches[0]!
    expect(after.ready).toMatchObject({ by: 'weighings' })
    expect(width(after)).toBeLessThan(width(before))
    expect(after.loss).toMatchObject({ on: '2026-12-30', pieces: 2 })
    expect(after.loss!.pct).toBeCloseTo(100 * (1 - (860 / 1000 + 850 / 990) / 2), 6)
    expect(after.late).toBe(false)
    expect(after.waitsFor).toEqual(['33 % weight loss'])
  })

  it('is in the calendar of its room with its water, and a planned one gets a turn', async () => {
    await house.ledger.append([batch('S-2', 'SLOW', '2027-01-02', 20)])
    const c = await get<RoomCalendar>('/api/rooms/DRY-1/calendar?days=60')
    const [hangs, waits] = [c.rows.find((r) => r.batch === 'S-1')!, c.rows.find((r) => r.batch === 'S-2')!]
    expect(hangs).toMatchObject({ hangs: true, in: '2026-12-12' })
    expect(hangs.out! > '2027-01-01').toBe(true)
    expect(waits).toMatchObject({ hangs: false, asked: '2027-01-04' })
    expect(waits.in! >= '2027-01-04').toBe(true)
    const removed = c.load[0]!.removedKg!
    for (const d of c.load.filter((l) => l.on >= waits.in!)) expect(d.allKg).toBeLessThanOrEqual(removed * (1 + 1e-9))
    for (const d of c.load) expect(d.roomKg).toBeLessThanOrEqual(50)
    const alone = await get<RoomCalendar>('/api/rooms/DRY-1/calendar?days=60&without=S-2')
    expect(alone.leftOut).toEqual([{ batch: 'S-2', because: 'left out by hand' }])
  })

  it('gets no turn in a room that ferments', async () => {
    await house.ledger.append([
      {
        kind: 'room.add',
        by,
        body: { room: 'FERM', name: 'Fermenting room', purpose: 'ferment', tempC: 22, rhPct: 92, capacityKg: 50 },
      },
      batch('S-3', 'SLOW', '2026-12-31', 10),
      { kind: 'batch.place', by, body: { batch: 'S-3', room: 'FERM', at: '2026-12-31T09:00:00Z' } },
    ])
    const c = await get<RoomCalendar>('/api/rooms/FERM/calendar?days=10')
    expect(c.rows).toMatchObject([{ batch: 'S-3', hangs: true, out: '2027-01-02' }])
    // It goes on to the drying room, where its turn is.
    const dry = await get<RoomCalendar>('/api/rooms/DRY-1/calendar?days=60')
    expect(dry.rows.find((r) => r.batch === 'S-3')).toMatchObject({ hangs: false, asked: '2027-01-02' })
    const [placed] = (await house.ledger.placements()).slice(-1)
    await house.ledger.append([{ kind: 'entry.withdraw', by, body: { entry: placed!.seq }, why: 'only tried' }])
    const plan = (await house.ledger.batch('S-3'))!
    await house.ledger.append([{ kind: 'entry.withdraw', by, body: { entry: plan.seq }, why: 'only tried' }])
  })

  it('cannot be reckoned with in a room that says no humidity', async () => {
    expect(await get('/api/rooms/COLD/calendar')).toMatchObject({
      unknown: expect.stringMatching(/no humidity/) as string,
    })
    expect((await house.ask('GET', '/api/rooms/NONE/calendar')).status).toBe(404)
  })
})

describe('the plan', () => {
  it('serves orders from lots, buys what is missing, and leaves what need not be begun', async () => {
    await house.ledger.append([
      order('O-1', '2027-01-02', 'FRESH', 30),
      order('O-2', '2027-01-05', 'FRESH', 40),
      order('O-3', '2027-06-01', 'SLOW', 10),
      order('O-0', '2026-12-28', 'FRESH', 5),
    ])
    const week = await get<Week>('/api/plan?days=7&closed=')
    expect(week.plan?.status).toBe('optimal')
    expect(week.later.map((l) => l.order)).toEqual(['O-3'])
    const of = (o: string) => week.lines.find((l) => l.order === o)!
    expect(of('O-1')).toMatchObject({ onTimeKg: expect.closeTo(30, 4) as number, shortKg: 0 })
    // Due before today: late, whatever of it is made today.
    expect(of('O-0')).toMatchObject({ due: '2026-12-28', onTimeKg: 0, lateKg: expect.closeTo(5, 4) as number })
    const taken = week.plan!.batches.flatMap((b) => b.lots).filter((l) => l.lot === 'PS-1')
    // 60 kg came in, 20 were weighed into S-1, 20 are kept for S-2.
    expect(taken.reduce((s, l) => s + l.kg, 0)).toBeLessThanOrEqual(20 + 1e-6)
    const bought = week.plan!.toBuy.find((b) => b.material === 'pork-shoulder-trim')!
    expect(bought.kg).toBeGreaterThan(40)
    expect(bought.by >= '2027-01-01').toBe(true)
  })

  it('holds batches to the sizes asked for, and refuses a query that makes no sense by name', async () => {
    const week = await get<Week>('/api/plan?days=7&closed=&smallest=10&largest=20')
    for (const b of week.plan!.batches) {
      expect(b.mixKg).toBeGreaterThanOrEqual(10 - 1e-6)
      expect(b.mixKg).toBeLessThanOrEqual(20 + 1e-6)
    }
    for (const [query, path] of [
      ['smallest=30&largest=20', 'smallest'],
      ['days=0', 'days'],
      ['closed=9', 'closed'],
      ['buyFrom=tomorrow', 'buyFrom'],
      ['x=1', 'x'],
    ] as const) {
      const { status, body } = await house.ask('GET', `/api/plan?${query}`)
      expect(status).toBe(400)
      expect(JSON.stringify(body)).toContain(path)
    }
  })

  it('is held to what a resource has left on a day, and begins nothing on a closed day', async () => {
    await house.ledger.append([
      {
        kind: 'plan.resource',
        by,
        body: { resource: 'MIXER', name: 'Mixer', perDay: 10, unit: 'kg', takes: [{ of: 'all', perKg: 1 }] },
      },
    ])
    const week = await get<Week>('/api/plan?days=7&closed=0')
    for (const l of week.plan!.load) expect(l.used).toBeLessThanOrEqual(Math.max(10, l.taken) + 1e-6)
    expect(week.closed).toEqual(['2027-01-03'])
    expect(week.plan!.batches.some((b) => b.start === '2027-01-03')).toBe(false)
    expect(week.lines.some((l) => l.lateKg > 0 || l.shortKg > 0)).toBe(true)
    expect(week.plan!.tight.length).toBeGreaterThan(0)
  })

  it('counts what is under way, and nothing on hold', async () => {
    const week = await get<Week>('/api/plan?days=7')
    expect(week.underWay.map((u) => u.batch).toSorted()).toEqual(['S-1', 'S-2'])
    expect(week.underWay.find((u) => u.batch === 'S-1')!.finishedKg).toBeCloseTo(20.4 * 0.67, 6)
  })

  it('prints on a sheet', async () => {
    const response = await house.app.request('/paper/plan/week.pdf?size=Letter')
    expect(response.status).toBe(200)
    expect(new TextDecoder('latin1').decode((await response.arrayBuffer()).slice(0, 5))).toBe('%PDF-')
    expect((await house.app.request('/paper/plan/other.pdf')).status).toBe(404)
  })
})
