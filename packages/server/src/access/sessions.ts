import { createHash, randomBytes } from 'node:crypto'

/** How long a sign-in lasts. */
export const sessionSeconds = 12 * 60 * 60
const most = 1000

export type Sessions = {
  /** A new token: 256 random bits. Only its hash is kept. */
  readonly open: () => string
  readonly holds: (token: string | undefined) => boolean
  readonly close: (token: string | undefined) => void
}

const digest = (token: string): string => createHash('sha256').update(token).digest('hex')

/** Sessions of one run of the server; a restart signs everybody out. */
export function createSessions(now: () => Date): Sessions {
  const until = new Map<string, number>()
  const sweep = () => {
    const at = now().getTime()
    for (const [key, end] of until) if (end <= at) until.delete(key)
    // The oldest give way, so that signing in over and over cannot fill the memory.
    while (until.size >= most) until.delete(until.keys().next().value!)
  }
  return {
    open: () => {
      sweep()
      const token = randomBytes(32).toString('base64url')
      until.set(digest(token), now().getTime() + sessionSeconds * 1000)
      return token
    },
    holds: (token) => token !== undefined && (until.get(digest(token)) ?? 0) > now().getTime(),
    close: (token) => {
      if (token !== undefined) until.delete(digest(token))
    },
  }
}
