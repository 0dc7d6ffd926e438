import { calculations, findCalculation } from '@forcemeat/craft'
import type { Calculation } from '@forcemeat/craft/calculation'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv } from '../context.ts'
import { calcLimit, readJson } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'

/** JSON Schemas of an entry of the registry, as draft 2020-12. */
export const schemasOf = (c: Calculation) => ({
  input: z.toJSONSchema(c.input, { io: 'input', unrepresentable: 'any' }),
  output: z.toJSONSchema(c.output, { io: 'output', unrepresentable: 'any' }),
})

const find = (name: string): Calculation => {
  const found = findCalculation(name)
  if (!found) throw notHere('calculation', name)
  return found
}

/** The registry over HTTP: the same entries, inputs, outputs and faults as every other door. */
export const calcRoutes = new Hono<AppEnv>()
  .get('/api/calc', (c) =>
    c.json({
      calculations: Object.values(calculations).map(({ name, title, summary }) => ({ name, title, summary })),
    }),
  )
  .get('/api/calc/:name', (c) => {
    const found = find(c.req.param('name'))
    const { name, title, summary, sources, example } = found
    return c.json({ name, title, summary, ...schemasOf(found), sources, example })
  })
  .post('/api/calc/:name', calcLimit, async (c) => {
    const found = find(c.req.param('name'))
    return c.json(found.run(await readJson(c)) as object)
  })
