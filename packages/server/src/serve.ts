import { existsSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { createAdaptorServer } from '@hono/node-server'
import { openLedger } from '@forcemeat/ledger'
import { readPassphrase } from './access/passphrase.ts'
import type { BackupPlan } from './backup/schedule.ts'
import { openSecrets } from './access/secrets.ts'
import { createApp } from './app.ts'
import { isLoopback } from './http/guard.ts'
import { logToStderr, type Log } from './http/log.ts'
import { refuseWrites, verifyAtStart, verifyBeside } from './integrity.ts'

export type ServeOptions = {
  readonly host?: string
  readonly port?: number
  /** The record's folder. */
  readonly folder: string
  /** Folder of the built workbench; the one in this checkout where it is built. */
  readonly web?: string
  readonly log?: Log
  readonly backups?: BackupPlan
}

export type Serving = {
  readonly url: string
  /** True where a passphrase is asked for. */
  readonly guarded: boolean
  /** Answer what has come in, end the live lines, finish what is being written, close the record. */
  readonly close: () => Promise<void>
}

/** Thrown where the server may not or cannot listen as asked. */
export class CannotServe extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'CannotServe'
  }
}

const builtWorkbench = (): string | undefined => {
  const dist = fileURLToPath(new URL('../../web/dist', import.meta.url))
  return existsSync(dist) ? dist : undefined
}

const listen = (server: Server, port: number, host: string): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', (cause: NodeJS.ErrnoException) => {
      const why =
        cause.code === 'EADDRINUSE'
          ? `port ${port} on ${host} is in use; stop what uses it, or give another with --port`
          : `cannot listen on ${host} port ${port}: ${cause.message}`
      reject(new CannotServe(why, { cause }))
    })
    server.listen(port, host, resolve)
  })

/**
 * Open the record and answer on a socket: this machine only, unless told and a passphrase is set.
 * @throws CannotServe where it may not or cannot listen; RecordError where the record cannot be opened
 */
export async function serve({
  host = '127.0.0.1',
  port = 8117,
  folder,
  web,
  log,
  backups,
}: ServeOptions): Promise<Serving> {
  const loopback = isLoopback(host)
  const passphrase = await readPassphrase(folder)
  const guarded = passphrase !== undefined || openSecrets(folder).inUse()
  if (!loopback && !guarded)
    throw new CannotServe(
      `listening on ${host} would let others on the network in, and no passphrase is set; set one with "forcemeat passphrase", or leave --host out to serve this machine only`,
    )
  const opened = await openLedger({ folder })
  let beside: boolean
  try {
    beside = await verifyAtStart(opened)
  } catch (error) {
    await opened.close()
    throw error
  }
  const { ledger, integrity, found } = refuseWrites(opened)
  if (!beside) found(undefined)
  const app = createApp({
    ledger,
    integrity,
    web: web ?? builtWorkbench(),
    passphrase,
    loopback,
    ...(log ? { log } : {}),
    ...(backups ? { backups } : {}),
  })
  const server = createAdaptorServer({ fetch: app.fetch, createServer }) as Server
  // Slow senders are let go; a file of the largest size has five minutes.
  server.headersTimeout = 20_000
  server.requestTimeout = 300_000
  try {
    await listen(server, port, host)
  } catch (error) {
    await ledger.close()
    throw error
  }
  const looking = beside ? verifyBeside(ledger.file, log ?? logToStderr, found) : undefined
  const at = server.address() as AddressInfo
  let closing: Promise<void> | undefined
  const close = async (): Promise<void> => {
    const ended = new Promise<void>((resolve) => server.close(() => resolve()))
    app.hangUp()
    looking?.stop()
    // A connection kept for a next request would hold the server open until it times out.
    const sweep = setInterval(() => server.closeIdleConnections(), 50)
    server.closeIdleConnections()
    // What is still open after a while is let go; acknowledged entries are on the disk already.
    const enough = setTimeout(() => server.closeAllConnections(), 5_000)
    await ended
    clearInterval(sweep)
    clearTimeout(enough)
    await app.settled()
    await ledger.close()
  }
  return {
    url: `http://${at.family === 'IPv6' ? `[${at.address}]` : at.address}:${at.port}/`,
    guarded,
    close: () => (closing ??= close()),
  }
}
