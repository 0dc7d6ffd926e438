import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { openHouse, smallKitchen, type House } from './support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  const saved = smallKitchen.find((d) => d.kind === 'recipe.save') as Extract<Draft, { kind: 'recipe.save' }>
  const next: Draft = {
    ...saved,
    body: {
      ...saved.body,
      version: 2,
      body: { ...saved.body.body, cook: { ...saved.body.body.cook!, targetCoreC: 68 } },
    },
  }
  await house.ledger.append([...smallKitchen, next])
})
afterAll(() => house.close())

describe('the draft hazard plan over HTTP', () => {
  it('follows the newest version of a recipe and says what changed since the one before', async () => {
    const { status, body } = await house.ask('GET', '/api/hazard-plan/HUNTER')
    expect([status, body['version'], body['against']]).toEqual([200, 2, 1])
    expect(body['changes']).toMatchObject([{ step: 'Cooking', what: 'how it is done' }])
    expect((await house.ask('GET', '/api/hazard-plan/HUNTER?version=1')).body['changes']).toEqual([])
    expect((await house.ask('GET', '/api/hazard-plan/HUNTER?version=9')).status).toBe(404)
    expect((await house.ask('GET', '/api/hazard-plan/NONE')).status).toBe(404)
  })

  it('is printed on both sizes', async () => {
    for (const size of ['A4', 'Letter']) {
      const response = await house.app.request(`/paper/hazard-plan/HUNTER.pdf?size=${size}`)
      expect([response.status, response.headers.get('content-type')]).toEqual([200, 'application/pdf'])
      expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(20_000)
    }
  })
})
