import type { Draft } from '@forcemeat/ledger'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)

/** A logger file with a reading each half hour; the last letter of a stamp says the zone. */
function log(from: string, hours: number, head: string, value: (hour: number) => string, zone = 'Z'): string {
  const start = Date.parse(from)
  const rows = Array.from({ length: 2 * hours + 1 }, (_, i) => {
    const at = new Date(start + i * 1_800_000).toISOString().slice(0, 19)
    return `${at}${zone},${value(i / 2)}`
  })
  return [`time,${head}`, ...rows].join('\n')
}

const instrument = (name: string, type: string, more: object = {}): Draft =>
  ({
    kind: 'instrument.add',
    by,
    body: { instrument: name, type, name: `the ${name}`, checkEveryDays: 30, ...more },
  }) as Draft
const check = (name: string, method: string, on: string, unit: string, tolerance: number, reference = 1): Draft =>
  ({
    kind: 'instrument.check',
    by,
    body: { instrument: name, method, reference, reading: reference, unit, tolerance, on },
  }) as Draft

const lines = [
  { line: '1', material: 'pork-shoulder-trim', targetKg: 14, scale: 'S1', lot: 'L1' },
  { line: '2', material: 'pork-back-fat', targetKg: 6, scale: 'S1', lot: 'L2' },
  { line: '3', material: 'salt', targetKg: 0.54, scale: 'S2' },
  { line: '4', material: 'curing-salt-6.25-nitrite', targetKg: 0.04, scale: 'S2' },
]
const measure = (body: object): Draft => ({ kind: 'batch.measure', by, body: { batch: 'B1', ...body } }) as Draft
const ph = (taken: string, value: number, step = 'ferment'): Draft =>
  measure({ step, what: 'ph', value, taken, instrument: 'PH' })

const kitchen: readonly Draft[] = [
  { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
  {
    kind: 'kitchen.set',
    by,
    body: { name: 'Brackwater Smokehouse', jurisdictions: ['US'], units: 'metric', demo: true },
  },
  instrument('S1', 'scale', { readabilityG: 5, toleranceG: 5 }),
  instrument('S2', 'scale', { readabilityG: 0.1, toleranceG: 0.1 }),
  instrument('T1', 'logger', { toleranceC: 0.3 }),
  instrument('T2', 'logger', { toleranceC: 0.5 }),
  instrument('PH', 'ph-meter', { checkEveryDays: 1 }),
  instrument('AW', 'aw-meter', { checkEveryDays: 1 }),
  check('S1', 'test-load', '2026-03-01', 'g', 5),
  check('S2', 'test-load', '2026-03-01', 'g', 0.1),
  check('T1', 'ice-point', '2026-03-01', '°C', 0.3, 0),
  check('T2', 'ice-point', '2026-02-01', '°C', 0.5, 0),
  check('PH', 'buffer', '2026-03-02', 'pH', 0.02, 4.01),
  check('PH', 'buffer', '2026-03-02', 'pH', 0.02, 7),
  check('PH', 'buffer', '2026-03-03', 'pH', 0.02, 4.01),
  check('PH', 'buffer', '2026-03-03', 'pH', 0.02, 7),
  check('PH', 'buffer', '2026-03-20', 'pH', 0.02, 4.01),
  check('PH', 'buffer', '2026-03-20', 'pH', 0.02, 7),
  check('AW', 'salt-standard', '2026-03-20', 'aw', 0.005, 0.753),
  { kind: 'lot.receive', by, body: { lot: 'W1', material: 'pork-shoulder-trim', kg: 30, on: '2026-02-10' } },
  { kind: 'lot.receive', by, body: { lot: 'L2', material: 'pork-back-fat', kg: 10, on: '2026-02-10' } },
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'stick',
      version: 1,
      body: {
        name: 'Slow stick',
        kind: 'fermented',
        smoked: true,
        readyToEat: true,
        route: 'comminuted',
        meat: [
          { material: 'pork-shoulder-trim', pct: 70 },
          { material: 'pork-back-fat', pct: 30 },
        ],
        additions: [
          { material: 'salt', pct: 2.7 },
          { material: 'curing-salt-6.25-nitrite', pct: 0.2 },
        ],
        casing: { calibreMm: 40 },
        ferment: { targetPh: 5.2 },
        dry: { lossPct: 35, targetAw: 0.91 },
      },
    },
  },
]

async function made(house: House, zone = 'Z'): Promise<void> {
  const { ledger } = house
  const put = async (text: string): Promise<string> => (await ledger.putFile(bytes(text))).sha256
  const chamber = await put(
    log('2026-03-02T08:00:00Z', 48, 'Chamber °C,RH %', (h) => `${(23.8 + 0.2 * Math.sin(h)).toFixed(2)},90`, zone),
  )
  const room = await put(log('2026-03-04T08:30:00Z', 24 * 17, 'Room °C', () => '14.0', zone))
  const centre = await put(log('2026-02-12T00:00:00Z', 130, 'Centre °C', (h) => (h < 10 ? '-10.0' : '-18.5')))
  await ledger.append([
    ...kitchen,
    {
      kind: 'lot.treat',
      by,
      body: {
        lot: 'W1',
        way: 'frozen-centre',
        on: '2026-02-18',
        file: centre,
        fileName: 'centre.csv',
        instrument: 'T2',
      },
    },
    { kind: 'lot.split', by, body: { from: 'W1', lot: 'L1', kg: 15, on: '2026-03-01' } },
    {
      kind: 'lot.treat',
      by,
      body: {
        lot: 'L2',
        way: 'frozen-room',
        on: '2026-02-24',
        thicknessMm: 150,
        roomC: -24,
        from: '2026-02-12T00:00:00Z',
        until: '2026-02-24T00:00:00Z',
        instrument: 'T2',
      },
    },
    {
      kind: 'batch.plan',
      by,
      body: { batch: 'B1', recipe: 'stick', version: 1, on: '2026-03-02', meatKg: 20, jurisdictions: ['US'], lines },
    },
    ...lines.map((l): Draft => ({
      kind: 'batch.weigh',
      by,
      body: { batch: 'B1', line: l.line, kg: l.targetKg, instrument: l.scale },
    })),
    ph('2026-03-02T08:30:00Z', 5.8),
    ph('2026-03-03T12:00:00Z', 5.1),
    ph('2026-03-20T12:00:00Z', 5.15, 'dry'),
    measure({ step: 'dry', what: 'aw', value: 0.9, taken: '2026-03-20T12:00:00Z', instrument: 'AW' }),
    ...['P1', 'P2', 'P3'].flatMap((piece) => [
      measure({
        step: 'dry',
        what: 'weight',
        unit: 'g',
        piece,
        value: 500,
        taken: '2026-03-02T08:00:00Z',
        instrument: 'S2',
      }),
      measure({
        step: 'dry',
        what: 'weight',
        unit: 'g',
        piece,
        value: 320,
        taken: '2026-03-20T12:00:00Z',
        instrument: 'S2',
      }),
    ]),
    {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'B1',
        purpose: 'ferment',
        file: chamber,
        fileName: 'chamber.csv',
        reading: {},
        channels: [
          { column: 'Chamber °C', role: 'house', instrument: 'T1' },
          { column: 'RH %', role: 'humidity' },
        ],
      },
    },
    {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'B1',
        purpose: 'dry',
        file: room,
        fileName: 'room.csv',
        reading: {},
        channels: [{ column: 'Room °C', role: 'house', instrument: 'T1' }],
      },
    },
  ])
}

describe('a slow batch from the record, its files read', () => {
  let house: House
  beforeEach(async () => {
    house = await openHouse()
  })
  afterEach(() => house.close())

  const judge = async () => judged(house.ledger, (await house.ledger.batch('B1'))!)
  const stops = async () => (await judge()).findings.filter((f) => f.weight !== 'advice' && f.verdict !== 'pass')

  it('passes with nothing missing: degree-hours, water activity, and pork frozen whole before it was split', async () => {
    await made(house)
    expect(await stops()).toEqual([])
    const j = await judge()
    expect(j.verdict).toBe('pass')
    expect(j.meats.map((m) => [m.lot, m.of, m.verdict])).toEqual([
      ['L1', 'W1', 'pass'],
      ['L2', undefined, 'pass'],
    ])
    expect(j.ferment?.reachedHour).toBeCloseTo(28, 6)
    expect(j.dry?.class).toBe('shelf-stable')
  })

  it('a file of the record that names no zone is judged at the worst any zone would make of it, until its start is stated', async () => {
    await made(house, '')
    const f = (await judge()).findings.find((x) => x.rule === 'us.ferment.degree-hours')!
    expect((await judge()).ferment?.chamber?.zone).toBe('unsaid')
    // 42 h instead of 28 h at about 75 °F above 60 °F.
    expect(f.measured).toBeGreaterThan(41 * 14.5)
    const curves = (await house.ledger.batch('B1'))!.curves
    await house.ledger.append(
      curves.map(({ seq, root: _root, at: _at, by: _by, ...body }) => ({
        kind: 'batch.curve' as const,
        by,
        body: { ...body, startsAt: body.purpose === 'ferment' ? '2026-03-02T08:00:00Z' : '2026-03-04T08:30:00Z' },
        corrects: seq,
        why: 'the logger runs on UTC',
      })),
    )
    expect((await judge()).ferment?.chamber?.zone).toBe('said')
    expect(await stops()).toEqual([])
  })

  const corrected = async (change: object, channel: object = {}): Promise<void> => {
    const { seq, root: _root, at: _at, by: _by, ...body } = (await house.ledger.batch('B1'))!.curves[0]!
    const channels = body.channels.map((c) => (c.role === 'house' ? { ...c, ...channel } : c))
    await house.ledger.append([
      { kind: 'batch.curve', by, body: { ...body, ...change, channels }, corrects: seq, why: 'as stated' },
    ])
  }
  const against = async () => (await stops()).find((f) => f.rule === 'record.ferment')?.because ?? ''

  it('a stated start that the clock of the file contradicts proves nothing', async () => {
    await made(house)
    await corrected({ startsAt: '2026-03-02T08:30:00Z' })
    expect(await stops()).toEqual([])
    await corrected({ startsAt: '2026-08-19T08:00:00Z' })
    expect(await against()).toMatch(/by its own clock/)
  })

  it('a correction that no check of the thermometer shows proves nothing', async () => {
    await made(house)
    await corrected({}, { offsetC: -0.2 })
    expect(await stops()).toEqual([])
    for (const offsetC of [-20, -1]) {
      await corrected({}, { offsetC })
      expect(await against()).toMatch(/no recorded check of its thermometer shows/)
    }
  })

  it('a unit answered against the one in the file, and air below freezing in a fermentation, prove nothing', async () => {
    await made(house)
    await corrected({ reading: { unit: 'F' } })
    expect(await against()).toMatch(/and °F was answered/)
    const { ledger } = house
    const text = log('2026-03-02T08:00:00Z', 48, 'Chamber °F,RH %', () => '22,90')
    const cold = (await ledger.putFile(bytes(text))).sha256
    await corrected({ reading: {}, file: cold }, { column: 'Chamber °F' })
    expect(await against()).toMatch(/-5\.6 °C in a fermentation/)
  })

  it('36 °C in a column headed °F, or answered as °F, counts no degree-hours and releases nothing', async () => {
    await made(house)
    const { ledger } = house
    for (const [head, reading] of [
      ['Chamber °F', {}],
      ['Chamber', { unit: 'F' }],
    ] as const) {
      const file = (await ledger.putFile(bytes(log('2026-03-02T08:00:00Z', 48, `${head},RH %`, () => '36,90')))).sha256
      await corrected({ reading, file }, { column: head })
      expect(await against()).toMatch(/reads 2\.2 °C, in which no mix sours/)
      expect((await stops()).map((f) => f.rule)).toContain('us.ferment.degree-hours')
    }
  })

  it('a drying below freezing is none: its unit is wrong', async () => {
    await made(house)
    const { ledger } = house
    const room = (await ledger.putFile(bytes(log('2026-03-04T08:30:00Z', 24 * 17, 'Room °F', () => '28')))).sha256
    const { seq, root: _root, at: _at, by: _by, ...body } = (await ledger.batch('B1'))!.curves[1]!
    const channels = body.channels.map((c) => ({ ...c, column: 'Room °F' }))
    await ledger.append([
      { kind: 'batch.curve', by, body: { ...body, file: room, channels }, corrects: seq, why: 'as logged' },
    ])
    expect(await against()).toMatch(/-2\.2 °C in a drying/)
  })

  it('a column of the air that is left out though it is warmer keeps the log from proving anything', async () => {
    await made(house)
    const { ledger } = house
    const two = async (top: string, column: string) =>
      (
        await ledger.putFile(
          bytes(log('2026-03-02T08:00:00Z', 48, `${column},Chamber °C,RH %`, () => `${top},23.8,90`)),
        )
      ).sha256
    const { seq, root: _root, at: _at, by: _by, ...body } = (await ledger.batch('B1'))!.curves[0]!
    const left = async (top: string, column: string, ignored = true) => {
      const last = (await ledger.batch('B1'))!.curves.find((c) => c.purpose === 'ferment')!.seq
      const channels = [...body.channels, ...(ignored ? [{ column, role: 'ignore' as const }] : [])]
      await ledger.append([
        {
          kind: 'batch.curve',
          by,
          body: { ...body, file: await two(top, column), channels },
          corrects: last,
          why: 'two columns',
        },
      ])
      return against()
    }
    expect(seq).toBeGreaterThan(0)
    expect(await left('36.0', 'Air top °C')).toMatch(
      /Air top °C of chamber\.csv is left out, and reads up to 12\.2 °C warmer/,
    )
    expect((await judge()).findings.find((f) => f.rule === 'us.ferment.degree-hours')?.verdict).toBe('cannot-tell')
    expect(await left('36.0', 'Air top °C', false)).toMatch(/left out/)
    expect(await left('24.2', 'Air top °C')).toBe('')
    expect(await left('36.0', 'Outside °C')).toBe('')
  })

  it('a scale found bad in the middle of the drying casts doubt, though it was good on the day of the batch', async () => {
    await made(house)
    await house.ledger.append([
      {
        kind: 'instrument.check',
        by,
        body: {
          instrument: 'S2',
          method: 'test-load',
          reference: 500,
          reading: 503,
          unit: 'g',
          tolerance: 0.1,
          on: '2026-03-18',
        },
      },
    ])
    expect((await stops()).map((f) => f.rule)).toContain('record.instrument-doubt')
  })

  it('moved after four hours to a room without a log, or out of every room, it is not known from then on', async () => {
    await made(house)
    const { ledger } = house
    const room = (code: string, purpose: 'ferment' | 'cold', tempC: number): Draft => ({
      kind: 'room.add',
      by,
      body: { room: code, name: code, purpose, tempC },
    })
    const put = (at: string, code?: string): Draft => ({
      kind: 'batch.place',
      by,
      body: { batch: 'B1', at, ...(code === undefined ? {} : { room: code }) },
    })
    await ledger.append([room('F', 'ferment', 24), room('G', 'ferment', 36), put('2026-03-02T08:00:00Z', 'F')])
    expect(await stops()).toEqual([])
    await ledger.append([put('2026-03-02T12:00:00Z', 'G')])
    expect(await against()).toMatch(/from 2026-03-02 12:00 on it hung in G/)
    expect((await stops()).map((f) => f.rule)).toContain('us.ferment.degree-hours')
  })

  it('a check recorded after the last use changes nothing that was signed', async () => {
    await made(house)
    const before = (await house.ledger.batch('B1'))!.checks
    await house.ledger.append([check('T2', 'ice-point', '2026-06-01', '°C', 0.5)])
    expect((await house.ledger.batch('B1'))!.checks).toEqual(before)
  })
})
