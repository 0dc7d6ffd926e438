import { readFileSync } from 'node:fs'
import { request } from 'node:http'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { startServer, type RunningServer } from '../../../../test/support/server.ts'

let server: RunningServer
let before = 0
const entriesNow = async (): Promise<number> =>
  ((await (await fetch(`${server.url}/api/health`)).json()) as { entries: number }).entries
beforeAll(async () => {
  server = await startServer({ demo: true })
  before = await entriesNow()
}, 60_000)
afterAll(() => server?.stop())

const megabytes = 100
const chunk = Buffer.alloc(1_000_000, 0x20)

/** Most memory the server's process has had resident, MB. */
const highWater = (): number =>
  Number(/VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${server.child.pid}/status`, 'utf8'))![1]) / 1000

type Outcome = { readonly status: number; readonly sentMb: number; readonly text: string }

/** Send a hundred megabytes, as fast as they are taken; stop when an answer comes or the line is cut. */
function send(method: string, path: string, says: boolean): Promise<Outcome> {
  return new Promise((resolve) => {
    let sent = 0
    let answered: Outcome | undefined
    const done = (o: Outcome): void => {
      answered ??= o
      resolve(answered)
    }
    const req = request(
      `${server.url}${path}`,
      {
        method,
        headers: says ? { 'content-length': String(megabytes * chunk.length) } : { 'transfer-encoding': 'chunked' },
      },
      (res) => {
        let text = ''
        res.on('data', (d: Buffer) => (text += d.toString()))
        res.on('end', () => {
          done({ status: res.statusCode ?? 0, sentMb: sent, text })
          req.destroy()
        })
        res.on('error', () => done({ status: res.statusCode ?? 0, sentMb: sent, text }))
      },
    )
    // A server that answers and hangs up while more is on its way cuts the line: that too is an end of it.
    req.on('error', () => setTimeout(() => done({ status: 0, sentMb: sent, text: '' }), 50))
    const more = (): void => {
      if (answered || req.destroyed) return
      if (sent === megabytes) return void req.end()
      sent += 1
      req.write(chunk, () => setImmediate(more))
    }
    more()
  })
}

const routes = [
  ['POST', '/api/entries'],
  ['PUT', '/api/files'],
  ['POST', '/api/curves/read'],
  ['POST', '/api/import/lots/read'],
  ['POST', '/api/recipes/read'],
  ['POST', '/api/calc/heat.lethality'],
  ['POST', '/api/batches/RING-0119/decide'],
  ['POST', '/api/labels/proof'],
  ['POST', '/api/hazard-plan/smoked-ring/sign'],
  ['POST', '/api/people/ida/pin'],
  ['POST', '/api/feed/RING-0119/readings'],
] as const

describe('a hundred megabytes sent for real', () => {
  it.each(routes)('to %s %s are refused by what they say they are, before they are read', async (method, path) => {
    const { status, sentMb } = await send(method, path, true)
    expect([413, 0]).toContain(status)
    expect(sentMb).toBeLessThan(30)
  })

  it.each(routes)('to %s %s without saying so are cut off where the limit is', async (method, path) => {
    const held = highWater()
    const { status } = await send(method, path, false)
    expect([413, 0]).toContain(status)
    // The largest limit is 64 MB; nothing is held of what is beyond it.
    expect(highWater() - held).toBeLessThan(260)
  })

  it('leave the server answering, with its record as it was', async () => {
    expect(await entriesNow()).toBe(before)
    expect(highWater()).toBeLessThan(700)
  })
})
