import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { notHere } from '../http/refusal.ts'
import type { Doubts } from '../judge/doubts.ts'

/** Who works here, on what; and what is in hand today. */
export const kitchenRoutes = ({ ledger }: House, doubts: Doubts) =>
  new Hono<AppEnv>()
    .get('/api/kitchen', async (c) => {
      const [kitchen, people, instruments] = await Promise.all([
        ledger.kitchen(),
        ledger.people(),
        ledger.instruments(),
      ])
      return c.json({ ...(kitchen ? { kitchen } : {}), people, instruments })
    })
    .get('/api/instruments/:instrument', async (c) => {
      const id = c.req.param('instrument')
      const found = await ledger.instrument(id)
      if (!found) throw notHere('instrument', id)
      return c.json(found)
    })
    .get('/api/today', async (c) => {
      const today = await ledger.today()
      return c.json({ ...today, batchesInDoubt: await doubts.list(today.on) })
    })
