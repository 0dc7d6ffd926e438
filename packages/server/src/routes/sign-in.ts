import { getConnInfo } from '@hono/node-server/conninfo'
import { Hono, type Context, type MiddlewareHandler } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { createAttempts } from '../access/attempts.ts'
import { checkPassphrase } from '../access/passphrase.ts'
import { createSessions, sessionSeconds } from '../access/sessions.ts'
import type { AppEnv } from '../context.ts'
import { jsonLimit } from '../http/body.ts'
import { refuse } from '../http/refusal.ts'
import { signInPage, signInStyle } from './sign-in-page.ts'

const cookie = 'forcemeat-session'
const open = new Set(['/api/sign-in', '/api/health', '/sign-in', '/sign-in.css'])

const addressOf = (c: Context<AppEnv>): string => {
  try {
    return getConnInfo(c).remote.address ?? 'unknown'
  } catch {
    return 'unknown'
  }
}

async function phraseIn(c: Context<AppEnv>): Promise<string> {
  const text = await c.req.text()
  if (c.req.header('content-type')?.startsWith('application/x-www-form-urlencoded'))
    return new URLSearchParams(text).get('passphrase') ?? ''
  try {
    const given: unknown = (JSON.parse(text) as Record<string, unknown>)['passphrase']
    return typeof given === 'string' ? given : ''
  } catch {
    throw refuse(400, 'is not JSON; allowed: { "passphrase": "…" }', '(body)')
  }
}

/** Signing in and out, and the gate in front of all else; only where a passphrase is set. */
export function access(kept: string, now: () => Date): { gate: MiddlewareHandler<AppEnv>; routes: Hono<AppEnv> } {
  const sessions = createSessions(now)
  const attempts = createAttempts(now)
  let busy: Promise<unknown> = Promise.resolve()
  /** One at a time: each check takes memory and a core, which many at once would take from the work. */
  const check = (phrase: string): Promise<boolean> => {
    const mine = busy.then(() => checkPassphrase(phrase, kept))
    busy = mine.catch(() => undefined)
    return mine
  }

  const gate: MiddlewareHandler<AppEnv> = async (c, next) => {
    if (open.has(c.req.path) || sessions.holds(getCookie(c, cookie))) return next()
    if (/^\/(api|paper)(\/|$)/.test(c.req.path) || c.req.method !== 'GET')
      throw refuse(401, 'sign in first, at /sign-in')
    return c.redirect('/sign-in', 303)
  }

  const routes = new Hono<AppEnv>()
    .get('/sign-in', (c) => c.html(signInPage(c.req.query('wrong') !== undefined)))
    .get('/sign-in.css', (c) => c.body(signInStyle, 200, { 'content-type': 'text/css; charset=utf-8' }))
    .post('/api/sign-in', jsonLimit, async (c) => {
      const form = c.req.header('content-type')?.startsWith('application/x-www-form-urlencoded') ?? false
      const phrase = await phraseIn(c)
      const address = addressOf(c)
      // Asked and counted with nothing in between, and before the check: many tries sent at once are not all let through.
      const wait = attempts.wait(address)
      if (wait > 0) {
        c.header('retry-after', String(wait))
        throw refuse(429, `too many wrong passphrases; try again in ${Math.ceil(wait / 60)} minutes`, 'passphrase')
      }
      attempts.failed(address)
      if (phrase.length > 1000 || !(await check(phrase))) {
        if (form) return c.redirect('/sign-in?wrong', 303)
        throw refuse(401, 'is not the passphrase', 'passphrase')
      }
      attempts.passed(address)
      const https = new URL(c.req.url).protocol === 'https:' || c.req.header('x-forwarded-proto') === 'https'
      setCookie(c, cookie, sessions.open(), {
        httpOnly: true,
        sameSite: 'Strict',
        path: '/',
        maxAge: sessionSeconds,
        secure: https,
      })
      return form ? c.redirect('/', 303) : c.json({ ok: true })
    })
    .post('/api/sign-out', (c) => {
      sessions.close(getCookie(c, cookie))
      deleteCookie(c, cookie, { path: '/' })
      return c.json({ ok: true })
    })
  return { gate, routes }
}
