import type { MiddlewareHandler } from 'hono'
import type { AppEnv } from '../context.ts'
import { refuse } from './refusal.ts'

const loopback = new Set(['localhost', '127.0.0.1', '[::1]'])

/** True for an address only this machine can reach. */
export const isLoopback = (host: string): boolean =>
  loopback.has(host) || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host)

const hostNameOf = (host: string): string => host.replace(/:\d+$/, '').toLowerCase()

/**
 * On loopback only the machine's own names are answered: a page elsewhere that points a name of its own at 127.0.0.1
 * (DNS rebinding) is then refused.
 */
export const onlyOwnNames: MiddlewareHandler<AppEnv> = async (c, next) => {
  const host = c.req.header('host') ?? new URL(c.req.url).host
  if (!isLoopback(hostNameOf(host)))
    throw refuse(421, 'this server answers only to localhost, 127.0.0.1 and [::1]', 'host')
  await next()
}

const safe = new Set(['GET', 'HEAD', 'OPTIONS'])

/** What changes something must come from the server's own pages, or from a program that is no browser and sends no origin. */
export const onlyOwnOrigin: MiddlewareHandler<AppEnv> = async (c, next) => {
  if (!safe.has(c.req.method)) {
    const host = c.req.header('host') ?? new URL(c.req.url).host
    const origin = c.req.header('origin')
    const site = c.req.header('sec-fetch-site')
    // A form sent from a page that names no referrer has the origin "null"; what the browser says of the site then tells.
    const own =
      origin === undefined ||
      (origin === 'null' && site === 'same-origin') ||
      (URL.canParse(origin) && new URL(origin).host === host)
    if (!own || (site !== undefined && site !== 'same-origin' && site !== 'none'))
      throw refuse(403, 'a page of another site may not change anything here', 'origin')
  }
  await next()
}
