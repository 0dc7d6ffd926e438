import { list, oneOf, text } from '@forcemeat/craft/schema'
import { Hono } from 'hono'
import { z } from 'zod'
import { signedBy } from '../access/entries.ts'
import type { AppEnv, House } from '../context.ts'
import { jsonLimit, readShaped } from '../http/body.ts'
import { refuse } from '../http/refusal.ts'
import { decide } from '../judge/decide.ts'

const decisionSchema = z.strictObject({
  decision: oneOf(['release', 'hold']),
  reasons: list(text(400), { min: 1, max: 20 }),
  by: text(60),
  key: text(100).optional(),
})

/** Release or hold; what a limit stops is refused with what stands in its way. */
export const decideRoutes = ({ ledger, now }: House) =>
  new Hono<AppEnv>().post('/api/batches/:batch/decide', jsonLimit, async (c) => {
    const asked = await readShaped(c, decisionSchema)
    const identity = c.get('identity')
    signedBy(identity, asked.by)
    if (identity?.role === 'maker' && asked.decision === 'release')
      throw refuse(403, 'is release, which a maker may not sign; allowed: hold, or a checker or owner', 'decision')
    const day = now().toISOString().slice(0, 10)
    const { again, ...decided } = await decide(ledger, { batch: c.req.param('batch'), ...asked }, day)
    return c.json(decided, again ? 200 : 201)
  })
