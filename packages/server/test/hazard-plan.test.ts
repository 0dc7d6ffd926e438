import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { sha256, type Draft } from '@forcemeat/ledger'
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

describe('the signed copy of a hazard plan', () => {
  const read = async () => (await house.ask('GET', '/api/hazard-plan/HUNTER')).body
  const completedOf = (items: unknown) => (items as string[]).map((item) => ({ item, said: `for ${item}: as written` }))
  const who = { name: 'Ida Marrow', qualification: 'hazard plan course of three days, 2025', by: 'ana' }
  const sign = (body: object) => house.ask('POST', '/api/hazard-plan/HUNTER/sign', body)

  it('is refused while anything is left open, and where the plan is another than the one seen', async () => {
    const { planHash, toComplete } = await read()
    const completed = completedOf(toComplete)
    const open = await sign({ version: 2, planHash, ...who, completed: completed.slice(1) })
    expect([open.status, JSON.stringify(open.body)]).toEqual([409, expect.stringContaining('completed[0].said')])
    const other = await sign({ version: 1, planHash, ...who, completed })
    expect([other.status, JSON.stringify(other.body)]).toEqual([409, expect.stringContaining('planHash')])
    expect((await sign({ version: 9, planHash, ...who, completed })).status).toBe(404)
    expect((await sign({ version: 2, planHash: 'x', ...who, completed })).status).toBe(400)
    expect(
      (await house.ask('POST', '/api/entries', { kind: 'hazard.sign', by: 'ana', body: {} })).body['faults'],
    ).toMatchObject([{ path: 'kind', message: expect.stringContaining('/sign') as string }])
  })

  it('keeps the plan whole by its hash, stays as it was when the process changes, and shows what changed since', async () => {
    const { planHash, toComplete, version } = await read()
    const completed = completedOf(toComplete)
    const asked = { version, planHash, ...who, completed, key: 'sign-1' }
    const signed = await sign(asked)
    expect(signed.status).toBe(201)
    const [entry] = signed.body['entries'] as { seq: number; body: { file: string } }[]
    // Sent again under its key it is the same signature.
    expect((await sign(asked)).body['entries']).toMatchObject([{ seq: entry!.seq }])
    const bytes = await house.ledger.getFile(entry!.body.file)
    expect(sha256(new TextDecoder().decode(bytes))).toBe(entry!.body.file)
    expect(await read()).toMatchObject({ signed: { seq: entry!.seq, name: who.name, version: 2 }, sinceSigned: [] })
    const newest = (await house.ledger.recipe('HUNTER'))!.versions.at(-1)!
    await house.ledger.append([
      {
        kind: 'recipe.save',
        by: 'ana',
        body: {
          recipe: 'HUNTER',
          version: 3,
          body: { ...newest.body, cook: { ...newest.body.cook!, targetCoreC: 74 } },
        },
      },
    ])
    const after = await read()
    expect(after['sinceSigned']).toMatchObject([{ step: 'Cooking', what: 'how it is done' }])
    expect(after['planHash']).not.toBe(planHash)
    const paper = await house.app.request(`/paper/hazard-plan/HUNTER.pdf?signed=${entry!.seq}`)
    expect([paper.status, paper.headers.get('content-type')]).toEqual([200, 'application/pdf'])
    expect((await house.app.request('/paper/hazard-plan/HUNTER.pdf?signed=1')).status).toBe(404)
  })

  it('withdrawn, no longer stands for the recipe', async () => {
    const { signed } = (await read()) as { signed: { seq: number } }
    await house.ledger.append([
      { kind: 'entry.withdraw', by: 'ana', why: 'signed by mistake', body: { entry: signed.seq } },
    ])
    expect((await read())['signed']).toBeUndefined()
  })
})
