import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Preview } from '../../src/import/preview.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

const read = async (kind: string, file: string | Uint8Array<ArrayBuffer>, query = '') => {
  const response = await house.app.request(`/api/import/${kind}/read${query}`, { method: 'POST', body: file })
  return { status: response.status, body: (await response.json()) as Preview & { faults?: { path: string }[] } }
}
const record = async ({ kind, rows }: Preview) => {
  const drafts = rows.flatMap((r) => (r.body ? [{ kind, by: 'ana', body: r.body }] : []))
  return (await house.ask('POST', '/api/entries', drafts)).status
}
const faultsOf = (p: Preview) => p.rows.flatMap((r) => r.faults)

describe('a file of orders', () => {
  const head = 'Order,Customer,Taken,Due,Product,Weight,Note\n'
  const good = `${head}O-1,Corner shop,2026-12-01,2026-12-05,HUNTER,12,\nO-1,Corner shop,2026-12-01,2026-12-05,Hunter’s link,55 lb,trays\nO-2,Inn,2026-12-01,2026-12-06,hunter,8,\n`

  it('makes one entry of the rows of one order, products by code or name', async () => {
    const { body } = await read('orders', good)
    expect([body.good, body.entries]).toEqual([3, 2])
    expect(body.rows[0]!.body).toEqual({
      order: 'O-1',
      customer: 'Corner shop',
      on: '2026-12-01',
      due: '2026-12-05',
      lines: [
        { recipe: 'HUNTER', kg: 12 },
        { recipe: 'HUNTER', kg: 24.94758035, note: 'trays' },
      ],
    })
    expect(body.rows[1]).toMatchObject({ with: 2 })
  })

  it('keeps a whole order out for one bad cell, and names cell and rows', async () => {
    const { body } = await read(
      'orders',
      `${head}O-7,Shop,2026-12-01,2026-12-05,HUNTER,12,\nO-7,Shop,2026-12-01,2026-12-05,Unicorn loaf,5,\nO-7,Inn,2026-12-01,2026-12-05,HUNTER,5,\nO-8,Shop,2026-12-09,2026-12-05,HUNTER,5,\nO 9,Shop,2026-12-01,2026-12-05,HUNTER,0,\n`,
    )
    expect(body.good).toBe(0)
    expect(body.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([['row 2'], ['E3'], ['B4'], ['D5'], ['A6', 'F6']])
    expect(faultsOf(body).find((f) => f.cell === 'E3')!.message).toMatch(/no recipe of this kitchen.*allowed/)
    expect(faultsOf(body).find((f) => f.cell === 'row 2')!.message).toMatch(/bad cell in row 3/)
  })

  it('that says what cannot be yet, or is more than one sending takes, is named before anything is recorded', async () => {
    const { body } = await read(
      'orders',
      `${head}O-8,Shop,2062-12-01,2062-12-05,HUNTER,5,\nO-8,Shop,2062-12-01,2062-12-05,HUNTER,6,\n`,
    )
    expect(body.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([['C2'], ['row 3']])
    expect(faultsOf(body)[0]!.message).toMatch(/still to come/)
    const long = Array.from(
      { length: 4900 },
      (_, i) => `L-${i},${'A shop with a long name '.repeat(4)},2026-12-01,2026-12-05,HUNTER,5,\n`,
    )
    const { status, body: told } = await read('orders', head + long.join(''))
    expect(status).toBe(400)
    expect(JSON.stringify(told.faults)).toMatch(/4900 entries of 1\.\d MB.*two or more files/)
  })

  it('is recorded whole or not at all', async () => {
    const { body } = await read(
      'orders',
      `${head}O-20,Shop,2026-12-01,2026-12-05,HUNTER,5,\nO-21,Shop,2026-12-01,2026-12-05,HUNTER,5,\n`,
    )
    // Somebody else records one of the two between the look and the recording.
    expect(await record({ ...body, rows: body.rows.slice(1) })).toBe(201)
    const before = (await house.ledger.head()).entries
    expect(await record(body)).toBe(400)
    expect((await house.ledger.head()).entries).toBe(before)
  })

  it('read again after it was recorded adds nothing, and another content under the same code is refused', async () => {
    expect(await record((await read('orders', good)).body)).toBe(201)
    const again = (await read('orders', good)).body
    expect([again.good, again.entries, again.same]).toEqual([0, 0, 3])
    const other = (await read('orders', good.replace(',12,', ',13,'))).body
    expect(other.rows[0]!.faults[0]).toMatchObject({ cell: 'A2' })
    expect(other.rows[0]!.faults[0]!.message).toMatch(/already with other content/)
  })
})

describe('a workbook', () => {
  it('of orders is read as a file of text is, its dates as dates', async () => {
    const { default: write } = await import('write-excel-file/node')
    const on = (iso: string) => ({ value: new Date(`${iso}T00:00:00Z`), type: Date, format: 'yyyy-mm-dd' })
    const text = (value: string) => ({ value })
    const file = await write([
      ['order', 'customer', 'taken', 'due', 'product', 'kg'].map(text),
      [text('X-1'), text('Shop'), on('2026-12-01'), on('2026-12-05'), text('HUNTER'), { value: 7.5 }],
      [text('X-1'), text('Shop'), on('2026-12-01'), on('2026-12-06'), text('HUNTER'), { value: 1 }],
    ]).toBuffer()
    const { body } = await read('orders', new Uint8Array(file))
    expect(faultsOf(body).map((f) => f.cell)).toEqual(['row 2', 'D3'])
    const good = await write([
      ['order', 'customer', 'taken', 'due', 'product', 'kg'].map(text),
      [text('X-1'), text('Shop'), on('2026-12-01'), on('2026-12-05'), text('HUNTER'), { value: 7.5 }],
    ]).toBuffer()
    expect((await read('orders', new Uint8Array(good))).body.rows[0]!.body).toMatchObject({
      on: '2026-12-01',
      due: '2026-12-05',
      lines: [{ recipe: 'HUNTER', kg: 7.5 }],
    })
  })
})

describe('a price list', () => {
  const head = 'Material,Price per kg,From,Supplier,Pack,Unit\n'
  it('is read with the signs of money, decimal commas and packs as a person writes them', async () => {
    const { body } = await read(
      'prices',
      `${head.replaceAll(',', ';')}salt;€ 0,65;2026-12-01;Mill;25 kg;sack\nPork shoulder, lean and fat;4,30 EUR;2026-12-01;Mill;;\n`,
      '?decimal=,',
    )
    expect(body.rows.map((r) => r.body)).toEqual([
      { material: 'salt', costPerKg: 0.65, from: '2026-12-01', supplier: 'Mill', packKg: 25, unit: 'sack' },
      { material: 'pork-shoulder-trim', costPerKg: 4.3, from: '2026-12-01', supplier: 'Mill' },
    ])
    expect(await record(body)).toBe(201)
    expect((await house.ledger.prices()).length).toBe(2)
  })

  it('names a negative price, no price, a day that is none, a material nobody has, one twice', async () => {
    const { body } = await read(
      'prices',
      `${head}salt,-1,2026-12-01,,,\nsalt,,2026-12-01,,,\nsalt,1,1/12/2026,,,\ndragon,1,2026-12-01,,,\nsalt,1,2026-12-02,,,\nsalt,2,2026-12-02,,,\nsalt,NaN,2026-12-03,,,\nsalt,1e999,2026-12-03,,,\n`,
    )
    expect(body.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([
      ['B2'],
      ['B3', 'A3'],
      ['C4'],
      ['A5'],
      [],
      ['A7'],
      ['B8'],
      ['B9', 'A9'],
    ])
  })

  it('that repeats what the record has is the same; another price from that day is refused', async () => {
    const line = (price: string) => `${head}salt,${price},2026-12-01,Mill,25 kg,sack\n`
    expect((await read('prices', line('0.65'))).body).toMatchObject({ same: 1, good: 0 })
    const other = (await read('prices', line('0.70'))).body
    expect(faultsOf(other)[0]!.message).toMatch(/which the record has already.*another day/)
  })

  it('of what is sold names products by code or name', async () => {
    const { body } = await read(
      'selling-prices',
      'Product,Price,From\nHunter’s link,14.50,2026-12-01\nno such,1,2026-12-01\n',
    )
    expect(body.rows[0]!.body).toEqual({ recipe: 'HUNTER', pricePerKg: 14.5, from: '2026-12-01' })
    expect(faultsOf(body).map((f) => f.cell)).toEqual(['A3'])
  })
})

describe('hostile cells', () => {
  const hostile = [
    '=HYPERLINK("http://x")',
    "Robert'); DROP TABLE entry;--",
    '<script>alert(1)</script>',
    '../../etc/passwd',
    '{"$gt":""}',
    '__proto__',
    'x'.repeat(5000),
    '\u202Egnp.exe',
  ]
  it.each(hostile)('%.30j stands as text or is named, and never as anything else', async (cell) => {
    const quoted = `"${cell.replaceAll('"', '""')}"`
    const orders = `order,customer,taken,due,product,weight\n${quoted},Shop,2026-12-01,2026-12-05,HUNTER,5\nH-1,${quoted},2026-12-01,2026-12-05,HUNTER,5\nH-2,Shop,2026-12-01,2026-12-05,${quoted},5\n`
    const { status, body } = await read('orders', orders)
    expect(status).toBe(200)
    expect(body.rows[0]!.faults.map((f) => f.cell)).toContain('A2')
    expect(body.rows[2]!.faults.map((f) => f.cell)).toContain('E4')
    const taken = body.rows[1]!.body
    if (taken) expect(taken).toMatchObject({ customer: cell })
    else expect(body.rows[1]!.faults[0]!.cell).toBe('B3')
    const prices = await read('prices', `material,price,from\n${quoted},1,2026-12-01\nsalt,${quoted},2026-12-01\n`)
    expect(prices.body.good).toBe(0)
  })
})
