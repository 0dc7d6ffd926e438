import { Hono } from 'hono'
import { z } from 'zod'
import { kitchenCharts } from '../charts/kitchen.ts'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'

/** Core temperature at which the charts call a batch cold, °C, unless asked otherwise: a mark to compare batches by, no limit. */
const coldMark = 5
const query = z.strictObject({ coldC: whole(0, 30).optional() })

/** Control charts of a recipe's batches. */
export const chartRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>().get('/api/charts/:recipe', async (c) => {
    const recipe = c.req.param('recipe')
    if (!(await ledger.recipe(recipe))) throw notHere('recipe', recipe)
    const { coldC = coldMark } = readQuery(c, query)
    return c.json({ recipe, coldC, charts: await kitchenCharts(ledger, recipe, coldC) })
  })
