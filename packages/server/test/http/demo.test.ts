import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
})
afterAll(() => house.close())

describe('the invented kitchen over HTTP', () => {
  it('goes into an empty record once, however often it is asked for at once', async () => {
    const asked = await Promise.all([1, 2, 3].map(() => house.ask('POST', '/api/demo', {})))
    expect(asked.map((a) => a.status).toSorted((a, b) => a - b)).toEqual([201, 409, 409])
    expect((await house.ask('POST', '/api/demo', {})).status).toBe(409)
    expect((await house.ledger.verify()).ok).toBe(true)
  })

  it('has a batch that was released, and stands as it was signed', async () => {
    const { body } = await house.ask('GET', '/api/batches/RING-0117')
    expect(body).toMatchObject({ verdict: 'pass', decision: 'release', signedStillHolds: true })
    expect((body['computed'] as object | undefined) !== undefined).toBe(true)
  })

  it('has a batch on hold that cannot be released over its slow chill', async () => {
    const refused = await house.ask('POST', '/api/batches/RING-0118/decide', {
      decision: 'release',
      reasons: ['in a hurry'],
      by: 'ida',
    })
    expect(refused.status).toBe(409)
    expect((refused.body['findings'] as { rule: string }[]).map((f) => f.rule)).toContain('us.fsis.stabilization')
    expect(
      (await house.ask('POST', '/api/batches/RING-0118/decide', { decision: 'hold', reasons: ['still'], by: 'nobody' }))
        .status,
    ).toBe(400)
    expect(
      (await house.ask('POST', '/api/batches/RING-0118/decide', { decision: 'hold', reasons: [], by: 'ida' })).status,
    ).toBe(400)
  })

  it('shows what is in hand, its lots, recipes, rules and materials', async () => {
    for (const [path, field] of [
      ['/api/today', 'batches'],
      ['/api/lots', 'lots'],
      ['/api/lots?left=1&limit=1000', 'lots'],
      ['/api/recipes', 'recipes'],
      ['/api/batches?state=held', 'batches'],
      ['/api/rules?jurisdiction=US&q=nitrite', 'rules'],
      ['/api/materials', 'materials'],
      ['/api/kitchen', 'instruments'],
    ] as const) {
      const { status, body } = await house.ask('GET', path)
      expect(status, path).toBe(200)
      expect((body[field] as unknown[]).length, path).toBeGreaterThan(0)
    }
  })

  it('traces a lot forward and a pack back', async () => {
    const packs = (await house.ledger.batch('RING-0117'))!.packs
    const back = await house.ask('GET', `/api/trace/pack/${packs[0]!.pack}`)
    const lot = (back.body['lots'] as { lot: string }[])[0]!.lot
    const forward = await house.ask('GET', `/api/trace/lot/${lot}`)
    expect((forward.body['packs'] as { pack: string }[]).map((p) => p.pack)).toContain(packs[0]!.pack)
  })

  it.each(['batch-sheet', 'cook-and-chill'])('prints %s on both sizes', async (kind) => {
    for (const size of ['A4', 'Letter']) {
      const answer = await house.app.request(`/paper/${kind}/RING-0117.pdf?size=${size}`)
      expect(answer.status).toBe(200)
      expect(answer.headers.get('content-type')).toBe('application/pdf')
      expect(
        Buffer.from(await answer.arrayBuffer())
          .subarray(0, 5)
          .toString(),
      ).toBe('%PDF-')
    }
    expect((await house.ask('GET', `/paper/${kind}/RING-0117.pdf?size=A3`)).status).toBe(400)
  })

  it('backs itself up beside the record while it runs', async () => {
    const { status, body } = await house.ask('POST', '/api/backup')
    expect(status).toBe(201)
    expect(body['entries']).toBe((await house.ledger.head()).entries)
    expect(existsSync(join(house.folder, String(body['file'])))).toBe(true)
  })
})
