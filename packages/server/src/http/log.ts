import { randomBytes } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'
import type { AppEnv } from '../context.ts'

/** One line of the log: JSON, no body, no query, no cookie. */
export type LogLine = Readonly<Record<string, string | number>>
export type Log = (line: LogLine) => void

/** To standard error, one JSON object a line. */
export const logToStderr: Log = (line) => {
  process.stderr.write(`${JSON.stringify(line)}\n`)
}

/** Gives each request an id, answers with it, and writes one line when it has been answered. */
export function logRequests(log: Log, now: () => Date): MiddlewareHandler<AppEnv> {
  return async (c, next) => {
    const begun = performance.now()
    const id = randomBytes(9).toString('base64url')
    c.set('requestId', id)
    await next()
    c.header('x-request-id', id)
    const error = c.get('error')
    log({
      at: now().toISOString(),
      level: c.res.status >= 500 ? 'error' : 'info',
      id,
      method: c.req.method,
      path: c.req.path.slice(0, 200),
      status: c.res.status,
      ms: Number((performance.now() - begun).toFixed(1)),
      ...(error ? { error: String(error.stack ?? error).slice(0, 4000) } : {}),
    })
  }
}
