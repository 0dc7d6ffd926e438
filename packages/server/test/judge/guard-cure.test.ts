import { afterEach, beforeEach, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
let house: House
beforeEach(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterEach(() => house.close())

const line = async (): Promise<string> =>
  (await house.ledger.batch('B-1'))!.lines.find((l) => l.material === 'curing-salt-6.25-nitrite')!.line
const weigh = async (kg: number, rest: object = {}, change: object = {}) =>
  house.ask('POST', '/api/entries', {
    kind: 'batch.weigh',
    by,
    body: { batch: 'B-1', line: await line(), kg, ...rest },
    ...change,
  })

// 20 kg of meat and a band of 120 to 156 mg/kg: 38.4 to 49.92 g of 6.25 %.
it('asks about a cure that takes the batch over its nitrite band, and names the most it may be', async () => {
  const { status, body } = await weigh(0.058)
  expect([status, body['faults']]).toMatchObject([
    400,
    [
      {
        path: 'body.kg',
        message: expect.stringMatching(/is 58 g of cure.*ends at 49\.92 g.*at most 49\.92 g/) as string,
      },
    ],
  ])
  expect((await weigh(0.058, { note: 'in already; batch held' })).status).toBe(201)
})

it('counts what was weighed before, in the record and in the same call', async () => {
  expect((await weigh(0.03)).status).toBe(201)
  const { status, body } = await weigh(0.028)
  expect([status, body['faults']]).toMatchObject([
    400,
    [{ message: expect.stringMatching(/to 58 g.*at most 19\.92 g more/) as string }],
  ])
  expect((await weigh(0.017)).status).toBe(201)
  const both = await house.ask('POST', '/api/entries', [
    { kind: 'batch.weigh', by, body: { batch: 'B-1', line: await line(), kg: 0.002 } },
    { kind: 'batch.weigh', by, body: { batch: 'B-1', line: await line(), kg: 0.002 } },
  ])
  expect([both.status, both.body['faults']]).toMatchObject([400, [{ path: '[1].body.kg' }]])
})

it('lets a correction say what was really weighed', async () => {
  const first = await weigh(0.044)
  const seq = (first.body['entries'] as { seq: number }[])[0]!.seq
  expect((await weigh(0.058, {}, { corrects: seq, why: 'read wrong' })).status).toBe(201)
})
