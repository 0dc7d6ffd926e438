import { basename, dirname, join } from 'node:path'
import { Hono } from 'hono'
import { copyFeeds } from '../backup/feeds.ts'
import type { Backups } from '../backup/schedule.ts'
import type { AppEnv, House } from '../context.ts'

/** A copy of the record beside it, made while work goes on and held against the original before it is named. */
export const backupRoutes = ({ ledger, now }: House, backups: Backups) =>
  new Hono<AppEnv>()
    .get('/api/backup', (c) => c.json(backups.state()))
    .post('/api/backup', async (c) => {
      const stamp = now().toISOString().replaceAll(/[:.]/g, '')
      const target = join(dirname(ledger.file), 'backups', `record-${stamp}.db`)
      const feeds = await copyFeeds(ledger.file, target)
      const report = await ledger.backup(target)
      return c.json({ ...report, feeds, file: join('backups', basename(report.file)) }, 201)
    })
