import { createHash, randomBytes } from 'node:crypto'
import type { Shown } from './roles.ts'

/** How long a sign-in lasts. */
export const sessionSeconds = 12 * 60 * 60
const most = 1000

/** Whose session it is; nobody's in particular where the kitchen has one passphrase for all. */
export type Held = { readonly person?: string; readonly by: Shown; readonly pinFails: number }

export type Sessions = {
  /** A new token: 256 random bits. Only its hash is kept. */
  readonly open: (held?: Held) => string
  readonly holds: (token: string | undefined) => boolean
  readonly find: (token: string | undefined) => Held | undefined
  /** Change whose session it is; its end stays where it was. */
  readonly change: (token: string | undefined, held: Held) => void
  readonly close: (token: string | undefined) => void
  /** End every session of a person. */
  readonly closeOf: (person: string, except?: string) => void
}

const digest = (token: string): string => createHash('sha256').update(token).digest('hex')
const kitchen: Held = { by: 'passphrase', pinFails: 0 }

/** Sessions of one run of the server; a restart signs everybody out. */
export function createSessions(now: () => Date): Sessions {
  const sessions = new Map<string, { readonly until: number; readonly held: Held }>()
  const sweep = () => {
    const at = now().getTime()
    for (const [key, { until }] of sessions) if (until <= at) sessions.delete(key)
    // The oldest give way, so that signing in over and over cannot fill the memory.
    while (sessions.size >= most) sessions.delete(sessions.keys().next().value!)
  }
  const find = (token: string | undefined) => {
    const found = token === undefined ? undefined : sessions.get(digest(token))
    return found && found.until > now().getTime() ? found : undefined
  }
  return {
    open: (held = kitchen) => {
      sweep()
      const token = randomBytes(32).toString('base64url')
      sessions.set(digest(token), { until: now().getTime() + sessionSeconds * 1000, held })
      return token
    },
    holds: (token) => find(token) !== undefined,
    find: (token) => find(token)?.held,
    change: (token, held) => {
      const found = find(token)
      if (found && token !== undefined) sessions.set(digest(token), { ...found, held })
    },
    close: (token) => {
      if (token !== undefined) sessions.delete(digest(token))
    },
    closeOf: (person, except) => {
      const kept = except === undefined ? undefined : digest(except)
      for (const [key, { held }] of sessions) if (held.person === person && key !== kept) sessions.delete(key)
    },
  }
}
