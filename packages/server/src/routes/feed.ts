import { list, oneOf, text } from '@forcemeat/craft/schema'
import { code } from '@forcemeat/ledger/facts'
import type { BatchRecord } from '@forcemeat/ledger'
import { Hono } from 'hono'
import { z } from 'zod'
import { signedBy } from '../access/entries.ts'
import type { AppEnv, House } from '../context.ts'
import { closeFeed } from '../feed/close.ts'
import { channelsOf, parseReadings, type FeedReading } from '../feed/reading.ts'
import type { Feed, Feeds } from '../feed/store.ts'
import { jsonLimit, readJson, readQuery, readShaped } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere, refuse } from '../http/refusal.ts'

const query = z.strictObject({ after: whole(0, 1e9).optional() })

const closing = z.strictObject({
  by: code(),
  purpose: oneOf(['cook-and-chill', 'cook', 'chill', 'ferment', 'dry']),
  channels: list(
    z.strictObject({
      channel: text(60),
      role: oneOf(['core', 'house', 'surface', 'wet-bulb', 'humidity', 'ignore']),
      instrument: code().optional(),
    }),
    { min: 1, max: 16 },
  ),
  note: text(2000).optional(),
  key: text(100).optional(),
})

/** A reading by the name its figure was sent under: tempC or rhPct. */
const sentAs = ({ channel, of, value }: FeedReading) => ({ channel, [of]: value })

const shown = (feed: Feed, after = 0) => ({
  batch: feed.batch,
  opened: feed.opened,
  /** Instant of minute 0. */
  origin: new Date(feed.origin).toISOString(),
  channels: [...channelsOf(feed.readings).keys()],
  count: feed.readings.length,
  readings: feed.readings.slice(after).map((r) => ({ minute: r.t / 60_000, ...sentAs(r) })),
})

const over = new Set(['released', 'packed'])

/** Readings of a batch while it cooks, chills, sours or dries: posted, kept, read again, closed into the record. */
export function feedRoutes({ ledger, now }: House, feeds: Feeds) {
  const batchOf = async (id: string): Promise<BatchRecord> => {
    const record = await ledger.batch(id)
    if (!record) throw notHere('batch', id)
    return record
  }
  return new Hono<AppEnv>()
    .get('/api/feed', async (c) => {
      const open = await Promise.all((await feeds.batches()).map((b) => feeds.feed(b)))
      return c.json({
        feeds: open.flatMap((f) => {
          if (!f) return []
          const { readings: _, ...rest } = shown(f, f.readings.length)
          const last = f.readings.at(-1)
          return [{ ...rest, ...(last ? { last: { t: last.t, ...sentAs(last) } } : {}) }]
        }),
      })
    })
    .get('/api/feed/:batch', async (c) => {
      const { batch } = await batchOf(c.req.param('batch'))
      const feed = await feeds.feed(batch)
      const { after = 0 } = readQuery(c, query)
      if (!feed) return c.json({ batch, open: false, channels: [], count: 0, readings: [] })
      return c.json({ open: true, ...shown(feed, after) })
    })
    .post('/api/feed/:batch/readings', jsonLimit, async (c) => {
      const record = await batchOf(c.req.param('batch'))
      if (over.has(record.state))
        throw refuse(
          409,
          `batch ${record.batch} is ${record.state}; allowed: a batch that is not released yet`,
          'batch',
        )
      const readings = parseReadings(await readJson(c))
      const { feed, added } = await feeds.add(record.batch, readings, now())
      return c.json(
        { batch: feed.batch, added, count: feed.readings.length, origin: new Date(feed.origin).toISOString() },
        201,
      )
    })
    .post('/api/feed/:batch/close', jsonLimit, async (c) => {
      const { batch } = await batchOf(c.req.param('batch'))
      const asked = await readShaped(c, closing)
      signedBy(c.get('identity'), asked.by)
      const { again, ...closed } = await feeds.close(batch, asked.key, (feed) => closeFeed(ledger, feed, asked))
      return c.json(closed, again ? 200 : 201)
    })
}
