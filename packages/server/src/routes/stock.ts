import { judgeArrival } from '@forcemeat/rulebook/process/arrival'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { given, whole, words } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'

const arrivalQuery = z.strictObject({
  material: words(60),
  on: z.iso.date({ error: 'is not a date; allowed: a day such as 2026-11-25' }),
  arrivalC: z
    .string()
    .regex(/^-?\d{1,3}(\.\d{1,6})?$/, { error: 'is not a temperature; allowed: a number of °C with a point' })
    .transform(Number)
    .optional(),
  instrument: words(60).optional(),
})

const lotsQuery = z.strictObject({
  q: words().optional(),
  limit: whole(1, 1000).optional(),
  after: words().optional(),
  material: words().optional(),
  left: z.enum(['1', '0'], { error: 'allowed: 1 for lots with something left, 0 for all' }).optional(),
})

/** Lots, and recipes made from them. */
export const stockRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/lots', async (c) => {
      const { left, ...rest } = readQuery(c, lotsQuery)
      return c.json({ lots: await ledger.lots({ ...given(rest), ...(left === '1' ? { withBalanceOnly: true } : {}) }) })
    })
    .get('/api/arrival', async (c) => {
      const { material, on, arrivalC, instrument } = readQuery(c, arrivalQuery)
      const [kitchen, instruments, then] = await Promise.all([
        ledger.kitchen(),
        ledger.instruments(on),
        ledger.kitchenOn(on),
      ])
      const thermometer = instruments.find((i) => i.instrument === instrument)
      const findings = judgeArrival({
        material,
        on,
        arrivalC,
        thermometer,
        jurisdictions: kitchen?.jurisdictions ?? [],
        own: then?.ownLimits,
      })
      return c.json({ findings })
    })
    .get('/api/lots/:lot', async (c) => {
      const found = await ledger.lot(c.req.param('lot'))
      if (!found) throw notHere('lot', c.req.param('lot'))
      return c.json(found)
    })
    .get('/api/recipes', async (c) => c.json({ recipes: await ledger.recipes() }))
    .get('/api/recipes/:recipe', async (c) => {
      const found = await ledger.recipe(c.req.param('recipe'))
      if (!found) throw notHere('recipe', c.req.param('recipe'))
      return c.json(found)
    })
