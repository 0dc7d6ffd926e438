import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { refuse } from '../http/refusal.ts'

/** Fills an empty record with the invented kitchen; asked for by a person at first run, never done by itself. */
export const demoRoutes = ({ ledger }: House) => {
  let filling = false
  return new Hono<AppEnv>().post('/api/demo', async (c) => {
    const { entries } = await ledger.head()
    if (entries > 0 || filling)
      throw refuse(409, `the record holds ${entries} entries; the invented kitchen goes only into an empty one`)
    filling = true
    try {
      const { fillWithDemo } = await import('../demo/fill.ts')
      return c.json(await fillWithDemo(ledger), 201)
    } finally {
      filling = false
    }
  })
}
