import { dirname } from 'node:path'
import type { PersonFacts } from '@forcemeat/ledger'
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context, MiddlewareHandler } from 'hono'
import { getCookie } from 'hono/cookie'
import type { AppEnv, House } from '../context.ts'
import { refuse } from '../http/refusal.ts'
import { createAttempts, type Attempts } from './attempts.ts'
import { needOf } from './needs.ts'
import { createPace } from './pace.ts'
import { checkPassphrase } from './passphrase.ts'
import { may, type Identity } from './roles.ts'
import { openSecrets, type Secrets } from './secrets.ts'
import { createSessions, type Sessions } from './sessions.ts'

/** Name of the session's cookie. */
export const cookie = 'forcemeat-session'

/**
 * `open`: nobody signs in; the machine is the kitchen's own. `kitchen`: one passphrase for all, and everybody says who they are.
 * `people`: each signs in as themselves, and may do what their role may.
 */
export type Mode = 'open' | 'kitchen' | 'people'

export type Door = {
  readonly mode: () => Mode
  readonly secrets: Secrets
  readonly sessions: Sessions
  /** Tries by address, by person, and by person with a PIN. */
  readonly attempts: { readonly address: Attempts; readonly person: Attempts; readonly pin: Attempts }
  readonly gate: MiddlewareHandler<AppEnv>
  /** Hold a secret against the kept one, one at a time; takes as long where nothing is kept. */
  readonly check: (secret: string, kept: string | undefined) => Promise<boolean>
  readonly personOf: (code: string) => Promise<PersonFacts | undefined>
}

/** An Argon2id hash of nothing anybody knows, so that a wrong name takes as long as a wrong passphrase. */
const nobody = '$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA'

export const addressOf = (c: Context<AppEnv>): string => {
  try {
    return getConnInfo(c).remote.address ?? 'unknown'
  } catch {
    return 'unknown'
  }
}

const safe = new Set(['GET', 'HEAD', 'OPTIONS'])
const what: Readonly<Record<string, string>> = {
  own: 'do this',
  read: 'read this',
  add: 'add to the record',
  decide: 'sign a decision',
  manage: 'do what is the owner’s to do',
}

/** What stands in front of every address: who is there, whether they may, and not too often. */
export function createDoor({ ledger, now, passphrase }: House): Door {
  const secrets = openSecrets(dirname(ledger.file))
  const sessions = createSessions(now)
  const pace = createPace(now)
  let busy: Promise<unknown> = Promise.resolve()
  const mode = (): Mode => (secrets.inUse() ? 'people' : passphrase === undefined ? 'open' : 'kitchen')
  const personOf = async (code: string): Promise<PersonFacts | undefined> =>
    (await ledger.people()).find((p) => p.person === code && p.left !== true)

  const signInFirst = (c: Context<AppEnv>): Response => {
    if (/^\/(api|paper)(\/|$)/.test(c.req.path) || c.req.method !== 'GET')
      throw refuse(401, 'sign in first, at /sign-in')
    return c.redirect('/sign-in', 303)
  }

  const inTime = (c: Context<AppEnv>, key: string): void => {
    const wait = pace(key, safe.has(c.req.method) ? 'read' : 'write')
    if (wait === 0) return
    c.header('retry-after', String(wait))
    throw refuse(429, `too many requests; try again in ${wait} s`)
  }

  const gate: MiddlewareHandler<AppEnv> = async (c, next) => {
    const at = mode()
    if (at === 'open') return next()
    const need = needOf(c.req.method, c.req.path)
    const token = getCookie(c, cookie)
    const held = sessions.find(token)
    if (at === 'kitchen') {
      if (need !== 'open' && !held) return signInFirst(c)
      if (held) inTime(c, token!)
      return next()
    }
    const person = held?.person === undefined ? undefined : await personOf(held.person)
    if (held && person) {
      inTime(c, token!)
      const identity: Identity = { person: person.person, role: person.role, by: held.by }
      c.set('identity', identity)
      if (!may(identity, need))
        throw refuse(
          403,
          held.by === 'pin' && may({ ...identity, by: 'passphrase' }, need)
            ? `a PIN is not enough to ${what[need]}; sign in with your passphrase`
            : `a ${person.role} may not ${what[need]}`,
          'role',
        )
    } else if (need !== 'open') return signInFirst(c)
    return next()
  }

  return {
    mode,
    secrets,
    sessions,
    attempts: {
      address: createAttempts(now),
      person: createAttempts(now, { each: 10, together: Infinity }),
      pin: createAttempts(now, { each: 5, together: Infinity }),
    },
    gate,
    check: (secret, kept) => {
      const mine = busy.then(async () => (await checkPassphrase(secret, kept ?? nobody)) && kept !== undefined)
      busy = mine.catch(() => undefined)
      return mine
    },
    personOf,
  }
}
