import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'
import { notHere } from '../http/refusal.ts'

/** Photographs: only files that an entry attaches as one are ever handed out as pictures. */
export const photoRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/photos/:of/:id', async (c) =>
      c.json({ photos: await ledger.photos(c.req.param('of'), c.req.param('id')) }),
    )
    .get('/api/photos/:sha256', async (c) => {
      const name = c.req.param('sha256')
      const attached = /^[0-9a-f]{64}$/.test(name) ? await ledger.photo(name) : undefined
      const bytes = attached && (await ledger.getFile(name))
      if (!bytes) throw notHere('photograph', name)
      return c.body(new Uint8Array(bytes), 200, {
        'content-type': 'image/jpeg',
        'cache-control': 'private, max-age=86400',
      })
    })
