import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { routeKey } from '../../src/access/needs.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
})
afterAll(() => house.close())

const deep = 20_000
const wide = Object.fromEntries(Array.from({ length: 10_000 }, (_, i) => [`k${i}`, i]))
/** Bodies that have broken something somewhere. */
const bodies: Readonly<Record<string, string | Uint8Array<ArrayBuffer>>> = {
  nothing: '',
  'a bare null': 'null',
  'lists in lists': '['.repeat(deep) + ']'.repeat(deep),
  'objects in objects': '{"a":'.repeat(deep) + '1' + '}'.repeat(deep),
  'half a value': '{"kind":"lot.receive","body":{',
  'a prototype': '{"__proto__":{"by":"ana"},"constructor":{"prototype":{"kind":"x"}}}',
  'ten thousand fields': JSON.stringify(wide),
  'a number beyond numbers': '{"kg":1e999,"version":1e308}',
  'half a character': '{"by":"\\ud800","recipe":"\\udfff"}',
  SQL: JSON.stringify({ by: `'; drop table entry; --`, recipe: `" or 1=1`, key: `x' or '1'='1` }),
  HTML: JSON.stringify({ by: '<script>alert(1)</script>', name: '<img src=x onerror=alert(1)>' }),
  'a path': JSON.stringify({ file: '../../../../etc/passwd', folder: '/etc', by: '..\\..\\windows' }),
  'the wrong types': JSON.stringify({ by: [], kind: {}, body: 7, passphrase: null, pin: {}, person: [], version: '1' }),
  'a list of rubbish': JSON.stringify([null, 1, 'x', [], {}, true]),
  'half an archive': new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0, 0]),
  'bytes that are no text': new Uint8Array([0xff, 0xfe, 0, 0xd8, 0x00, 0xc3, 0x28]),
  zeros: new Uint8Array(100_000),
}
const codes = [
  'x',
  `'; drop table entry; --`,
  '../../record.db',
  '<script>',
  '__proto__',
  '=1+1',
  'a\u0000b',
  'x'.repeat(3000),
]

const writing = (): readonly (readonly [string, string])[] =>
  [
    ...new Set(
      house.app.routes
        .filter((r) => (r.method === 'POST' || r.method === 'PUT') && r.path !== '*' && r.path !== '/*')
        .map((r) => routeKey(r.method, r.path)),
    ),
  ].map((r) => r.split(' ') as [string, string])
const filled = (path: string, code: string): string => path.replaceAll(/:\w+/g, () => encodeURIComponent(code))

async function trouble(method: string, path: string, body: string | Uint8Array<ArrayBuffer>): Promise<string[]> {
  const begun = performance.now()
  const response = await house.app.request(path, { method, body })
  const text = await response.text()
  const took = performance.now() - begun
  return [
    ...(response.status >= 500 ? [`answers ${response.status}`] : []),
    ...(response.status >= 400 && !/"faults":\[\{/.test(text) ? ['names no fault'] : []),
    ...(/node_modules|\.ts:\d|SQLITE|at [A-Za-z.]+ \(/.test(text) ? ['says where in the program'] : []),
    ...(took > 3000 ? [`takes ${Math.round(took)} ms`] : []),
  ]
}

describe('every address that takes something', () => {
  it('answers every hostile body with what was wrong, never with a failure of its own', async () => {
    const wrong: string[] = []
    const routes = writing()
    expect(routes.length).toBeGreaterThan(15)
    for (const [method, path] of routes)
      for (const [name, body] of Object.entries(bodies))
        for (const t of await trouble(method, filled(path, 'HUNTER'), body))
          wrong.push(`${method} ${path}, ${name}: ${t}`)
    expect(wrong).toEqual([])
  }, 60_000)

  it('finds nothing under a hostile name, and says so', async () => {
    const wrong: string[] = []
    for (const [method, path] of writing().filter(([, p]) => p.includes(':')))
      for (const code of codes)
        for (const t of await trouble(method, filled(path, code), '{}'))
          wrong.push(`${method} ${path}, ${code.slice(0, 30)}: ${t}`)
    expect(wrong).toEqual([])
  }, 60_000)

  it('left the record whole, and objects as they were', async () => {
    expect(({} as Record<string, unknown>)['by']).toBeUndefined()
    expect((await house.ledger.verify({ views: true })).ok).toBe(true)
    const entries = await house.ledger.entries({ limit: 1000 })
    expect(entries.length).toBe(smallKitchen.length)
  })
})
