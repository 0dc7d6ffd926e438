import { Hono, type Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { addressOf, cookie, type Door } from '../access/door.ts'
import { kindsOf, may } from '../access/roles.ts'
import { sessionSeconds } from '../access/sessions.ts'
import type { AppEnv, House } from '../context.ts'
import { jsonLimit } from '../http/body.ts'
import { notHere, refuse } from '../http/refusal.ts'
import { signInPage, signInStyle } from './sign-in-page.ts'

type Typed = { readonly person: string; readonly passphrase: string; readonly form: boolean }

async function typedIn(c: Context<AppEnv>): Promise<Typed> {
  const text = await c.req.text()
  if (c.req.header('content-type')?.startsWith('application/x-www-form-urlencoded')) {
    const given = new URLSearchParams(text)
    return { person: given.get('person')?.trim() ?? '', passphrase: given.get('passphrase') ?? '', form: true }
  }
  let given: unknown
  try {
    given = JSON.parse(text)
  } catch {
    throw refuse(400, 'is not JSON; allowed: { "person": "…", "passphrase": "…" }', '(body)')
  }
  const field = (name: string): string => {
    const value: unknown = (given as Record<string, unknown> | null)?.[name]
    return typeof value === 'string' ? value : ''
  }
  return { person: field('person'), passphrase: field('passphrase'), form: false }
}

const minutes = (seconds: number): string => `${Math.ceil(seconds / 60)} minutes`

/** Signing in and out, and who is signed in. */
export function signInRoutes({ passphrase: kitchenPhrase }: House, door: Door): Hono<AppEnv> {
  const { sessions, secrets, attempts } = door
  const wrong = (c: Context<AppEnv>, form: boolean, message: string): Response => {
    if (form) return c.redirect('/sign-in?wrong', 303)
    throw refuse(401, message, 'passphrase')
  }
  return new Hono<AppEnv>()
    .get('/sign-in', (c) => c.html(signInPage(c.req.query('wrong') !== undefined, door.mode() === 'people')))
    .get('/sign-in.css', (c) => c.body(signInStyle, 200, { 'content-type': 'text/css; charset=utf-8' }))
    .get('/api/session', (c) => {
      const mode = door.mode()
      const identity = c.get('identity')
      if (!identity) return c.json({ mode })
      return c.json({
        mode,
        ...identity,
        kinds: kindsOf(identity),
        may: { decide: may(identity, 'decide'), manage: may(identity, 'manage') },
        // Who can take this tablet over in two taps.
        withPin: secrets.who().pin,
      })
    })
    .post('/api/sign-in', jsonLimit, async (c) => {
      const mode = door.mode()
      if (mode === 'open') throw notHere('sign-in', 'where no passphrase is set')
      const { person: code, passphrase, form } = await typedIn(c)
      const address = addressOf(c)
      // Asked and counted with nothing in between, and before the check: many tries sent at once are not all let through.
      const wait = Math.max(attempts.address.wait(address), mode === 'people' ? attempts.person.wait(code) : 0)
      if (wait > 0) {
        c.header('retry-after', String(wait))
        throw refuse(429, `too many wrong passphrases; try again in ${minutes(wait)}`, 'passphrase')
      }
      attempts.address.failed(address)
      if (mode === 'people') attempts.person.failed(code)
      const person = mode === 'people' ? await door.personOf(code) : undefined
      const kept = mode === 'people' ? person && secrets.of(person.person).passphrase : kitchenPhrase
      if (passphrase.length > 1000 || !(await door.check(passphrase, kept)))
        return wrong(c, form, mode === 'people' ? 'is not the passphrase of this person' : 'is not the passphrase')
      attempts.address.passed(address)
      if (mode === 'people') attempts.person.passed(code)
      sessions.close(getCookie(c, cookie))
      const https = new URL(c.req.url).protocol === 'https:' || c.req.header('x-forwarded-proto') === 'https'
      const held = { by: 'passphrase', pinFails: 0, ...(person ? { person: person.person } : {}) } as const
      setCookie(c, cookie, sessions.open(held), {
        httpOnly: true,
        sameSite: 'Strict',
        path: '/',
        maxAge: sessionSeconds,
        secure: https,
      })
      return form ? c.redirect('/', 303) : c.json({ ok: true, ...(person ? { person: person.person } : {}) })
    })
    .post('/api/sign-out', (c) => {
      sessions.close(getCookie(c, cookie))
      deleteCookie(c, cookie, { path: '/' })
      return c.json({ ok: true })
    })
}
