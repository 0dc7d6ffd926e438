import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { openLedger } from '@forcemeat/ledger'
import { describe, expect, it } from 'vitest'

const main = fileURLToPath(new URL('../packages/cli/src/main.ts', import.meta.url))
const ROUNDS = Number(process.env['SERVER_KILL_ROUNDS'] ?? 20)

/** A repeatable source of numbers in [0, 1). */
const seeded = (seed: number) => () => {
  seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0
  return seed / 2 ** 32
}

async function start(folder: string): Promise<{ url: string; kill: () => Promise<void> }> {
  const child = spawn(process.execPath, [main, 'serve', '--port', '0', '--folder', folder, '--quiet'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  })
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  const url = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString()
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0]
      if (found) resolve(found)
    })
    child.once('exit', () => reject(new Error(`the server ended: ${said}`)))
  })
  return {
    url,
    kill: () => {
      child.kill('SIGKILL')
      return ended
    },
  }
}

const post = (url: string, body: unknown) =>
  fetch(`${url}/api/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: url },
    body: JSON.stringify(body),
  })

describe('a server killed while it writes', () => {
  it(`loses no acknowledged entry in ${ROUNDS} rounds, and the chain verifies`, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'forcemeat-kill-'))
    const random = seeded(20261125)
    const acknowledged = new Set<string>()
    let sent = 0
    try {
      for (let round = 0; round < ROUNDS; round++) {
        const { url, kill } = await start(folder)
        if (round === 0) {
          await post(url, [
            { kind: 'person.add', by: 'ida', body: { person: 'ida', name: 'Ida', role: 'owner' } },
            {
              kind: 'lot.receive',
              by: 'ida',
              body: { lot: 'L1', material: 'pork-shoulder-trim', kg: 100, on: '2025-11-20' },
            },
          ])
        }
        const stop = new AbortController()
        const writers = Array.from({ length: 4 }, async () => {
          while (!stop.signal.aborted) {
            const note = `count ${++sent}`
            const answer = await post(url, {
              kind: 'lot.adjust',
              by: 'ida',
              key: note,
              body: { lot: 'L1', kg: sent % 2 ? 0.5 : -0.5, reason: 'count', on: '2025-11-25', note },
            }).catch(() => undefined)
            if (answer?.status === 201) acknowledged.add(note)
          }
        })
        await new Promise((resolve) => setTimeout(resolve, 20 + random() * 120))
        await kill()
        stop.abort()
        await Promise.all(writers)
      }
      const ledger = await openLedger({ folder })
      const report = await ledger.verify()
      const kept = new Set(
        (await ledger.entries({ kind: 'lot.adjust', limit: 1000 })).map((e) => (e.body as { note?: string }).note),
      )
      for (let after = 0; ;) {
        const page = await ledger.entries({ kind: 'lot.adjust', after, limit: 1000 })
        for (const e of page) kept.add((e.body as { note?: string }).note)
        if (page.length === 0) break
        after = page.at(-1)!.seq
      }
      await ledger.close()
      expect(report.ok).toBe(true)
      expect(acknowledged.size).toBeGreaterThan(ROUNDS)
      expect([...acknowledged].filter((note) => !kept.has(note))).toEqual([])
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  }, 400_000)
})
