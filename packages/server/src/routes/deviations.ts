import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { notHere } from '../http/refusal.ts'

/** Deviations with what was done about them; instruments found wrong and the batches they touched; businesses. */
export const deviationRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/deviations', async (c) => c.json({ deviations: await ledger.deviations() }))
    .get('/api/deviations/:deviation', async (c) => {
      const [found] = await ledger.deviations(c.req.param('deviation'))
      if (!found) throw notHere('deviation', c.req.param('deviation'))
      return c.json(found)
    })
    .get('/api/doubts', async (c) => c.json({ doubts: await ledger.doubts() }))
    .get('/api/businesses', async (c) => c.json({ businesses: await ledger.businesses() }))
