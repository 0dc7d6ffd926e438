import type { Draft } from '@forcemeat/ledger'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { DryView } from '../../src/slow/dry-view.ts'
import type { FermentView } from '../../src/slow/ferment-view.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
let house: House
const begin = Date.parse('2026-03-02T08:00:00Z')
const at = (hours: number): string => new Date(begin + hours * 3_600_000).toISOString()

const instrument = (name: string, type: string, more: object = {}): Draft =>
  ({ kind: 'instrument.add', by, body: { instrument: name, type, name, checkEveryDays: 30, ...more } }) as Draft
const buffer = (on: string, reading = 4.01, reference = 4): Draft => ({
  kind: 'instrument.check',
  by,
  body: { instrument: 'PH', method: 'buffer', reference, reading, unit: 'pH', tolerance: 0.05, on },
})
const measure = (body: object): Draft => ({ kind: 'batch.measure', by, body: { batch: 'B1', ...body } }) as Draft
const ph = (hours: number, value: number): Draft =>
  measure({ step: 'ferment', what: 'ph', value, taken: at(hours), instrument: 'PH' })
const weight = (piece: string, day: number, g: number): Draft =>
  measure({ step: 'dry', what: 'weight', unit: 'g', piece, value: g, taken: at(24 * day) })

const kitchen: readonly Draft[] = [
  { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
  { kind: 'kitchen.set', by, body: { name: 'Brackwater', jurisdictions: ['US'], units: 'metric', demo: true } },
  instrument('T1', 'logger', { toleranceC: 0.3 }),
  instrument('PH', 'ph-meter'),
  {
    kind: 'room.add',
    by,
    body: { room: 'R1', name: 'Long room', purpose: 'dry', tempC: 13, rhPct: 79, airSpeedMPerS: 0.1 },
  },
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'slow',
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
        dry: { lossPct: 30, days: 35 },
      },
    },
  },
  {
    kind: 'batch.plan',
    by,
    body: {
      batch: 'B1',
      recipe: 'slow',
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
] as readonly Draft[]

/** A chamber's log of constant air, a reading every half hour. */
async function chamber(from: number, hours: number, tempC: number, rhPct: number, purpose = 'ferment'): Promise<void> {
  const rows = Array.from(
    { length: 2 * hours + 1 },
    (_, i) => `${at(from + i / 2).slice(0, 19)}Z;${tempC.toFixed(1)};${rhPct}`,
  )
  const text = ['Time;Air;Humidity', ';°C;%RH', ...rows, ''].join('\n')
  const { sha256 } = await house.ledger.putFile(new TextEncoder().encode(text))
  await house.ledger.append([
    {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'B1',
        purpose,
        file: sha256,
        fileName: `${purpose}.csv`,
        reading: {},
        channels: [
          { column: 'Air', role: 'house', instrument: 'T1' },
          { column: 'Humidity', role: 'humidity', instrument: 'T1' },
        ],
      },
    } as Draft,
  ])
}

const ferment = async (): Promise<FermentView> => (await house.ask('GET', '/api/batches/B1/ferment')).body as never
const dry = async (): Promise<DryView> => (await house.ask('GET', '/api/batches/B1/dry')).body as never

beforeEach(async () => {
  house = await openHouse()
  await house.ledger.append(kitchen)
})
afterEach(() => house.close())

describe('a fermentation read out of the record', () => {
  it('counts the degrees above 60 °F and 15.6 °C times hours, with the hours left at the last temperature (AMIF 1997; CFIA 4.16)', async () => {
    await chamber(0, 20, 25.6, 90)
    const { systems, lastTempC } = await ferment()
    const of = (place: string) => systems.find((s) => s.jurisdiction === place)!
    // 10 °C over the Canadian base for 20 h; 25.6 °C is 78.08 °F, 18.08 °F over the base of the other.
    expect(of('CA').degreeHours).toBeCloseTo(200, 6)
    expect(of('CA').hoursLeft).toBeCloseTo((665 - 200) / 10, 6)
    expect(of('CA').runsOutAt).toBe(at(20 + 46.5))
    expect(of('US').degreeHours).toBeCloseTo(18.08 * 20, 6)
    expect(of('US').hoursLeft).toBeCloseTo(1200 / 18.08 - 20, 6)
    expect(lastTempC).toBe(25.6)
  })

  it('ends the count at a pH of a meter calibrated that day, and at no other', async () => {
    await chamber(0, 40, 25.6, 90)
    await house.ledger.append([ph(30, 5.2)])
    const unproven = await ferment()
    expect(unproven.readings[0]).toMatchObject({ ph: 5.2, calibrated: false })
    expect(unproven.systems.every((s) => s.hoursToTarget === undefined && s.hoursLeft !== undefined)).toBe(true)
    expect(unproven.findings.find((f) => f.rule === 'us.ferment.degree-hours')?.verdict).toBe('cannot-tell')
    await house.ledger.append([buffer('2026-03-03'), buffer('2026-03-03', 7.01, 7)])
    const proven = await ferment()
    expect(proven.readings[0]).toMatchObject({ calibrated: true })
    expect(proven.systems.map((s) => s.hoursToTarget)).toEqual([30, 30])
    expect(proven.systems.every((s) => s.hoursLeft === undefined)).toBe(true)
  })

  it('does not believe a meter that failed its buffer that day', async () => {
    await house.ledger.append([buffer('2026-03-02', 4.3), ph(2, 5.1)])
    expect((await ferment()).readings[0]).toMatchObject({ calibrated: false })
  })

  it('shows a hole between two logs as one, and says that it is not counted', async () => {
    await chamber(0, 10, 25.6, 90)
    await chamber(16, 10, 25.6, 90)
    const view = await ferment()
    expect(view.tempC).toContain(null)
    expect(view.systems[0]!.hole!.from).toBeCloseTo(10, 6)
    expect(view.systems[0]!.hole!.to).toBeCloseTo(16, 4)
    expect(view.systems.find((s) => s.jurisdiction === 'CA')!.degreeHours).toBeCloseTo(200, 6)
  })

  it('takes the warmer of two recorders that ran at once', async () => {
    await chamber(0, 20, 24, 90)
    await chamber(0, 20, 26, 90)
    const view = await ferment()
    expect(view.systems[0]!.highestC).toBe(26)
    expect(view.notes).toContain('two recorders ran at once: the warmer one is shown and counted')
  })

  it('takes readings that still come in', async () => {
    const readings = Array.from({ length: 13 }, (_, i) => ({ at: at(i / 4), channel: 'chamber', tempC: 25.6 }))
    expect((await house.ask('POST', '/api/feed/B1/readings', readings)).status).toBe(201)
    const view = await ferment()
    expect(view.live).toBe(true)
    expect(view.systems.find((s) => s.jurisdiction === 'CA')!.degreeHours).toBeCloseTo(30, 6)
    const close = { by, purpose: 'ferment', channels: [{ channel: 'chamber', role: 'house', instrument: 'T1' }] }
    expect((await house.ask('POST', '/api/feed/B1/close', close)).status).toBe(201)
    const closed = await ferment()
    expect(closed.live).toBe(false)
    expect(closed.systems.find((s) => s.jurisdiction === 'CA')!.degreeHours).toBeCloseTo(30, 6)
  })

  it('goes on in the room it was moved to: no hours run out of a chamber it has left', async () => {
    await chamber(0, 20, 24, 90)
    await chamber(20.5, 100, 14, 78, 'dry')
    await house.ledger.append([
      measure({ step: 'stuff', what: 'note', taken: at(0), note: 'stuffed' }),
      { kind: 'batch.place', by, body: { batch: 'B1', room: 'R1', at: at(20.5) } },
    ])
    const view = await ferment()
    expect(view.systems.every((s) => s.hoursLeft === undefined && s.runsOutAt === undefined)).toBe(true)
    expect(view.lastTempC).toBe(14)
    expect(view.to).toBe(at(120.5))
    expect(view.systems.find((s) => s.jurisdiction === 'CA')!.degreeHours).toBeGreaterThan(20 * 8.4)
    const listed = (
      (await house.ask('GET', '/api/slow')).body as { batches: readonly { batch: string; hoursLeft?: unknown }[] }
    ).batches
    expect(listed.find((b) => b.batch === 'B1')).toBeDefined()
    expect(listed.find((b) => b.batch === 'B1')?.hoursLeft).toBeUndefined()
  })

  it('a drying logged after the target was measured is no part of the count', async () => {
    await chamber(0, 40, 25.6, 90)
    await chamber(40.5, 20, 30, 78, 'dry')
    await house.ledger.append([ph(30, 5.2), buffer('2026-03-03'), buffer('2026-03-03', 7.01, 7)])
    const view = await ferment()
    expect(view.systems.map((s) => s.hoursToTarget)).toEqual([30, 30])
    expect(view.to).toBe(at(40))
  })

  it('of nothing recorded counts nothing and says no verdict', async () => {
    const view = await ferment()
    expect(view).toMatchObject({ minutes: [], systems: [], readings: [], live: false })
    expect(view.findings.every((f) => f.verdict !== 'pass')).toBe(true)
  })

  it('of a batch nobody planned is not there', async () => {
    for (const of of ['ferment', 'dry']) expect((await house.ask('GET', `/api/batches/NONE/${of}`)).status).toBe(404)
  })
})

describe('a drying read out of the record', () => {
  it('leaves a culture of unknown composition out of the mix, and says so', async () => {
    const view = await dry()
    expect(view.missing).toEqual([])
    expect(view.piece!.composition.waterPct).toBeGreaterThan(40)
    expect(view.notes.some((n) => /culture.*composition not known/i.test(n))).toBe(true)
  })

  it('counts days from the first weight, and losses against it', async () => {
    await house.ledger.append([
      weight('P1', 0, 800),
      weight('P2', 0, 820),
      weight('P1', 6, 720),
      weight('P2', 6, 754.4),
    ])
    const view = await dry()
    expect(view).toMatchObject({ start: at(0), startFrom: 'the first weight of a marked piece' })
    expect(view.marked.losses).toHaveLength(1)
    expect(view).toMatchObject({ left: { weightLossPct: 30 }, met: [] })
    expect(view.marked.losses[0]!).toMatchObject({ day: 6, weightLossPct: expect.closeTo(9, 9) as number })
  })

  it('takes the air ahead from the room it hangs in where the recipe names none, and assumes it where nothing says', async () => {
    expect((await dry()).notes.join()).toContain('nothing says what air it dries in')
    await house.ledger.append([{ kind: 'batch.place', by, body: { batch: 'B1', room: 'R1', at: at(30) } }])
    const view = await dry()
    expect(view.planned).toEqual([{ days: 35, tempC: 13, rhPct: 79, airSpeedMPerS: 0.1 }])
    expect(view.placements).toMatchObject([{ room: 'R1', roomName: 'Long room', at: at(30) }])
  })

  it('gives the log by the hour, humidity beside temperature', async () => {
    await house.ledger.append([weight('P1', 0, 800)])
    await chamber(0, 48, 22, 91, 'ferment')
    await chamber(48.5, 48, 14, 80, 'dry')
    const { log } = await dry()
    expect(log).toHaveLength(97)
    expect(log[0]).toEqual({ day: 0, tempC: 22, rhPct: 91 })
    expect(log.at(-1)).toEqual({ day: expect.closeTo(4, 4) as number, tempC: 14, rhPct: 80 })
  })

  it('keeps measured water activity and analyses with who and by what', async () => {
    await house.ledger.append([
      measure({ step: 'dry', what: 'aw', value: 0.905, taken: at(500) }),
      measure({ step: 'dry', what: 'moisture-protein', value: 1.6, taken: at(501) }),
    ])
    const view = await dry()
    expect(view.aws).toMatchObject([{ value: 0.905, by }])
    expect(view.moistureToProtein).toMatchObject([{ value: 1.6, by }])
    expect(view.left).toEqual({ weightLossPct: 30 })
  })

  it('holds a target met only by what its judgement counts: the end product, by a meter checked that day', async () => {
    const { ledger } = house
    const recipe = (await ledger.batch('B1'))!.recipeBody
    await ledger.append([
      instrument('AW', 'aw-meter'),
      {
        kind: 'recipe.save',
        by,
        body: {
          recipe: 'slow',
          version: 2,
          body: { ...recipe, dry: { lossPct: 30, targetAw: 0.91, targetMoistureToProtein: 1.9 } },
        },
      },
      {
        kind: 'batch.plan',
        by,
        body: {
          batch: 'B2',
          recipe: 'slow',
          version: 2,
          on: '2026-03-02',
          meatKg: 10,
          jurisdictions: ['US'],
          lines: [{ line: '1', material: 'pork-shoulder-trim', targetKg: 10 }],
        },
      },
    ])
    const of = (body: object): Draft => ({ kind: 'batch.measure', by, body: { batch: 'B2', ...body } }) as Draft
    const left = async () =>
      Object.keys(((await house.ask('GET', '/api/batches/B2/dry')).body as unknown as DryView).left)
    const all = ['weightLossPct', 'aw', 'moistureToProtein']
    await ledger.append([
      of({ step: 'mix', what: 'aw', value: 0.85, taken: at(-1) }),
      of({ step: 'mix', what: 'moisture-protein', value: 1.5, taken: at(-1) }),
      of({ step: 'dry', what: 'aw', value: 0.9, taken: at(500) }),
      of({ step: 'dry', what: 'aw', value: 0.9, taken: at(500), instrument: 'AW' }),
    ])
    expect(await left()).toEqual(all)
    const salt = {
      instrument: 'AW',
      method: 'salt-standard',
      reference: 0.753,
      reading: 0.753,
      unit: 'aw',
      tolerance: 0.005,
    }
    await ledger.append([
      { kind: 'instrument.check', by, body: { ...salt, on: at(530).slice(0, 10) } } as Draft,
      of({ step: 'dry', what: 'aw', value: 0.9, taken: at(530), instrument: 'AW' }),
      of({ step: 'dry', what: 'moisture-protein', value: 1.8, taken: at(530) }),
    ])
    expect(await left()).toEqual(['weightLossPct'])
  })
})
