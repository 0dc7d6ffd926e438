import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { hashHolds, subjectRecord } from '../src/paper/subject-record.ts'
import { openHouse, smallKitchen, type House } from './support.ts'

const by = 'ana'
const check = (on: string, reading: number): Draft => ({
  kind: 'instrument.check',
  by,
  body: { instrument: 'BENCH-30', method: 'test-load', reference: 1000, reading, unit: 'g', tolerance: 5, on },
})

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append([
    ...smallKitchen,
    check('2026-11-18', 1001),
    { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', kg: 20 } },
    check('2026-11-24', 1020),
    {
      kind: 'deviation.open',
      by,
      body: {
        deviation: 'D-1',
        on: '2026-11-24',
        about: [{ type: 'instrument', id: 'BENCH-30' }],
        what: 'scale 20 g off',
      },
    },
  ])
})
afterAll(() => house.close())

describe('the record of anything on paper', () => {
  it('is printed for each kind of thing, on both sizes, and 404 where there is nothing of that name', async () => {
    for (const path of ['lot/PS-1', 'batch/B-1', 'instrument/BENCH-30', 'deviation/D-1', 'recipe/HUNTER'])
      for (const size of ['A4', 'Letter']) {
        const response = await house.app.request(`/paper/record/${path}.pdf?size=${size}`)
        expect([response.status, response.headers.get('content-type')], path).toEqual([200, 'application/pdf'])
      }
    for (const path of ['lot/NONE', 'person/ana', 'constructor/x', 'nothing/x'])
      expect((await house.app.request(`/paper/record/${path}.pdf`)).status, path).toBe(404)
  })

  it('of a list of entries takes a kind and a text, and refuses a kind there is not', async () => {
    const ask = async (query: string) => (await house.app.request(`/paper/entries.pdf${query}`)).status
    expect(await ask('')).toBe(200)
    expect(await ask('?kind=instrument.check&q=BENCH')).toBe(200)
    expect(await ask('?q=nothing+is+like+this')).toBe(200)
    expect(await ask('?kind=nope')).toBe(400)
    expect(await ask('?after=-1')).toBe(400)
  })

  it('holds each entry, its hash recomputed, who corrected it and why', async () => {
    const [first] = await house.ledger.entries({ about: 'instrument:BENCH-30', limit: 1 })
    expect(hashHolds(first!)).toBe(true)
    expect(hashHolds({ ...first!, by: 'somebody' })).toBe(false)
    const entries = await house.ledger.entries({ about: 'instrument:BENCH-30' })
    const paper = (list: typeof entries) =>
      JSON.stringify(
        subjectRecord({
          kitchen: { name: 'K', demo: true, units: 'metric' },
          batch: '',
          foot: 'Instrument BENCH-30',
          head: { seq: 9, hash: 'f'.repeat(64), at: '2026-11-25T08:00:00.000Z' },
          size: 'A4',
          title: 'Instrument BENCH-30',
          entries: list,
          photos: [],
          nameOf: (code) => (code === 'ana' ? 'Ana Brook' : code),
        }).content,
      )
    const said = paper(entries)
    for (const e of entries) expect(said).toContain(e.hash)
    expect(said).toContain('Ana Brook (ana)')
    expect(said).toContain('is the one recorded')
    expect(paper([{ ...entries[0]!, by: 'somebody' }])).toContain('NOT AS RECORDED')
    const old = entries.find((e) => e.kind === 'instrument.check')!
    const [put] = await house.ledger.append([
      { ...check('2026-11-18', 1002), corrects: old.seq, why: 'misread the last digit' },
    ])
    const after = paper(await house.ledger.entries({ about: 'instrument:BENCH-30' }))
    expect(after).toContain('misread the last digit')
    expect(after).toContain(`corrected by entry ${put!.seq}`)
  })
})

describe('records on paper', () => {
  it('of an instrument and of a deviation are printed on both sizes', async () => {
    for (const path of ['/paper/instrument/BENCH-30.pdf', '/paper/instrument/SPICE-3.pdf', '/paper/deviation/D-1.pdf'])
      for (const size of ['A4', 'Letter']) {
        const response = await house.app.request(`${path}?size=${size}`)
        expect([response.status, response.headers.get('content-type')], path).toEqual([200, 'application/pdf'])
        expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(8_000)
      }
  })

  it('of what is not there are 404', async () => {
    for (const path of ['/paper/instrument/NONE.pdf', '/paper/deviation/NONE.pdf', '/paper/instrument/x'])
      expect((await house.app.request(path)).status, path).toBe(404)
  })
})
