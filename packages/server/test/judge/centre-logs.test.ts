import type { Draft } from '@forcemeat/ledger'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { openHouse, type House } from '../support.ts'

const by = 'ana'
const lines = [{ line: '1', material: 'pork-shoulder-trim', targetKg: 20, scale: 'S1', lot: 'L1' }]
const kitchen = [
  { kind: 'person.add', by, body: { person: by, name: 'Ana Brook', role: 'owner' } },
  {
    kind: 'kitchen.set',
    by,
    body: { name: 'Brackwater Smokehouse', jurisdictions: ['US'], units: 'metric', demo: true },
  },
  {
    kind: 'instrument.add',
    by,
    body: { instrument: 'S1', type: 'scale', name: 'scale', readabilityG: 5, toleranceG: 5, checkEveryDays: 30 },
  },
  {
    kind: 'instrument.add',
    by,
    body: { instrument: 'T2', type: 'logger', name: 'freezer logger', toleranceC: 0.5, checkEveryDays: 30 },
  },
  {
    kind: 'instrument.check',
    by,
    body: {
      instrument: 'T2',
      method: 'ice-point',
      reference: 0,
      reading: 0,
      unit: '°C',
      tolerance: 0.5,
      on: '2026-02-01',
    },
  },
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'stick',
      version: 1,
      body: {
        name: 'Slow stick',
        kind: 'dried',
        smoked: false,
        readyToEat: true,
        meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
        additions: [],
        dry: { lossPct: 35 },
      },
    },
  },
] as unknown as Draft[]

const rows = (stamp: (hour: number) => string, hours: number, value: (hour: number) => number, head: string): string =>
  [head, ...Array.from({ length: 2 * hours + 1 }, (_, i) => `${stamp(i / 2)},${value(i / 2)}`)].join('\n')
const elapsed = (head = 'minute,Centre °C') =>
  rows(
    (h) => String(h * 60),
    116,
    () => -18.6,
    head,
  )
const dated = (from: string, head = 'time,Centre °C', value: (h: number) => number = (h) => (h < 10 ? -10 : -18.6)) =>
  rows((h) => new Date(Date.parse(from) + h * 3_600_000).toISOString().slice(0, 19) + 'Z', 130, value, head)

describe('a centre log from its file', () => {
  let house: House
  beforeEach(async () => {
    house = await openHouse()
    await house.ledger.append(kitchen)
  })
  afterEach(() => house.close())

  async function meat(text: string, more: object = {}, came = '2026-02-10') {
    const { ledger } = house
    const file = (await ledger.putFile(new TextEncoder().encode(text))).sha256
    await ledger.append([
      { kind: 'lot.receive', by, body: { lot: 'L1', material: 'pork-shoulder-trim', kg: 30, on: came } },
      {
        kind: 'lot.treat',
        by,
        body: {
          lot: 'L1',
          way: 'frozen-centre',
          on: '2026-03-01',
          file,
          fileName: 'centre.csv',
          instrument: 'T2',
          ...more,
        },
      },
      {
        kind: 'batch.plan',
        by,
        body: { batch: 'B1', recipe: 'stick', version: 1, on: '2026-03-02', meatKg: 20, jurisdictions: ['US'], lines },
      },
      { kind: 'batch.weigh', by, body: { batch: 'B1', line: '1', kg: 20, instrument: 'S1' } },
    ] as Draft[])
    return judged(ledger, (await ledger.batch('B1'))!).then((j) => j.meats[0]!)
  }

  it('of 116 hours without dates does not fit a lot that came in the day before', async () => {
    expect(await meat(elapsed(), {}, '2026-03-01')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/bears no date/),
    })
  })
  it('without dates passes with its beginning stated and the time for it', async () => {
    expect(await meat(elapsed(), { from: '2026-02-12T00:00:00Z' })).toMatchObject({ verdict: 'pass' })
  })
  it('without dates is longer than the hour that was typed', async () => {
    const typed = { from: '2026-02-20T08:00:00Z', until: '2026-02-20T09:00:00Z' }
    expect(await meat(elapsed(), typed)).toMatchObject({ verdict: 'cannot-tell' })
  })
  it('whose heading names no unit is asked, and read by the answer kept with it', async () => {
    const from = '2026-02-12T00:00:00Z'
    expect(await meat(dated(from, 'time,Centre'))).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/unit/i),
    })
  })
  it('is read by the unit said, °C or °F', async () => {
    const from = '2026-02-12T00:00:00Z'
    const f = (h: number): number => (h < 10 ? 14 : -1.5)
    expect(await meat(dated(from, 'time,Centre', f), { reading: { unit: 'F' } })).toMatchObject({ verdict: 'pass' })
  })
  it('whose column is called like a room is asked about', async () => {
    const text = dated('2026-02-12T00:00:00Z', 'time,Room °C')
    expect(await meat(text, { column: 'Room °C' })).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/called like the air/),
    })
  })
})
