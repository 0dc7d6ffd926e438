import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { spoiled } from '../../../../test/support/from-schema.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
let bare: House
beforeAll(async () => {
  bare = await openHouse()
  const web = join(bare.folder, 'web')
  mkdirSync(join(web, 'assets'), { recursive: true })
  writeFileSync(join(web, 'index.html'), '<!doctype html><title>bench</title>')
  writeFileSync(join(web, 'assets', 'app-1a2b.js'), 'export {}')
  writeFileSync(join(web, '.secret.txt'), 'secret')
  writeFileSync(join(bare.folder, 'outside.txt'), 'secret')
  symlinkSync(join(bare.folder, 'outside.txt'), join(web, 'link.txt'))
  house = await openHouse({ web })
  await house.ledger.append(smallKitchen)
})
afterAll(async () => {
  await house.close()
  await bare.close()
})

const faultsOf = (body: Record<string, unknown>) => body['faults'] as { path: string; message: string }[]

describe('what comes in', () => {
  it.each([
    ['nothing', ''],
    ['half a value', '{"route":'],
    ['a bare word', 'hello'],
    ['a null', 'null'],
    ['a number', '7'],
    ['a list', '[1,2]'],
    ['a text', '"x"'],
    ['depth', `${'['.repeat(50_000)}${']'.repeat(50_000)}`],
    ['a prototype', '{"__proto__":{"route":"comminuted"},"constructor":{"prototype":{}}}'],
  ])('is refused with faults where it is %s', async (_title, body) => {
    for (const path of ['/api/calc/cure.ingoing', '/api/entries', '/api/batches/B-1/decide']) {
      const refused = await house.ask('POST', path, body)
      expect(refused.status, path).toBe(400)
      expect(faultsOf(refused.body).length).toBeGreaterThan(0)
    }
    expect(({} as Record<string, unknown>)['route']).toBeUndefined()
  })

  it('is refused by size: JSON over 1 MB into the record, over 64 MB into a calculation, whether it says its length or not', async () => {
    const big = JSON.stringify({ route: 'x'.repeat(1_100_000) })
    expect((await house.ask('POST', '/api/entries', big)).status).toBe(413)
    const sent = (path: string) =>
      house.app.request(path, {
        method: 'POST',
        body: new ReadableStream({
          pull(controller) {
            controller.enqueue(new Uint8Array(1_000_000).fill(32))
          },
        }),
        duplex: 'half',
      } as RequestInit)
    const unsaid = await sent('/api/calc/cure.ingoing')
    expect(unsaid.status).toBe(413)
    expect(faultsOf((await unsaid.json()) as Record<string, unknown>)[0]!.message).toContain('64 MB')
  })

  it('a core log of over 1 MB is judged as the command line judges it', async () => {
    const log = Array.from({ length: 60_000 }, (_, i) => ({ minute: i / 60, coreC: Math.min(72, 5 + i / 60) }))
    const answer = await house.ask('POST', '/api/calc/heat.lethality', JSON.stringify({ log, organism: 'salmonella' }))
    expect(answer.status).toBe(200)
    expect((answer.body as { peakC: number }).peakC).toBe(72)
  })

  it('never makes a calculation answer 500, nor say where in the program it went wrong', async () => {
    for (const name of Object.keys(calculations)) {
      const schema = z.toJSONSchema(calculations[name]!.input, { io: 'input', unrepresentable: 'any' }) as Record<
        string,
        unknown
      >
      await fc.assert(
        fc.asyncProperty(spoiled(schema), async (input) => {
          const { status, body } = await house.ask('POST', `/api/calc/${name}`, JSON.stringify(input) ?? 'null')
          expect([200, 400]).toContain(status)
          if (status === 400) expect(JSON.stringify(body)).not.toMatch(/node_modules|\.ts:\d|at [A-Za-z]+ \(/)
        }),
        { numRuns: 8, seed: 20261125 },
      )
    }
  })

  it.each([
    '?limit=0',
    '?limit=9999999',
    '?limit=-1',
    '?limit=1e3',
    '?after=x',
    '?kind=nope',
    '?order=up',
    '?surprise=1',
    `?q=${'x'.repeat(500)}`,
  ])('is refused in a query: %s', async (query) => {
    const refused = await house.ask('GET', `/api/entries${query}`)
    expect(refused.status).toBe(400)
    expect(faultsOf(refused.body)[0]!.message).toMatch(/allowed|field/)
  })

  it('is found as text, never as a pattern or a statement', async () => {
    for (const q of ["'; drop table entry; --", '%', '_', '\\'])
      expect((await house.ask('GET', `/api/entries?q=${encodeURIComponent(q)}`)).status).toBe(200)
    expect((await house.ask('GET', '/api/entries?q=%25')).body['entries']).toEqual([])
    expect((await house.ask('GET', '/api/entries')).body['entries']).toHaveLength(smallKitchen.length)
  })

  it('names what is not there with 404 and the same form', async () => {
    for (const path of [
      '/api/lots/x',
      '/api/recipes/x',
      '/api/batches/x',
      '/api/batches/B-1/curves/9',
      '/api/trace/lot/x',
      '/api/trace/pack/x',
      '/api/rules/x',
      `/api/files/${'0'.repeat(64)}`,
      '/paper/batch-sheet/x.pdf',
      '/paper/nope/B-1.pdf',
      '/paper/batch-sheet/',
      '/api/',
      '/api/instruments/x',
      '/api/materials/__proto__',
    ]) {
      const missing = await house.ask('GET', path)
      expect(missing.status, path).toBe(404)
      expect(faultsOf(missing.body)).toHaveLength(1)
    }
  })

  it('cannot walk out of the record by the name of a file', async () => {
    for (const name of ['..%2F..%2Frecord.db', '....//record.db', 'record.db', '%2e%2e%2frecord.db'])
      expect([400, 404]).toContain((await house.ask('GET', `/api/files/${name}`)).status)
  })

  it('cannot be an empty file, nor one over the limit', async () => {
    expect((await house.ask('PUT', '/api/files', '')).status).toBe(400)
    const said = await house.app.request('/api/files', {
      method: 'PUT',
      body: 'x',
      headers: { 'content-length': '99999999999' },
    })
    expect(said.status).toBe(413)
  })

  it('of a kind a logger never wrote is answered with what is asked, not guessed', async () => {
    const { status, body } = await house.ask('POST', '/api/curves/read', '\u0000\u0001binary\u0002')
    expect(status).toBe(200)
    expect(body['channels']).toEqual([])
    expect((await house.ask('POST', '/api/curves/read?roles=notjson', 'a')).status).toBe(400)
    expect((await house.ask('POST', '/api/curves/read?unit=K', 'a')).status).toBe(400)
  })
})

describe('the workbench’s files', () => {
  it('are served with their type; every other path is the one page', async () => {
    for (const path of ['/', '/today', '/batches/B-1', '/rules/us.424.21.nitrite', '/stock/record.db']) {
      const { status, headers, body } = await house.ask('GET', path)
      expect(status).toBe(200)
      expect(headers.get('content-type')).toContain('text/html')
      expect(body['text']).toContain('bench')
    }
    const asset = await house.ask('GET', '/assets/app-1a2b.js')
    expect(asset.headers.get('content-type')).toContain('text/javascript')
    expect(asset.headers.get('cache-control')).toContain('immutable')
  })

  it.each([
    '/../outside.txt',
    '/%2e%2e/outside.txt',
    '/..%2foutside.txt',
    '/assets/..%2f..%2foutside.txt',
    '/.secret.txt',
    '/link.txt',
    '/%00.txt',
    '/assets%5c..%5c..%5coutside.txt',
    '/%ZZ.txt',
  ])('end at their folder: %s', async (path) => {
    const { status, body } = await house.ask('GET', path)
    expect(status).toBe(404)
    expect(JSON.stringify(body)).not.toContain('"secret')
  })

  it('say plainly where they are not built', async () => {
    const { status, body } = await bare.ask('GET', '/')
    expect(status).toBe(503)
    expect(body['text']).toContain('npm run build')
  })
})
