import { Hono } from 'hono'
import { zoneOf } from '@forcemeat/ledger'
import type { AppEnv, House } from '../context.ts'
import type { Feeds } from '../feed/store.ts'
import { notHere } from '../http/refusal.ts'
import { judged } from '../judge/judged.ts'
import { chamberLogs } from '../slow/chamber.ts'
import { dryView } from '../slow/dry-view.ts'
import { feedLogs } from '../slow/feed-log.ts'
import { fermentView } from '../slow/ferment-view.ts'

/** The slow half of a batch: its fermentation and its drying, as they stand now. */
export const slowRoutes = ({ ledger }: House, feeds: Feeds) =>
  new Hono<AppEnv>()
    .get('/api/batches/:batch/ferment', async (c) => {
      const id = c.req.param('batch')
      const record = await ledger.batch(id)
      if (!record) throw notHere('batch', id)
      const feed = await feeds.feed(id)
      const logs = await chamberLogs(ledger, record, ['ferment'])
      const all = [...logs, ...feedLogs(feed)]
      const later = await chamberLogs(ledger, record, ['dry'])
      return c.json(
        fermentView({
          record,
          judgement: await judged(ledger, record),
          logs: all,
          later,
          timeZone: zoneOf(await ledger.kitchen()),
        }),
      )
    })
    .get('/api/batches/:batch/dry', async (c) => {
      const id = c.req.param('batch')
      const record = await ledger.batch(id)
      if (!record) throw notHere('batch', id)
      const [judgement, logs, rooms, feed] = await Promise.all([
        judged(ledger, record),
        chamberLogs(ledger, record, ['ferment', 'dry']),
        ledger.rooms(),
        feeds.feed(id),
      ])
      return c.json(
        dryView({
          record,
          judgement,
          logs: [...logs, ...feedLogs(feed)],
          rooms,
          timeZone: zoneOf(await ledger.kitchen()),
        }),
      )
    })
