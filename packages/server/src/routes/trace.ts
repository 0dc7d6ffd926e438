import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { notHere } from '../http/refusal.ts'

/** From a lot forward to customers, from a pack back to suppliers. */
export const traceRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/trace/lot/:lot', async (c) => {
      const found = await ledger.traceLot(c.req.param('lot'))
      if (!found) throw notHere('lot', c.req.param('lot'))
      return c.json(found)
    })
    .get('/api/trace/pack/:pack', async (c) => {
      const found = await ledger.tracePack(c.req.param('pack'))
      if (!found) throw notHere('pack', c.req.param('pack'))
      return c.json(found)
    })
