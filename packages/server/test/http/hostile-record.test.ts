import { deflateRawSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { openHouse, smallKitchen, type House } from '../support.ts'

/** Texts that have broken something somewhere: SQL, HTML, paths, formulas, templates, directions, lengths. */
const dictionary: readonly string[] = [
  `'; drop table entry; --`,
  `" or 1=1 --`,
  `<script>alert(1)</script>`,
  `<img src=x onerror=alert(1)>`,
  `javascript:alert(1)`,
  `../../../../etc/passwd`,
  `..\\..\\windows`,
  `=HYPERLINK("http://evil.example","x")`,
  `+1+cmd|' /C calc'!A0`,
  `-2+3`,
  `@SUM(A1:A9)`,
  `\t=1+1`,
  '${7*7} {{7*7}} <%= 7*7 %>',
  '%s%n%x %00',
  '\u202Eabc\u202C',
  'a\u0000b',
  '\uD800',
  '﷽'.repeat(50),
  'e\u0301'.repeat(60),
  '__proto__',
  'constructor',
  'NaN',
  '"quoted", and, commas\r\nand lines',
  'x'.repeat(5000),
]

const by = 'ana'
const on = '2026-11-21'
const hex = 'a'.repeat(64)
const shipped: readonly Draft[] = [
  { kind: 'batch.weigh', by, body: { batch: 'B-1', line: 'meat', kg: 20 } },
  {
    kind: 'batch.decide',
    by,
    body: { batch: 'B-1', decision: 'hold', reasons: ['x'], signed: hex, counts: { pass: 1, fail: 0, cannotTell: 0 } },
  },
  { kind: 'batch.pack', by, body: { batch: 'B-1', pack: 'P-1', count: 100_000, totalKg: 18, on } },
]

let house: House
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append([...smallKitchen, ...shipped])
})
afterAll(() => house.close())

describe('a dictionary of hostile text', () => {
  const drafts = (text: string, n: number): readonly object[] => [
    { kind: 'business.add', by, body: { business: `C${n}`, name: text, address: text, as: ['customer'] } },
    { kind: 'pack.ship', by, body: { pack: 'P-1', to: text, count: 1, on, note: text } },
    { kind: 'deviation.open', by, body: { deviation: `D${n}`, on, about: [{ type: 'batch', id: 'B-1' }], what: text } },
    { kind: 'lot.move', by, body: { lot: 'PS-1', place: text, on } },
    { kind: 'lot.adjust', by, body: { lot: text, kg: -1, reason: 'waste', on } },
    { kind: text, by, body: {} },
    { kind: 'lot.move', by: text, body: { lot: 'PS-1', place: 'x', on } },
  ]

  it('is recorded as it is, or refused with the field named; never anything else', async () => {
    let recorded = 0
    for (const [n, text] of dictionary.entries())
      for (const draft of drafts(text, n)) {
        const { status, body } = await house.ask('POST', '/api/entries', draft)
        expect([201, 400], `${JSON.stringify(draft).slice(0, 120)}: ${JSON.stringify(body).slice(0, 200)}`).toContain(
          status,
        )
        if (status === 201) {
          recorded += 1
          const [entry] = body['entries'] as { body: Record<string, unknown> }[]
          expect(entry!.body).toEqual((draft as { body: unknown }).body)
        } else expect((body['faults'] as { path: string; message: string }[])[0]!.message.length).toBeGreaterThan(3)
      }
    expect(recorded).toBeGreaterThan(40)
    expect((await house.ledger.verify({ views: true })).views).toEqual([])
    expect((await house.ledger.verify()).ok).toBe(true)
  })

  it('goes out in CSV without a formula, and onto paper', async () => {
    for (const part of ['consignments', 'inputs', 'batches']) {
      const text = String((await house.ask('GET', `/api/recall/lot/PS-1/csv?part=${part}&form=eu`)).body['text'])
      for (const cell of text.split(/[\r\n,]+/))
        expect(cell.replace(/^"/, ''), cell).not.toMatch(/^[=+@]|^-(?!\d+(\.\d+)?"?$)/)
    }
    const paper = await house.app.request('/paper/recall/lot/PS-1.pdf')
    expect([paper.status, paper.headers.get('content-type')]).toEqual([200, 'application/pdf'])
    for (const path of ['/api/deviations', '/api/today', '/api/businesses', '/api/recall/lot/PS-1']) {
      const { status, headers } = await house.ask('GET', path)
      expect([status, headers.get('content-type')?.split(';')[0]]).toEqual([200, 'application/json'])
    }
  })

  it('in an address finds nothing and breaks nothing', async () => {
    for (const text of dictionary.slice(0, 23).filter((t) => t.isWellFormed()))
      for (const path of [
        '/api/recall/lot/',
        '/api/deviations/',
        '/api/charts/',
        '/api/hazard-plan/',
        '/api/people/',
        '/api/import/',
      ]) {
        const method = path === '/api/import/' ? 'POST' : 'GET'
        const end = path === '/api/people/' ? '/export' : path === '/api/import/' ? '/read' : ''
        const { status } = await house.ask(method, `${path}${encodeURIComponent(text)}${end}`)
        expect([400, 404], `${path}${text}`).toContain(status)
      }
  })
})

/** A ZIP of one entry that says, truly or not, how much it unpacks to. */
function zip(name: string, data: Buffer, claimed: number): Uint8Array<ArrayBuffer> {
  const packed = deflateRawSync(data)
  const local = Buffer.alloc(30 + name.length)
  local.writeUInt32LE(0x04034b50, 0)
  local.writeUInt16LE(8, 8)
  local.writeUInt32LE(packed.length, 18)
  local.writeUInt32LE(claimed, 22)
  local.writeUInt16LE(name.length, 26)
  local.write(name, 30)
  const central = Buffer.alloc(46 + name.length)
  central.writeUInt32LE(0x02014b50, 0)
  central.writeUInt16LE(8, 10)
  central.writeUInt32LE(packed.length, 20)
  central.writeUInt32LE(claimed, 24)
  central.writeUInt16LE(name.length, 28)
  central.write(name, 46)
  const end = Buffer.alloc(22)
  end.writeUInt32LE(0x06054b50, 0)
  end.writeUInt16LE(1, 8)
  end.writeUInt16LE(1, 10)
  end.writeUInt32LE(central.length, 12)
  end.writeUInt32LE(local.length + packed.length, 16)
  return new Uint8Array(Buffer.concat([local, packed, central, end]))
}

describe('files that are meant to hurt', () => {
  const read = (body: Uint8Array<ArrayBuffer> | string) =>
    house.app.request('/api/import/lots/read', { method: 'POST', body })

  it('that unpack to far more than they hold are refused before they are unpacked', async () => {
    const begun = performance.now()
    const response = await read(zip('xl/worksheets/sheet1.xml', Buffer.alloc(50_000_000), 50_000_000))
    expect(response.status).toBe(400)
    expect(await response.text()).toMatch(/unpacks to more than/)
    expect(performance.now() - begun).toBeLessThan(3000)
  })

  it('that lie about what they unpack to are not taken, and do not fill the memory', async () => {
    const before = process.memoryUsage().rss
    const response = await read(zip('xl/worksheets/sheet1.xml', Buffer.alloc(200_000_000, 'a'), 1000))
    expect(response.status).toBe(400)
    expect(process.memoryUsage().rss - before).toBeLessThan(400_000_000)
  })

  it('larger than allowed are refused while they stream in', async () => {
    const response = await read('a,b\n'.repeat(1_500_000))
    expect(response.status).toBe(413)
    const json = await house.ask('POST', '/api/entries', `"${'x'.repeat(1_200_000)}"`)
    expect(json.status).toBe(413)
  })
})
