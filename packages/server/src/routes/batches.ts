import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { given, whole, words } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'
import { judged } from '../judge/judged.ts'
import { signedHash } from '../judge/sign.ts'

const states = ['planned', 'weighing', 'made', 'held', 'released', 'packed'] as const

const query = z.strictObject({
  limit: whole(1, 1000).optional(),
  after: words().optional(),
  state: z.enum(states, { error: `is not a state; allowed: one of ${states.join(', ')}` }).optional(),
  recipe: words().optional(),
})

/** Batches, each judged anew whenever it is shown: findings are never stored. */
export const batchRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/batches', async (c) => c.json({ batches: await ledger.batches(given(readQuery(c, query))) }))
    .get('/api/batches/:batch', async (c) => {
      const id = c.req.param('batch')
      const record = await ledger.batch(id)
      if (!record) throw notHere('batch', id)
      const { findings, verdict, computed, channels } = await judged(ledger, record)
      const last = record.decisions.at(-1)
      return c.json({
        ...record,
        computed,
        channels,
        findings,
        verdict,
        massBalance: await ledger.massBalance(id),
        // Whether what was signed still stands as it was signed: facts corrected or rules changed since show here.
        ...(last ? { signedStillHolds: last.signed === signedHash(record, findings) } : {}),
      })
    })
