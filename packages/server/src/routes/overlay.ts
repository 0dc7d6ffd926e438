import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { mostOverlaid, overlayOf } from '../curves/overlay.ts'
import { readQuery } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'

const query = z.strictObject({ limit: whole(1, mostOverlaid).optional() })

/** The last cooks of a recipe laid over one another. */
export const overlayRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>().get('/api/recipes/:recipe/curves', async (c) => {
    const recipe = c.req.param('recipe')
    const { limit = mostOverlaid } = readQuery(c, query)
    if (!(await ledger.recipe(recipe))) throw notHere('recipe', recipe)
    return c.json({ recipe, batches: await overlayOf(ledger, recipe, limit) })
  })
