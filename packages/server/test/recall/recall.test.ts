import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { toCsv } from '../../src/recall/csv.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
const on = '2026-11-21'
const hex = 'a'.repeat(64)

/** One lot into a batch, rework of it into a second, both sold. */
const sold: readonly Draft[] = [
  {
    kind: 'business.add',
    by,
    body: {
      business: 'INN',
      name: 'Far Inn',
      address: '1 Hill Road, Upper Fenwick',
      contact: 'kitchen door',
      as: ['customer'],
    },
  },
  { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', kg: 20 } },
  {
    kind: 'lot.rework',
    by,
    body: { lot: 'RW-1', batch: 'B-1', material: 'pork-shoulder-trim', kg: 2, on, allergens: [] },
  },
  {
    kind: 'batch.plan',
    by,
    body: {
      batch: 'B-2',
      recipe: 'HUNTER',
      version: 1,
      on,
      meatKg: 2,
      jurisdictions: ['US'],
      lines: [{ line: 'meat', material: 'pork-shoulder-trim', lot: 'RW-1', targetKg: 2 }],
    },
  },
  { kind: 'batch.weigh', by, body: { batch: 'B-2', line: 'meat', kg: 1.5 } },
  ...['B-1', 'B-2'].flatMap((batch): Draft[] => [
    {
      kind: 'batch.decide',
      by,
      body: { batch, decision: 'release', reasons: ['x'], signed: hex, counts: { pass: 1, fail: 0, cannotTell: 0 } },
    },
    { kind: 'batch.pack', by, body: { batch, pack: `P-${batch}`, count: 10, totalKg: batch === 'B-1' ? 15 : 1, on } },
  ]),
  { kind: 'pack.ship', by, body: { pack: 'P-B-1', to: '=1+1|cmd', count: 4, on } },
  { kind: 'pack.ship', by, body: { pack: 'P-B-2', to: 'far inn', count: 10, on } },
]

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append([...smallKitchen, ...sold])
})
afterAll(() => house.close())

describe('a recall over HTTP', () => {
  it('accounts for every pack made of the lot, through rework', async () => {
    const { status, body } = await house.ask('GET', '/api/recall/lot/PS-1')
    expect(status).toBe(200)
    expect(body['quantity']).toMatchObject({ packs: 20, shipped: 14, here: 6, shippedKg: 7, hereKg: 9, stockKg: 30.5 })
    const quantity = body['quantity'] as Record<string, number>
    expect(quantity['shippedKg']! + quantity['hereKg']!).toBeCloseTo(quantity['packedKg']!, 9)
    expect(body['customers']).toMatchObject([
      { name: '=1+1|cmd' },
      { name: 'Far Inn', customer: { contact: 'kitchen door' } },
    ])
    expect(body['batches']).toMatchObject([
      { batch: 'B-1', balance: { inKg: 20, packedKg: 15, reworkKg: 2, differenceKg: 3 } },
      { batch: 'B-2', balance: { inKg: 1.5, packedKg: 1, differenceKg: 0.5 } },
    ])
    expect(body['form']).toBe('us')
  })

  it('of a thing that is not there is 404, of another kind too', async () => {
    for (const path of [
      '/api/recall/lot/NONE',
      '/api/recall/farm/PS-1',
      '/api/recall/pack/PS-1/csv',
      '/paper/recall/lot/NONE.pdf',
    ])
      expect((await house.ask('GET', path)).status, path).toBe(404)
    expect((await house.ask('GET', '/api/recall/lot/PS-1/csv?form=fr')).body['faults']).toMatchObject([
      { message: expect.stringContaining('eu, ca, us') as string },
    ])
  })

  it('as CSV has every field of Implementing Regulation (EU) 931/2011 Art. 3, and says where the record lacks one', async () => {
    const { body, headers } = await house.ask('GET', '/api/recall/lot/PS-1/csv?form=eu')
    expect(headers.get('content-type')).toBe('text/csv; charset=utf-8')
    const [head, first, second] = String(body['text']).split('\r\n')
    for (const field of [
      'description of the food',
      'quantity kg',
      'dispatching operator name',
      'dispatching operator address',
      'consignor',
      'receiver name',
      'receiver address',
      'consignee',
      'lot reference',
      'date of dispatch',
    ])
      expect(head).toContain(field)
    expect(first).toContain('not recorded')
    expect(second).toContain('"1 Hill Road, Upper Fenwick"')
  })

  it('as CSV has the fields of SOR/2018-108 s. 90: common name, lot code, maker, to whom, when; and from whom', async () => {
    const out = String((await house.ask('GET', '/api/recall/lot/PS-1/csv?form=ca')).body['text'])
    expect(out.split('\r\n')[0]).toBe(
      'common name,lot code,maker name,maker principal place of business,provided to name,provided to address,provided to contact,date provided,quantity kg,packs',
    )
    const inputs = String((await house.ask('GET', '/api/recall/pack/P-B-2/csv?form=ca&part=inputs')).body['text'])
    expect(inputs).toContain('PS-1,')
    expect(inputs).toContain('Fenwick Farm')
    expect(inputs).toContain('rework of batch B-1')
  })

  it('lets no cell be a formula', async () => {
    const { body } = await house.ask('GET', '/api/recall/lot/PS-1/csv')
    expect(body['text']).toContain("'=1+1|cmd")
    for (const evil of ['=A1', '+1', '-1', '@x', '\tx', '|x'])
      expect(
        toCsv(['a'], [[evil]])
          .split('\r\n')
          .slice(1)
          .join(''),
      ).toMatch(/^"?'/)
    expect(toCsv(['a'], [[-1.5, 'a "b", c']])).toBe('a\r\n-1.5,"a ""b"", c"\r\n')
  })

  it('is printed, with the drills recorded of it', async () => {
    const drill = {
      kind: 'recall.drill',
      by,
      body: {
        drill: 'DR-1',
        subject: 'lot',
        of: 'PS-1',
        trial: true,
        began: '2026-11-25T08:00:00Z',
        ended: '2026-11-25T08:21:30Z',
        packs: 20,
        accounted: 20,
      },
    }
    expect((await house.ask('POST', '/api/entries', drill)).status).toBe(201)
    expect((await house.ask('GET', '/api/recall/lot/PS-1')).body['drills']).toMatchObject([{ drill: 'DR-1' }])
    const response = await house.app.request('/paper/recall/lot/PS-1.pdf?size=Letter')
    const bytes = new Uint8Array(await response.arrayBuffer())
    expect(response.headers.get('content-type')).toBe('application/pdf')
    expect(new TextDecoder('latin1').decode(bytes.slice(0, 5))).toBe('%PDF-')
    expect(bytes.length).toBeGreaterThan(10_000)
  })
})
