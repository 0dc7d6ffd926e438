import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import type { Door } from '../access/door.ts'
import { version } from '../version.ts'

/** Whether the server and its record answer. Before signing in it says no more than that. */
export const healthRoutes = ({ ledger, integrity }: House, door: Door) =>
  new Hono<AppEnv>().get('/api/health', async (c) => {
    const { entries, head } = await ledger.head()
    const record = integrity?.()
    // That the record is damaged is said to anybody; where, only inside the house.
    const ok = record?.chain !== 'broken'
    return c.json(
      door.mode() === 'open' ? { ok, version, entries, head, ...(record ? { record } : {}) } : { ok, version },
    )
  })
