import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Preview } from '../../src/import/preview.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

const read = async (kind: string, file: string | Uint8Array<ArrayBuffer>, query = ''): Promise<Preview> => {
  const response = await house.app.request(`/api/import/${kind}/read${query}`, { method: 'POST', body: file })
  expect(response.status).toBe(200)
  return (await response.json()) as Preview
}
const lots = (...kg: string[]): string =>
  `lot;material;weight;received\n${kg.map((w, i) => `D-${i};salt;${w};2026-11-25\n`).join('')}`
const weights = (p: Preview) => p.rows.map((r) => (r.body && 'kg' in r.body ? r.body.kg : undefined))

describe('the decimal mark of a file', () => {
  it('is one: cells that can be read in one way only decide it for those that can be read in two', async () => {
    const comma = await read('lots', lots('1,25', '1.250', '1.250,5'))
    expect(weights(comma)).toEqual([1.25, 1250, 1250.5])
    expect(comma.decimal).toMatchObject({ mark: ',', from: 'cells' })
    expect(comma.decimal.cells.map((c) => c.cell)).toEqual(['C2', 'C4'])
    const point = await read('lots', lots('1,234', '1.25', '1,234.5'))
    expect(weights(point)).toEqual([1234, 1.25, 1234.5])
    expect(point.decimal).toMatchObject({ mark: '.', from: 'cells' })
  })

  it('is asked for where every figure that hangs on it can be read in two ways: nothing is good until it is told', async () => {
    for (const [text, point, comma] of [
      ['1,234', 1234, 1.234],
      ['1.250', 1.25, 1250],
      ['12.500 kg', 12.5, 12_500],
    ] as const) {
      const asked = await read('lots', lots('7', text))
      expect(asked.decimal).toEqual({ ask: 'ambiguous', cells: [{ cell: 'C3', column: 'weight', text, point, comma }] })
      expect([asked.good, asked.entries, asked.same, asked.rows.some((r) => r.body)]).toEqual([0, 0, 0, false])
      expect(weights(await read('lots', lots('7', text), '?decimal=.'))).toEqual([7, point])
      expect(weights(await read('lots', lots('7', text), '?decimal=,'))).toEqual([7, comma])
    }
  })

  it('is asked for where cells contradict each other, and those written with the other mark are then named', async () => {
    const asked = await read('lots', lots('1,25', '1.25', '1.250'))
    expect(asked.decimal).toMatchObject({ ask: 'contradict' })
    expect(asked.decimal.cells.map((c) => c.cell)).toEqual(['C3', 'C2'])
    expect(asked.good).toBe(0)
    const told = await read('lots', lots('1,25', '1.25', '1.250'), '?decimal=,')
    expect(told.decimal).toMatchObject({ mark: ',', from: 'told' })
    expect(weights(told)).toEqual([1.25, undefined, 1250])
    expect(told.rows[1]!.faults.map((f) => f.cell)).toEqual(['C3'])
  })

  it('is asked of nobody where no figure hangs on it', async () => {
    const plain = await read('lots', lots('7', '55 lb', '1500', '1/2'))
    expect(plain.decimal).toEqual({ mark: '.', from: 'any', cells: [] })
    expect(plain.good).toBe(4)
    const people = await read('businesses', 'code,name,as,address\nSHOP,Shop 1.250,customer,"Lane 1,234"\n')
    expect([people.decimal, people.good]).toEqual([{ mark: '.', from: 'any', cells: [] }, 1])
  })

  it('holds for orders and prices, over all their columns', async () => {
    const order = 'order;customer;taken;due;product;weight\nO-1;Shop;2026-11-25;2026-11-30;HUNTER;1.250\n'
    expect((await read('orders', order)).decimal).toMatchObject({ ask: 'ambiguous' })
    const both = await read('orders', `${order}O-2;Shop;2026-11-25;2026-11-30;HUNTER;0,5\n`)
    expect(both.rows.map((r) => r.body)).toMatchObject([{ lines: [{ kg: 1250 }] }, { lines: [{ kg: 0.5 }] }])
    const price = 'material;price;from;pack\nsalt;€ 1.250;2026-12-01;25 kg\n'
    expect((await read('prices', price)).decimal.cells).toEqual([
      { cell: 'B2', column: 'price', text: '€ 1.250', point: 1.25, comma: 1250 },
    ])
    expect((await read('prices', price.replace('25 kg', '2,5 kg'))).rows[0]!.body).toMatchObject({
      costPerKg: 1250,
      packKg: 2.5,
    })
    expect((await read('selling-prices', 'product;price;from\nHUNTER;1,234;2026-12-01\n')).good).toBe(0)
  })

  it('does not touch what a workbook holds as numbers', async () => {
    const { default: write } = await import('write-excel-file/node')
    const text = (value: string) => ({ value })
    const file = await write([
      ['lot', 'material', 'kg', 'date'].map(text),
      [text('W-1'), text('salt'), { value: 1.234 }, text('2026-11-25')],
      [text('W-2'), text('salt'), text('1,25'), text('2026-11-25')],
      [text('W-3'), text('salt'), text('1.250'), text('2026-11-25')],
    ]).toBuffer()
    expect(weights(await read('lots', new Uint8Array(file)))).toEqual([1.234, 1.25, 1250])
    const numbers = await write([
      ['lot', 'material', 'kg', 'date'].map(text),
      [text('W-1'), text('salt'), { value: 1.234 }, text('2026-11-25')],
    ]).toBuffer()
    const plain = await read('lots', new Uint8Array(numbers))
    expect([plain.decimal, weights(plain)]).toEqual([{ mark: '.', from: 'any', cells: [] }, [1.234]])
  })
})

it('a figure that its decimal comma splits over two cells is named, and not taken by half', async () => {
  const split = await read('lots', 'lot,material,received,weight\nS-1,salt,2026-11-25,1,25\nS-2,salt,2026-11-25,7,\n')
  expect(split.rows.map((r) => r.faults.map((f) => f.cell))).toEqual([['E2'], []])
  expect(split.rows[0]!.faults[0]!.message).toMatch(/"25".*under no head.*allowed.*double quotes/)
  expect(split.rows[0]!.body).toBeUndefined()
})
