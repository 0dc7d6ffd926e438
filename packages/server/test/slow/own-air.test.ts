import type { Draft } from '@forcemeat/ledger'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { dryingRecordOf } from '../../src/paper/drying-record-of.ts'
import type { SlowBatch } from '../../src/plan/slow.ts'
import type { FermentView } from '../../src/slow/ferment-view.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const begin = Date.parse('2026-03-02T08:00:00Z')
const at = (hours: number): string => new Date(begin + hours * 3_600_000).toISOString()
let house: House

const place = (room: string, hours: number): Draft => ({
  kind: 'batch.place',
  by,
  body: { batch: 'B1', room, at: at(hours) },
})
const room = (name: string, tempC: number): Draft => ({
  kind: 'room.add',
  by,
  body: { room: name, name, purpose: 'ferment', tempC },
})
const measure = (body: object): Draft => ({ kind: 'batch.measure', by, body: { batch: 'B1', ...body } }) as Draft

beforeEach(async () => {
  house = await openHouse()
  await house.ledger.append([
    { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
    { kind: 'kitchen.set', by, body: { name: 'Brackwater', jurisdictions: ['US'], units: 'metric', demo: true } },
    {
      kind: 'instrument.add',
      by,
      body: { instrument: 'T1', type: 'logger', name: 'T1', toleranceC: 0.3, checkEveryDays: 30 },
    },
    { kind: 'instrument.add', by, body: { instrument: 'PH', type: 'ph-meter', name: 'PH', checkEveryDays: 1 } },
    ...[4.01, 7].map((reference) => ({
      kind: 'instrument.check',
      by,
      body: {
        instrument: 'PH',
        method: 'buffer',
        reference,
        reading: reference,
        unit: 'pH',
        tolerance: 0.02,
        on: '2026-03-03',
      },
    })),
    room('F', 24),
    room('G', 36),
    {
      kind: 'recipe.save',
      by,
      body: {
        recipe: 'stick',
        version: 1,
        body: {
          name: 'Slow stick',
          kind: 'fermented',
          smoked: false,
          readyToEat: true,
          route: 'comminuted',
          meat: [{ material: 'beef-chuck', pct: 100 }],
          additions: [
            { material: 'salt', pct: 2.7 },
            { material: 'starter-culture', pct: 0.02 },
          ],
          casing: { calibreMm: 40 },
          ferment: { targetPh: 5.2 },
        },
      },
    },
    {
      kind: 'batch.plan',
      by,
      body: {
        batch: 'B1',
        recipe: 'stick',
        version: 1,
        on: '2026-03-02',
        meatKg: 20,
        jurisdictions: ['US'],
        lines: [{ line: '1', material: 'beef-chuck', targetKg: 20 }],
      },
    },
    measure({ step: 'stuff', what: 'note', taken: at(0), note: 'stuffed' }),
  ] as Draft[])
})
afterEach(() => house.close())

/** A chamber's log of constant air, a reading every half hour. */
async function chamber(from: number, hours: number, value: number, unit = '°C'): Promise<void> {
  const rows = Array.from({ length: 2 * hours + 1 }, (_, i) => `${at(from + i / 2).slice(0, 19)}Z,${value.toFixed(1)}`)
  const text = [`time,Chamber ${unit}`, ...rows, ''].join('\n')
  const { sha256 } = await house.ledger.putFile(new TextEncoder().encode(text))
  await house.ledger.append([
    {
      kind: 'batch.curve',
      by,
      body: {
        batch: 'B1',
        purpose: 'ferment',
        file: sha256,
        fileName: 'chamber.csv',
        reading: {},
        channels: [{ column: `Chamber ${unit}`, role: 'house', instrument: 'T1' }],
      },
    },
  ])
}

const page = async (): Promise<FermentView> => (await house.ask('GET', '/api/batches/B1/ferment')).body as never
const us = ({ systems }: FermentView) => systems.find((s) => s.jurisdiction === 'US')!
const counted = async (): Promise<number | undefined> =>
  (await judged(house.ledger, (await house.ledger.batch('B1'))!)).findings.find(
    (f) => f.rule === 'us.ferment.degree-hours',
  )?.measured
const today = async (): Promise<SlowBatch> =>
  ((await house.ask('GET', '/api/slow')).body as { batches: SlowBatch[] }).batches.find((b) => b.batch === 'B1')!

it('the page counts a batch from when it went in, as its judgement does, whatever the chamber logged before', async () => {
  await chamber(-96, 108, 23.8)
  await house.ledger.append([place('F', 0), measure({ step: 'ferment', what: 'ph', value: 5.7, taken: at(10) })])
  const view = await page()
  // 23.8 °C is 74.84 °F, 14.84 °F over the base of 60 °F, for the 12 h it hung there.
  expect(us(view).degreeHours).toBeCloseTo(14.84 * 12, 1)
  expect(us(view).degreeHours).toBeCloseTo((await counted())!, 0)
  expect(us(view).hoursLeft).toBeGreaterThan(60)
  expect(view.from).toBe(at(0))
  expect(view.notes.join()).toContain('before the batch went in')
  const listed = (await today()).hoursLeft!.find((h) => h.jurisdiction === 'US')!
  expect(listed.hoursLeft).toBeCloseTo(us(view).hoursLeft!, 6)
  const paper = await dryingRecordOf(house.ledger, (await house.ledger.batch('B1'))!, 'A4')
  expect(us(paper.ferment).degreeHours).toBeCloseTo(us(view).degreeHours, 6)
})

it('the page says that nothing is known from a move into a room without a log on, as its judgement does', async () => {
  await chamber(0, 48, 23.8)
  await house.ledger.append([place('F', 0), place('G', 4)])
  const view = await page()
  expect(us(view).degreeHours).toBeCloseTo(14.84 * 4, 1)
  expect(view.to).toBe(at(4))
  expect(view.notes).toContain('from 2026-03-02 12:00 on it hung in G, of which there is no log')
  expect((await today()).hoursDoubts).toContain('from 2026-03-02 12:00 on it hung in G, of which there is no log')
})

it('the page says that the unit of a log may be wrong where no mix sours in what it reads, as its judgement does', async () => {
  await chamber(0, 60, 36, '°F')
  await house.ledger.append([
    place('F', 0),
    measure({ step: 'ferment', what: 'ph', value: 5.1, taken: at(28), instrument: 'PH' }),
  ])
  const view = await page()
  expect(us(view).degreeHours).toBe(0)
  expect(view.notes.join()).toContain('in which no mix sours so fast')
  expect(view.notes.join()).toContain('its unit, or its room, is wrong')
})
