import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { limit, readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { imports, type ImportKind } from '../import/fields.ts'
import { preview } from '../import/preview.ts'

const query = z.strictObject({
  decimal: z.enum(['.', ','], { error: 'is not a decimal mark; allowed: . or ,' }).optional(),
})

/** How a file of lots, orders, prices or businesses would be taken: rows as entries, and each cell that cannot be. Recording is by POST /api/entries. */
export const importRoutes = ({ ledger, now }: House) =>
  new Hono<AppEnv>()
    .get('/api/import', (c) =>
      c.json({
        kinds: Object.entries(imports).map(([name, { kind, fields }]) => ({
          name,
          kind,
          columns: fields.map(({ head, also = [], required = false }) => ({ head, also, required })),
        })),
      }),
    )
    .post('/api/import/:kind/read', limit(5_000_000, 'the file'), async (c) => {
      const kind = c.req.param('kind')
      if (!Object.hasOwn(imports, kind)) throw notHere('import', kind)
      const { decimal } = readQuery(c, query)
      return c.json(
        await preview(ledger, kind as ImportKind, new Uint8Array(await c.req.arrayBuffer()), decimal, now()),
      )
    })
