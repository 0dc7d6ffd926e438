import { materials, sourceOf } from '@forcemeat/craft/materials/materials'
import { Hono } from 'hono'
import type { AppEnv } from '../context.ts'
import { notHere } from '../http/refusal.ts'

/** The table of materials. It changes only with the program, so a page may keep it for a while. */
export const materialRoutes = new Hono<AppEnv>()
  .get('/api/materials', (c) => c.json({ materials }, 200, { 'cache-control': 'private, max-age=300' }))
  .get('/api/materials/:material', (c) => {
    const found = materials.find((m) => m.id === c.req.param('material'))
    if (!found) throw notHere('material', c.req.param('material'))
    return c.json({ ...found, documents: sourceOf(found.id) })
  })
