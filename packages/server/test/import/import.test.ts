import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { cellName } from '../../src/import/table.ts'
import type { Preview } from '../../src/import/preview.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

const read = async (file: string | Uint8Array<ArrayBuffer>, kind = 'lots', query = '') => {
  const response = await house.app.request(`/api/import/${kind}/read${query}`, { method: 'POST', body: file })
  return {
    status: response.status,
    body: (await response.json()) as Preview & { faults?: { path: string; message: string }[] },
  }
}
const head = 'Lot,Material,Weight,Received,Use by,Fat %,Supplier\n'

describe('a file of lots', () => {
  it('is shown as the entries it would be, units and names read as a person types them', async () => {
    const { body } = await read(
      `${head}A-1,"Pork shoulder, lean and fat",55 lb,2026-11-25,2026-12-01,23,Fenwick Farm\n`,
    )
    expect(body.good).toBe(1)
    expect(body.rows[0]!.body).toEqual({
      lot: 'A-1',
      material: 'pork-shoulder-trim',
      kg: 24.94758035,
      on: '2026-11-25',
      useBy: '2026-12-01',
      fatPct: 23,
      supplier: 'Fenwick Farm',
    })
    expect((await house.ledger.lots({ q: 'A-1' })).length).toBe(0)
    const drafts = body.rows.map((r) => ({ kind: body.kind, by: 'ana', body: r.body }))
    expect((await house.ask('POST', '/api/entries', drafts)).status).toBe(201)
    expect((await read(`${head}A-1,pork-shoulder-trim,1,2026-11-25,,,\n`)).body.rows[0]!.faults[0]).toMatchObject({
      cell: 'A2',
      message: expect.stringContaining('the record has already') as string,
    })
  })

  it('names every bad cell as a spreadsheet does', async () => {
    const { status, body } = await read(
      `${head}B-1,unicorn,ten,25/11/2026,2026-13-01,140,x\nB 2,salt,5,2026-11-25,,,\nB-3,salt,-5,2026-11-25,,,\nB-3,salt,5,2026-11-25,,,\nB-3,salt,5,2026-11-25,,,\n`,
    )
    expect(status).toBe(200)
    expect(body.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([
      ['B2', 'C2', 'D2', 'E2', 'F2'],
      ['A3'],
      ['C4'],
      ['A5'],
      ['A6'],
    ])
    expect(body.good).toBe(0)
    for (const fault of body.rows.flatMap((r) => r.faults))
      expect(fault.message).toMatch(/allowed|instead|0 (to|or)|more than/i)
  })

  it('faces the questions an entry by hand does, at its cell, and a note in its row answers them', async () => {
    const warm = 'Lot,Material,Weight,Received,Arrival temperature,Note\n'
    const { body } = await read(
      `${warm}T-1,pork-shoulder-trim,10,2026-11-25,38,\nT-2,pork-shoulder-trim,10,2026-11-25,38,hot-boned\nT-3,pork-shoulder-trim,10,2026-11-25,300,hot\nT-4,pork-shoulder-trim,10,2026-11-25,38 °F,\n`,
    )
    expect(body.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([['E2'], [], ['E4'], []])
    expect(body.rows[0]!.faults[0]!.message).toMatch(/°F.*note/)
    const drafts = body.rows.flatMap((r) => (r.body ? [{ kind: body.kind, by: 'ana', body: r.body }] : []))
    expect((await house.ask('POST', '/api/entries', drafts)).status).toBe(201)
  })

  it('with semicolons and decimal commas reads the same', async () => {
    const { body } = await read('lot;material;weight;received\nC-1;salt;12,5;2026-11-25\n', 'lots', '?decimal=,')
    expect(body.rows[0]!.body).toMatchObject({ kg: 12.5 })
    const plain = await read('lot;material;weight;received\nC-1;salt;1.234,5;2026-11-25\n', 'lots', '?decimal=.')
    expect(plain.body.rows[0]!.faults[0]!.cell).toBe('C2')
  })

  it('as a workbook reads the first sheet, dates as dates', async () => {
    const { default: write } = await import('write-excel-file/node')
    const sheet = [
      [{ value: 'lot' }, { value: 'material' }, { value: 'kg' }, { value: 'date' }],
      [
        { value: 'W-1' },
        { value: 'salt' },
        { value: 12.5 },
        { value: new Date('2026-11-25T00:00:00Z'), type: Date, format: 'yyyy-mm-dd' },
      ],
    ]
    const written: unknown = await (write as unknown as (s: unknown) => Promise<{ toBuffer: () => Promise<Buffer> }>)(
      sheet,
    )
    const buffer = await (written as { toBuffer: () => Promise<Buffer> }).toBuffer()
    const { status, body } = await read(new Uint8Array(buffer))
    expect([status, body.rows?.[0]?.body]).toEqual([200, { lot: 'W-1', material: 'salt', kg: 12.5, on: '2026-11-25' }])
  })

  it('that lacks a column, or is no table, is refused whole', async () => {
    const faults = async (file: string | Uint8Array<ArrayBuffer>) => {
      const { status, body } = await read(file)
      expect(status).toBe(400)
      return body.faults!.map((f) => `${f.path} ${f.message}`).join('\n')
    }
    expect(await faults('lot,material\nA,salt\n')).toMatch(/no column for the weight[\s\S]*no column for the received/)
    expect(await faults('lot,code,material,kg,date\nA,B,salt,1,2026-11-25\n')).toMatch(/^B1 /)
    expect(await faults('')).toMatch(/empty/)
    expect(await faults(head)).toMatch(/no rows/)
    expect(await faults(new Uint8Array([0xff, 0xfe, 0x00, 0x41]))).toMatch(/UTF-8/)
    expect(await faults(new TextEncoder().encode('a\0b,c\n1,2\n'))).toMatch(/no text/)
    expect(await faults(new Uint8Array([0x50, 0x4b, 3, 4, 9, 9, 9]))).toMatch(/workbook|archive/)
    expect(await faults(`${head}${'x,salt,1,2026-11-25,,,\n'.repeat(5001)}`)).toMatch(/5000 rows/)
    expect(await faults(`lot,material,weight,received\nA,"${'x'.repeat(200_000)}`)).toMatch(
      /cannot be read|large|size/i,
    )
  })

  it('of hostile text does nothing but say what is wrong', async () => {
    const evil = [
      "'; drop table entry;--",
      '<script>alert(1)</script>',
      '=cmd|calc',
      '../../etc/passwd',
      '{{7*7}}',
      '\u202Egnp',
    ]
    const { body } = await read(
      `lot,material,weight,received,note\n${evil.map((e, i) => `"${e}",salt,1,2026-11-25,ok\nN-${i},salt,1,2026-11-25,"${e}"`).join('\n')}\n`,
    )
    expect(body.rows.filter((_, i) => i % 2 === 0).every((r) => r.faults[0]?.cell.startsWith('A'))).toBe(true)
    const taken = body.rows.filter((_, i) => i % 2 === 1 && body.rows[i]!.body !== undefined)
    expect(taken.map((r) => r.body)).toMatchObject(taken.map((r) => ({ note: r.cells[4] })))
    expect((await house.ledger.verify()).ok).toBe(true)
  })
})

describe('a file of businesses', () => {
  it('gives names, addresses and what they are to the kitchen', async () => {
    const { body } = await read(
      'code,name,as,address,phone\nINN,Far Inn,customer,"1 Hill Road",door\nF,Farm,supplier and carrier,,\nX,Y,friend,,\n',
      'businesses',
    )
    expect(body.rows.map((r) => r.body ?? r.faults[0]!.cell)).toEqual([
      { business: 'INN', name: 'Far Inn', as: ['customer'], address: '1 Hill Road', contact: 'door' },
      { business: 'F', name: 'Farm', as: ['supplier', 'carrier'] },
      'C4',
    ])
    expect((await read('a,b\n1,2\n', 'ships')).status).toBe(404)
  })
})

describe('names of cells', () => {
  it('go on after Z', () => {
    expect([cellName(0, 1), cellName(25, 2), cellName(26, 3), cellName(701, 4), cellName(702, 5)]).toEqual([
      'A1',
      'Z2',
      'AA3',
      'ZZ4',
      'AAA5',
    ])
  })
})
