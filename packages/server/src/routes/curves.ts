import type { Answers } from '@forcemeat/craft/log/format'
import { roles } from '@forcemeat/craft/log/format'
import { readLog } from '@forcemeat/craft/log/read'
import { oneOf } from '@forcemeat/craft/schema'
import { parseOrThrow } from '@forcemeat/craft/calculation'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { largestRead } from '../curves/recorded.ts'
import { shownLog } from '../curves/shown.ts'
import { curveView } from '../curves/view.ts'
import { limit, readQuery } from '../http/body.ts'
import { given, words } from '../http/query.ts'
import { notHere, refuse } from '../http/refusal.ts'
import { judged } from '../judge/judged.ts'

const query = z.strictObject({
  delimiter: z.string().length(1, { error: 'is not one character; allowed: one character' }).optional(),
  decimal: oneOf(['.', ',']).optional(),
  unit: oneOf(['C', 'F']).optional(),
  dateOrder: z
    .string()
    .transform((s) => s.toLowerCase())
    .pipe(oneOf(['ymd', 'dmy', 'mdy']))
    .optional(),
  timeUnit: oneOf(['seconds', 'minutes', 'hours', 'hh:mm', 'mm:ss']).optional(),
  clockChange: oneOf(['shift', 'as-read']).optional(),
  /** JSON object, column to role. */
  roles: words(8000).optional(),
})

const rolesSchema = z.record(z.string().max(120), oneOf(roles))

function rolesIn(text: string | undefined): Pick<Answers, 'roles'> {
  if (text === undefined) return {}
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw refuse(400, 'is not JSON; allowed: an object of columns and roles', 'roles')
  }
  return { roles: parseOrThrow(rolesSchema, value) }
}

/** Logger files: how one would be read, and how a recorded one stands against the rules. */
export const curveRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .post('/api/curves/read', limit(largestRead, 'the logger file'), async (c) => {
      const { roles: roleText, ...rest } = readQuery(c, query)
      const answers: Answers = { ...(given(rest) as Answers), ...rolesIn(roleText) }
      const bytes = new Uint8Array(await c.req.arrayBuffer())
      if (bytes.byteLength === 0) throw refuse(400, 'is empty; allowed: a logger file as it was written', '(body)')
      return c.json(shownLog(readLog(bytes, answers)))
    })
    .get('/api/batches/:batch/curves/:seq', async (c) => {
      const { batch, seq } = c.req.param()
      const record = await ledger.batch(batch)
      if (!record) throw notHere('batch', batch)
      const curve = record.curves.find((k) => String(k.seq) === seq || String(k.root) === seq)
      if (!curve) throw notHere(`curve of batch ${batch}`, seq)
      const view = await curveView(ledger, record, curve, await judged(ledger, record))
      if (!view) throw notHere('file', curve.file)
      return c.json({ curve, ...view })
    })
