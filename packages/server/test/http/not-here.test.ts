import { afterAll, beforeAll, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

it.each([
  ['/api/entries/zzz', 'entry', 'zzz', '/api/entries'],
  ['/api/entries/99999', 'entry', '99999', '/api/entries'],
  ['/api/batches/zzz', 'batch', 'zzz', '/api/batches'],
  ['/api/lots/zzz', 'lot', 'zzz', '/api/lots'],
  ['/api/recipes/zzz', 'recipe', 'zzz', '/api/recipes'],
  ['/api/instruments/zzz', 'instrument', 'zzz', '/api/kitchen'],
  ['/api/rules/zzz', 'rule', 'zzz', '/api/rules'],
  ['/api/materials/zzz', 'material', 'zzz', '/api/materials'],
  ['/api/calc/zzz', 'calculation', 'zzz', '/api/calc'],
  ['/api/trace/pack/zzz', 'pack', 'zzz', '/api/batches'],
  ['/paper/batch-sheet/zzz.pdf', 'batch', 'zzz', '/api/batches'],
  ['/paper/zzz/B-1.pdf', 'paper', 'zzz', '/api/openapi.json'],
  ['/api/zzz', 'address', 'GET /api/zzz', '/api/openapi.json'],
])('answers %s with what is not there and where those that are there are listed', async (path, what, asked, list) => {
  const { status, body } = await house.ask('GET', path)
  expect(status).toBe(404)
  const [fault] = body['faults'] as { path: string; message: string }[]
  expect(fault!.path).toBe(what)
  expect(fault!.message).toContain(JSON.stringify(asked))
  expect(fault!.message).toContain(list)
})

it('answers one entry by its number', async () => {
  const { status, body } = await house.ask('GET', '/api/entries/1')
  expect([status, body['seq'], body['kind']]).toEqual([200, 1, 'person.add'])
})
