import { spawn, type ChildProcess } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const main = fileURLToPath(new URL('../../packages/cli/src/main.ts', import.meta.url))

export type RunningServer = {
  readonly url: string
  readonly folder: string
  readonly child: ChildProcess
  /** Ends it as a person would; `keep` leaves its record, for another to be started on it. */
  readonly stop: (how?: { keep?: boolean }) => Promise<void>
}

type Start = {
  readonly demo: boolean
  /** Where it was before, so that browsers find it again. */
  readonly port?: number
  readonly folder?: string
}

/** `forcemeat serve` with a record of its own, on a free port unless told, as a person would start it. */
export function startServer({
  demo,
  port = 0,
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-e2e-')),
}: Start): Promise<RunningServer> {
  const child = spawn(
    process.execPath,
    [main, 'serve', '--port', String(port), '--folder', folder, ...(demo ? ['--demo'] : [])],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  )
  return new Promise((resolve, reject) => {
    let said = ''
    const stop = ({ keep = false } = {}) =>
      new Promise<void>((done) => {
        child.once('exit', () => {
          if (!keep) rmSync(folder, { recursive: true, force: true })
          done()
        })
        child.kill('SIGTERM')
      })
    const hear = (chunk: Buffer) => {
      said += chunk.toString()
      const url = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0]
      if (url) resolve({ url, folder, child, stop })
    }
    child.stdout.on('data', hear)
    child.stderr.on('data', hear)
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}: ${said}`)))
    setTimeout(() => reject(new Error(`the server did not say where it is: ${said}`)), 20_000).unref()
  })
}
