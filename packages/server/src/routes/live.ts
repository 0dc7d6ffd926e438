import type { Entry } from '@forcemeat/ledger'
import { subjectsOf } from '@forcemeat/ledger/subjects'
import { Hono } from 'hono'
import { getCookie } from 'hono/cookie'
import { streamSSE } from 'hono/streaming'
import { cookie, type Door } from '../access/door.ts'
import type { AppEnv, House } from '../context.ts'
import type { Feeds } from '../feed/store.ts'
import { refuse } from '../http/refusal.ts'

/** Most lines open at once, and how often a line that has nothing to say shows that it lives. */
const mostLines = 100
const heartbeatMs = 15_000
/** Most entries told to a line that comes back; one that was away longer reads the record anew. */
const mostMissed = 500

const told = ({ seq, kind, ...rest }: Entry) => ({
  id: String(seq),
  event: 'entry',
  data: JSON.stringify({ seq, kind, about: subjectsOf({ kind, ...rest } as Entry).map((s) => `${s.type}:${s.id}`) }),
})

export type Live = { readonly routes: Hono<AppEnv>; readonly hangUp: () => void }

/** One event for each new entry, and for each lot of readings of a batch that cooks, for as long as the reader listens. */
export function liveRoutes({ ledger }: House, feeds: Feeds, door: Door): Live {
  const lines = new Set<() => void>()
  const routes = new Hono<AppEnv>().get('/api/live', async (c) => {
    if (lines.size >= mostLines) throw refuse(503, 'too many pages are listening')
    const since = /^\d{1,12}$/.exec(c.req.header('last-event-id') ?? '')
    c.header('cache-control', 'no-store')
    c.header('x-accel-buffering', 'no')
    return streamSSE(c, async (stream) => {
      let hang: () => void = () => undefined
      const over = new Promise<void>((resolve) => (hang = resolve))
      lines.add(hang)
      // One write after another, in the order of the record.
      let turn: Promise<unknown> = Promise.resolve()
      const send = (work: () => Promise<unknown>) => (turn = turn.then(work).catch(hang))
      const stop = ledger.onAppend((entries) => {
        void send(async () => {
          for (const entry of entries) await stream.writeSSE(told(entry))
        })
      })
      const stopFeeds = feeds.onReadings(({ batch, readings }) => {
        void send(() => stream.writeSSE({ event: 'feed', data: JSON.stringify({ batch, count: readings.length }) }))
      })
      stream.onAbort(hang)
      const token = getCookie(c, cookie)
      const beat = setInterval(() => {
        // A line outlives no session: who signed out, or left, hears nothing more.
        if (door.mode() !== 'open' && !door.sessions.holds(token)) hang()
        else void send(() => stream.write(': still here\n\n'))
      }, heartbeatMs)
      try {
        await send(() => stream.write('retry: 2000\n: listening\n\n'))
        if (since)
          for (const entry of await ledger.entries({ after: Number(since[0]), limit: mostMissed }))
            await send(() => stream.writeSSE(told(entry)))
        await over
      } finally {
        clearInterval(beat)
        stop()
        stopFeeds()
        lines.delete(hang)
      }
    })
  })
  return {
    routes,
    hangUp: () => {
      for (const hang of lines) hang()
    },
  }
}
