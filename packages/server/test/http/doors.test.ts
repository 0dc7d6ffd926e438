import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { calculations } from '@forcemeat/craft'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'

const bin = fileURLToPath(new URL('../../../cli/bin/forcemeat.mjs', import.meta.url))
const names = Object.keys(calculations)
let house: House
beforeAll(async () => {
  house = await openHouse()
})
afterAll(() => house.close())

describe('the doors of the registry', () => {
  it.each(names)('%s answers the same to the library, the command line and HTTP', async (name) => {
    const { example } = calculations[name]!
    const library = JSON.parse(JSON.stringify(calculations[name]!.run(structuredClone(example)))) as unknown
    const http = await house.ask('POST', `/api/calc/${name}`, example)
    expect(http.status).toBe(200)
    expect(http.body).toEqual(library)
    const cli = spawnSync(process.execPath, [bin, 'calc', name], { input: JSON.stringify(example), encoding: 'utf8' })
    expect(cli.status, cli.stderr).toBe(0)
    expect(JSON.parse(cli.stdout)).toEqual(library)
  })

  it.each(names)('%s refuses an unknown field with the same faults over HTTP as in the library', async (name) => {
    const bad = { ...(calculations[name]!.example as object), surpriseField: 1 }
    let faults: unknown
    try {
      calculations[name]!.run(structuredClone(bad))
    } catch (error) {
      faults = (error as { faults: unknown }).faults
    }
    const http = await house.ask('POST', `/api/calc/${name}`, bad)
    expect(http.status).toBe(400)
    expect(http.body).toEqual({ faults })
  })

  it('refuses over the command line with the same faults, one a line, and nothing on standard output', () => {
    const cli = spawnSync(process.execPath, [bin, 'calc', 'cure.ingoing'], {
      input: '{"route":"spooned","basisKg":-1}',
      encoding: 'utf8',
    })
    expect(cli.status).toBe(2)
    expect(cli.stdout).toBe('')
    const lines = cli.stderr.trim().split('\n')
    expect(lines.some((l) => l.startsWith('route: is the text "spooned"; allowed: one of '))).toBe(true)
    expect(lines.every((l) => /^[A-Za-z.[\]0-9()]+: .+allowed/.test(l))).toBe(true)
  })

  it('list every calculation, with schemas, and answer an unknown one with 404', async () => {
    const list = await house.ask('GET', '/api/calc')
    expect((list.body['calculations'] as { name: string }[]).map((c) => c.name)).toEqual(names)
    const one = await house.ask('GET', '/api/calc/cure.ingoing')
    expect(one.body).toMatchObject({ name: 'cure.ingoing', input: { type: 'object' }, output: { type: 'object' } })
    for (const name of ['nope', 'toString', '__proto__', 'constructor', 'cure.ingoing%00', '..%2F..%2Fhealth']) {
      const missing = await house.ask('POST', `/api/calc/${name}`, {})
      expect(missing.status, name).toBe(404)
      expect(missing.body['faults']).toHaveLength(1)
    }
  })

  it('are described by an OpenAPI 3.1 document whose references resolve and whose operations have names of their own', async () => {
    const { body } = await house.ask('GET', '/api/openapi.json')
    expect(body['openapi']).toBe('3.1.0')
    const paths = body['paths'] as Record<string, Record<string, { operationId: string }>>
    for (const name of names)
      expect(paths[`/api/calc/${name}`]).toHaveProperty('post.requestBody.content.application/json.schema.type')
    const ids = Object.values(paths).flatMap((p) => Object.values(p).map((o) => o.operationId))
    expect(new Set(ids).size).toBe(ids.length)
    const refs = [...JSON.stringify(body).matchAll(/"\$ref":"([^"]+)"/g)].map((m) => m[1]!)
    for (const ref of new Set(refs)) expect(ref).toBe('#/components/responses/Faults')
  })
})
