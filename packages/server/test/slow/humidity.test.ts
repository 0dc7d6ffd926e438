import type { Draft } from '@forcemeat/ledger'
import { airSoFar } from '@forcemeat/craft/dry/air-so-far'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Feed } from '../../src/feed/store.ts'
import type { ChamberLog } from '../../src/slow/chamber.ts'
import type { DryView } from '../../src/slow/dry-view.ts'
import { feedLogs } from '../../src/slow/feed-log.ts'
import type { FermentView } from '../../src/slow/ferment-view.ts'
import { hourlyAir } from '../../src/slow/hourly-air.ts'
import { humidityAlong } from '../../src/slow/humidity.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const begin = Date.parse('2026-03-02T08:00:00Z')
const HOUR = 3_600_000
const at = (hours: number): string => new Date(begin + hours * HOUR).toISOString()
const span = (hours: number, step: number): number[] =>
  Array.from({ length: Math.round(hours / step) + 1 }, (_, i) => i * step)

const logOf = (
  name: string,
  points: readonly [hours: number, tempC: number | null, rhPct: number | null][],
): ChamberLog => ({
  seq: 1,
  name,
  columns: [name],
  instruments: [],
  notes: [],
  points: points.map(([h, tempC, rhPct]) => ({ at: begin + h * HOUR, highC: tempC, meanC: tempC, rhPct })),
})

describe('the humidity of a chamber read by a sensor of its own', () => {
  const temps = logOf(
    'temps',
    span(10, 0.25).map((h) => [h, 24, null]),
  )

  it('stands at its own instants along the temperatures, and ends where nobody read it', () => {
    const moist = logOf(
      'moist',
      [...span(3, 0.1), ...span(3, 0.1).map((h) => h + 6)].map((h) => [h + 0.003, null, 90]),
    )
    const along = humidityAlong([temps], [temps, moist])
    expect(along.filter((p) => p.rhPct !== null)).toHaveLength(62)
    expect(along.filter((p) => p.rhPct === null)).toEqual([{ at: begin + 6.003 * HOUR - 1, rhPct: null }])
  })

  it('gives way to the humidity of the log itself, and fills where that one is silent', () => {
    const own = logOf(
      'own',
      span(5, 0.25).map((h) => [h, 24, 88]),
    )
    const beside = logOf(
      'beside',
      span(10, 0.25).map((h) => [h + 0.1, null, 92]),
    )
    const along = humidityAlong([own], [own, beside]).filter((p) => p.rhPct !== null)
    expect(new Set(along.filter((p) => p.at <= begin + 5 * HOUR).map((p) => p.rhPct))).toEqual(new Set([88]))
    expect(along.filter((p) => p.at > begin + 5 * HOUR)).toHaveLength(21)
  })

  it('leaves no hole by the hour in a temperature read more seldom, nor that in it', () => {
    const seldom = logOf(
      'seldom',
      span(24, 2).map((h) => [h, 20 + h / 10, null]),
    )
    const moist = logOf(
      'moist',
      span(24, 0.5).map((h) => [h + 0.2, null, 80]),
    )
    const air = hourlyAir([seldom, moist], begin)
    expect(air.filter((r) => r.tempC === null || r.rhPct === null)).toEqual([])
    expect(air[3]).toEqual({ day: 0.125, tempC: expect.closeTo(20.3, 9) as number, rhPct: 80 })
    const other = hourlyAir(
      [
        logOf(
          't',
          span(24, 0.5).map((h) => [h, 20, null]),
        ),
        logOf(
          'm',
          span(24, 2).map((h) => [h + 0.1, null, 80]),
        ),
      ],
      begin,
    )
    expect(other.filter((r) => r.tempC === null || r.rhPct === null)).toEqual([])
  })

  it('does not hide a hole of the temperatures, nor is one of its own hidden', () => {
    const holed = logOf(
      'holed',
      [...span(5, 0.5), ...span(5, 0.5).map((h) => h + 15)].map((h) => [h, 20, null]),
    )
    const moist = logOf(
      'moist',
      span(20, 0.5).map((h) => [h + 0.1, null, 80]),
    )
    const air = hourlyAir([holed, moist], begin)
    expect(air.filter((r) => r.tempC === null).map((r) => Math.round(r.day * 24))).toEqual([
      6, 7, 8, 9, 10, 11, 12, 13, 14,
    ])
    expect(air.every((r) => r.rhPct === 80)).toBe(true)
  })

  it('alone is a log of the room as before', () => {
    const air = hourlyAir(
      [
        logOf(
          'moist',
          span(12, 0.5).map((h) => [h, null, 80]),
        ),
      ],
      begin,
    )
    expect(air).toHaveLength(13)
    expect(air.every((r) => r.tempC === null && r.rhPct === 80)).toBe(true)
    const { filledDays, stages } = airSoFar([{ days: 30, tempC: 14, rhPct: 70 }], air)
    expect(filledDays).toBeCloseTo(0.5, 6)
    expect(stages[0]).toMatchObject({ tempC: 14, rhPct: 80 })
  })
})

describe('readings that still come in, as logs of the chamber', () => {
  const feed = (readings: Feed['readings']): Feed => ({ batch: 'B1', opened: at(0), origin: begin, readings })
  const warm = (t: number, channel: string, value: number) => ({ t, channel, of: 'tempC' as const, value })
  const moist = (t: number, channel: string, value: number) => ({ t, channel, of: 'rhPct' as const, value })

  it('take a humidity under any name as the air’s, and a lone temperature beside it as the air too', () => {
    const logs = feedLogs(feed([warm(0, 'probe', 24), moist(0, 'S2', 90), moist(0, 'S3', 92), moist(1000, 'S2', 104)]))
    expect(logs.map((l) => l.columns)).toEqual([['probe'], ['S2', 'S3']])
    expect(logs[0]!.points).toEqual([{ at: begin, highC: 24, meanC: 24, rhPct: null }])
    // A second later the one sensor stands over saturation, and the other where it was.
    expect(logs[1]!.points.map((p) => p.rhPct)).toEqual([91, 96])
  })

  it('of several sensors read in turn give the warmest air and the mean humidity at every instant, no saw', () => {
    const minute = 60_000
    const turns = Array.from({ length: 20 }, (_, i) =>
      i % 2 === 0
        ? [warm(i * minute, 'chamber top', 30), moist(i * minute, 'rh 1', 80)]
        : [warm(i * minute, 'chamber low', 24), moist(i * minute, 'rh 2', 90)],
    ).flat()
    const [temps, humid] = feedLogs(feed(turns))
    // From the second instant on both are known: on the line between their readings, the last of each held.
    expect(new Set(temps!.points.slice(1).map((p) => p.highC))).toEqual(new Set([30]))
    expect(new Set(temps!.points.slice(1).map((p) => p.meanC))).toEqual(new Set([27]))
    expect(new Set(humid!.points.slice(1).map((p) => p.rhPct))).toEqual(new Set([85]))
    expect(temps!.points).toHaveLength(20)
  })

  it('hold no sensor’s last reading for longer than its readings may be joined', () => {
    const minute = 60_000
    const stopped = Array.from({ length: 10 }, (_, i) => warm(i * minute, 'chamber top', 30))
    const goes = Array.from({ length: 60 }, (_, i) => warm(i * minute + 30_000, 'chamber low', 24))
    const [temps] = feedLogs(feed([...stopped, ...goes]))
    expect(temps!.points.at(-1)!.highC).toBe(24)
    expect(temps!.points.find((p) => p.at === begin + 9.5 * minute)!.highC).toBe(30)
  })

  it('say what is missing where no temperature is named as the air, and keep the humidity', () => {
    const logs = feedLogs(feed([warm(0, 'core 1', 24), warm(0, 'core 2', 24), moist(0, 'humidity', 90)]))
    expect(logs[0]!.trouble).toContain('core 1, core 2) is named as the air')
    expect(logs[1]!.points).toHaveLength(1)
    expect(feedLogs(undefined)).toEqual([])
    expect(feedLogs(feed([]))).toEqual([])
  })
})

describe('a batch that sours and dries with humidity fed live', () => {
  let house: House
  const instrument = (name: string, type: string, more: object = {}): Draft =>
    ({ kind: 'instrument.add', by, body: { instrument: name, type, name, checkEveryDays: 30, ...more } }) as Draft
  const planned = (batch: string, cook: object = {}): Draft[] =>
    [
      {
        kind: 'recipe.save',
        by,
        body: {
          recipe: `r-${batch.toLowerCase()}`,
          version: 1,
          body: {
            name: 'Slow ring',
            kind: 'fermented',
            smoked: false,
            readyToEat: true,
            route: 'comminuted',
            meat: [
              { material: 'pork-shoulder-trim', pct: 70 },
              { material: 'pork-back-fat', pct: 30 },
            ],
            additions: [
              { material: 'salt', pct: 2.7 },
              { material: 'starter-culture', pct: 0.02 },
            ],
            casing: { calibreMm: 45 },
            ferment: { targetPh: 5.3 },
            dry: { lossPct: 30, days: 35, stages: [{ days: 35, tempC: 14, rhPct: 70 }] },
            ...cook,
          },
        },
      },
      {
        kind: 'batch.plan',
        by,
        body: {
          batch,
          recipe: `r-${batch.toLowerCase()}`,
          version: 1,
          on: '2026-03-02',
          meatKg: 10,
          jurisdictions: ['US'],
          lines: [
            { line: '1', material: 'pork-shoulder-trim', targetKg: 7 },
            { line: '2', material: 'pork-back-fat', targetKg: 3 },
            { line: '3', material: 'salt', targetKg: 0.27 },
            { line: '4', material: 'starter-culture', targetKg: 0.002 },
          ],
        },
      },
    ] as Draft[]

  beforeEach(async () => {
    house = await openHouse()
    await house.ledger.append([
      { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
      { kind: 'kitchen.set', by, body: { name: 'Brackwater', jurisdictions: ['US'], units: 'metric', demo: true } },
      instrument('T1', 'logger', { toleranceC: 0.3 }),
      ...planned('B1'),
      {
        kind: 'batch.measure',
        by,
        body: { batch: 'B1', step: 'dry', what: 'weight', unit: 'g', piece: 'P1', value: 800, taken: at(0) },
      },
    ] as Draft[])
  })
  afterEach(() => house.close())

  const view = async <T>(of: string, batch = 'B1'): Promise<T> =>
    (await house.ask('GET', `/api/batches/${batch}/${of}`)).body as T
  const ferment = () => view<FermentView>('ferment')
  const dry = () => view<DryView>('dry')
  const post = async (readings: object[], batch = 'B1'): Promise<void> => {
    const answer = await house.ask('POST', `/api/feed/${batch}/readings`, readings)
    expect(answer.status, JSON.stringify(answer.body)).toBe(201)
  }
  const temps = span(24, 0.25).map((h) => ({ at: at(h), channel: 'chamber', tempC: 25.6 }))
  // Every ten minutes, seven seconds later than any temperature.
  const humid = span(23, 1 / 6).map((h) => ({ at: at(h + 7 / 3600), channel: 'humidity', rhPct: 90 + h / 10 }))

  it('shows it in the ferment view at its own instants, and counts degree-hours without a hole', async () => {
    await post([...temps, ...humid])
    const live = await ferment()
    expect(live.live).toBe(true)
    expect(live.tempC).not.toContain(null)
    expect(live.humidity).toHaveLength(humid.length)
    expect(live.humidity[0]).toEqual({ at: at(7 / 3600), rhPct: 90 })
    // 10 °C over 15.6 °C for 24 h.
    expect(live.systems.find((s) => s.jurisdiction === 'CA')).toMatchObject({
      degreeHours: expect.closeTo(240, 6) as number,
    })
    expect(live.systems[0]!.hole).toBeUndefined()
    expect(live.sources.map((s) => s.columns)).toEqual([['chamber'], ['humidity']])
    expect(live.notes.join()).not.toContain('two recorders')
  })

  it('reckons the drying with it while it comes in, and with the same once it is closed', async () => {
    await post([...temps, ...humid])
    const [sour, live] = [await ferment(), await dry()]
    expect(live.log).toHaveLength(25)
    expect(live.log.slice(0, 23).every((r) => r.tempC === 25.6 && r.rhPct! >= 90)).toBe(true)
    expect(airSoFar(live.planned, live.log).stages[0]!.rhPct).toBeGreaterThan(89)
    expect(live.notes.join()).toContain('readings that still come in')
    const closed = await house.ask('POST', '/api/feed/B1/close', {
      by,
      purpose: 'ferment',
      channels: [
        { channel: 'chamber', role: 'house', instrument: 'T1' },
        { channel: 'humidity', role: 'humidity' },
      ],
    })
    expect(closed.status, JSON.stringify(closed.body)).toBe(201)
    expect((await house.ledger.batch('B1'))!.curves).toHaveLength(2)
    const after = await dry()
    expect(after.log).toEqual(live.log)
    expect(after.notes.join()).not.toContain('readings that still come in')
    const soured = await ferment()
    expect(soured.humidity).toEqual(sour.humidity)
    expect(soured.systems).toEqual(sour.systems)
  })

  it('is judged as before: a file of its humidity alone is no log without air', async () => {
    await post([...temps, ...humid])
    await house.ask('POST', '/api/feed/B1/close', {
      by,
      purpose: 'ferment',
      channels: [
        { channel: 'chamber', role: 'house', instrument: 'T1' },
        { channel: 'humidity', role: 'humidity' },
      ],
    })
    const { findings } = (await house.ask('GET', '/api/batches/B1')).body as {
      findings: { rule: string; because: string }[]
    }
    expect(findings.find((f) => f.rule === 'record.ferment')!.because).not.toContain('no channel of the air')
  })

  it('is shown where it comes in alone, with nothing counted', async () => {
    await post(humid)
    const live = await ferment()
    expect(live).toMatchObject({ live: true, minutes: [], systems: [] })
    expect(live.humidity).toHaveLength(humid.length)
    expect((await dry()).log.every((r) => r.tempC === null && r.rhPct !== null)).toBe(true)
    expect((await house.ask('GET', '/api/slow')).status).toBe(200)
  })

  it('of a batch that is cooked between is no drying’s air before it is weighed or hung to dry', async () => {
    await house.ledger.append(planned('B2', { cook: { targetCoreC: 60 } }))
    await post(
      span(6, 0.1).map((h) => ({ at: at(h + 30), channel: 'house', tempC: 70 })),
      'B2',
    )
    expect((await view<DryView>('dry', 'B2')).log).toEqual([])
  })
})
