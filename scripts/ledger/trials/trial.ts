import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { openLedger, RecordError, type Draft, type Ledger, type VerifyReport } from '@forcemeat/ledger'
import { setting, tell } from './every-kind.ts'

/** What came of a trial: one line, and what went wrong, none where all held. */
export type Outcome = { readonly said: string; readonly faults: readonly string[] }
export type Trial = {
  readonly name: string
  /** Short: what a test run has time for. */
  readonly run: (short: boolean) => Promise<Outcome>
}

const main = fileURLToPath(new URL('../../../packages/cli/src/main.ts', import.meta.url))

/** Tell stories to a ledger; what was acknowledged, by number. */
export async function told(ledger: Ledger, from: number, count: number, kept = new Map<number, string>()) {
  const listener = {
    append: async (drafts: readonly Draft[]) => {
      const entries = await ledger.append(drafts)
      for (const e of entries) kept.set(e.seq, e.hash)
      return entries
    },
    putFile: (data: Uint8Array) => ledger.putFile(data),
  }
  await listener.append(setting)
  for (let n = from; n < from + count; n += 1) await tell(n, listener)
  return kept
}

/** A record of some stories, closed: its file, its entries and its end. */
export async function record(folder: string, stories: number) {
  const ledger = await openLedger({ folder })
  const kept = await told(ledger, 0, stories)
  const { entries, head } = await ledger.head()
  await ledger.close()
  return { file: ledger.file, kept, end: { entries, head: head! } }
}

/** Acknowledged entries that are not there, as faults. */
export async function missing(ledger: Ledger, kept: ReadonlyMap<number, string>): Promise<string[]> {
  const faults: string[] = []
  for (const [seq, hash] of kept)
    if ((await ledger.entry(seq))?.hash !== hash) faults.push(`acknowledged entry ${seq} is lost`)
  return faults
}

/** What opening and verifying says of a record: nothing wrong, a report of what is, or a refusal by name. */
export async function examine(
  folder: string,
  expect: { readonly entries: number; readonly head: string },
): Promise<{ readonly refused: RecordError } | { readonly report: VerifyReport }> {
  let ledger: Ledger | undefined
  try {
    ledger = await openLedger({ folder })
    return { report: await ledger.verify({ views: true, expect }) }
  } catch (error) {
    if (error instanceof RecordError) return { refused: error }
    throw error
  } finally {
    await ledger?.close()
  }
}

/** Start the server on a folder in which it should refuse to; its exit code and what it said. */
export function refusedStart(folder: string): Promise<{ readonly code: number | null; readonly said: string }> {
  return new Promise((resolve, reject) => {
    const server = spawn(process.execPath, [main, 'serve', '--port', '0', '--folder', folder, '--quiet'])
    let said = ''
    const enough = setTimeout(() => server.kill('SIGKILL'), 20_000)
    server.stdout.on('data', (d: Buffer) => {
      said += d.toString()
      if (said.includes('http://')) server.kill('SIGKILL')
    })
    server.stderr.on('data', (d: Buffer) => (said += d.toString()))
    server.on('error', reject)
    server.on('close', (code) => {
      clearTimeout(enough)
      resolve({ code, said: said.trim() })
    })
  })
}

export type Serving = { readonly url: string; readonly stop: (signal?: NodeJS.Signals) => Promise<void> }

/** Start the server and wait until it answers. */
export async function serving(folder: string): Promise<Serving> {
  const server = spawn(process.execPath, [main, 'serve', '--port', '0', '--folder', folder, '--quiet'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  })
  const ended = new Promise<void>((resolve) => server.once('exit', () => resolve()))
  const url = await new Promise<string>((resolve, reject) => {
    let said = ''
    server.stdout.on('data', (d: Buffer) => {
      said += d.toString()
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0]
      if (found) resolve(found)
    })
    server.once('exit', () => reject(new Error(`the server ended: ${said}`)))
  })
  return {
    url,
    stop: (signal = 'SIGTERM') => {
      server.kill(signal)
      return ended
    },
  }
}
