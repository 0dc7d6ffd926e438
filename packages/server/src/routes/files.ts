import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { fileLimit } from '../http/body.ts'
import { notHere, refuse } from '../http/refusal.ts'

/** Files of the record, byte for byte under their hash. They are handed out to be kept, never to be opened as a page. */
export const fileRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .put('/api/files', fileLimit, async (c) => {
      const bytes = new Uint8Array(await c.req.arrayBuffer())
      return c.json(await ledger.putFile(bytes), 201)
    })
    .get('/api/files/:sha256', async (c) => {
      const name = c.req.param('sha256')
      if (!/^[0-9a-f]{64}$/.test(name)) throw refuse(400, 'is not a SHA-256; allowed: 64 hex digits', 'sha256')
      const bytes = await ledger.getFile(name)
      if (!bytes) throw notHere('file', name)
      return c.body(new Uint8Array(bytes), 200, {
        'content-type': 'application/octet-stream',
        'content-disposition': `attachment; filename="${name}"`,
        'cache-control': 'private, max-age=31536000, immutable',
      })
    })
