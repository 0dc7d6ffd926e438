import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { given, whole, words } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'
import { doubtIn, signedStillHolds } from '../judge/doubt.ts'
import type { Doubts } from '../judge/doubts.ts'
import { judged } from '../judge/judged.ts'

const states = ['planned', 'weighing', 'made', 'held', 'released', 'packed'] as const

const query = z.strictObject({
  limit: whole(1, 1000).optional(),
  after: words().optional(),
  state: z.enum(states, { error: `is not a state; allowed: one of ${states.join(', ')}` }).optional(),
  recipe: words().optional(),
})

/** Batches, each judged anew whenever it is shown: findings are never stored. */
export const batchRoutes = ({ ledger, now }: House, doubts: Doubts) =>
  new Hono<AppEnv>()
    .get('/api/batches', async (c) => {
      const rows = await ledger.batches(given(readQuery(c, query)))
      const inDoubt = new Set((await doubts.list(now().toISOString().slice(0, 10))).map((d) => d.batch))
      return c.json({ batches: rows.map((r) => (inDoubt.has(r.batch) ? { ...r, inDoubt: true } : r)) })
    })
    .get('/api/batches/:batch', async (c) => {
      const id = c.req.param('batch')
      const record = await ledger.batch(id)
      if (!record) throw notHere('batch', id)
      const judgement = await judged(ledger, record)
      const { findings, verdict, computed, channels } = judgement
      const holds = signedStillHolds(record, findings)
      const doubt = doubtIn(record, judgement)
      return c.json({
        ...record,
        computed,
        channels,
        findings,
        verdict,
        massBalance: await ledger.massBalance(id),
        // Whether what was signed still stands as it was signed: facts corrected or rules changed since show here.
        ...(holds === undefined ? {} : { signedStillHolds: holds }),
        ...(doubt ? { doubt: doubt.because } : {}),
      })
    })
