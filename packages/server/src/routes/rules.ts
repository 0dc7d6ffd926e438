import { topics } from '@forcemeat/rulebook'
import { findRule, searchRules } from '@forcemeat/rulebook/catalogue'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { words } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'

const query = z.strictObject({
  q: words().optional(),
  jurisdiction: words(40).optional(),
  topic: z.enum(topics, { error: `is not a topic; allowed: one of ${topics.join(', ')}` }).optional(),
})

/** Every rule the program judges by, with what it covers and on whose word. */
export const ruleRoutes = new Hono<AppEnv>()
  .get('/api/rules', (c) => {
    const { q = '', ...within } = readQuery(c, query)
    return c.json({ rules: searchRules(q, within) })
  })
  .get('/api/rules/:id', (c) => {
    const found = findRule(c.req.param('id'))
    if (!found) throw notHere('rule', c.req.param('id'))
    return c.json(found)
  })
