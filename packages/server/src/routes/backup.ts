import { Hono } from 'hono'
import type { Backups } from '../backup/schedule.ts'
import type { AppEnv } from '../context.ts'

/** A copy of the record beside it, made while work goes on, and restored and held against the original before it is named. */
export const backupRoutes = (backups: Backups) =>
  new Hono<AppEnv>()
    .get('/api/backup', (c) => c.json(backups.state()))
    .post('/api/backup', async (c) => c.json(await backups.byHand(), 201))
