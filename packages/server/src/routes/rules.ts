import { topics, type Rule } from '@forcemeat/rulebook'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { words } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'
import { everyRule } from '../judge/every-rule.ts'

const query = z.strictObject({
  q: words().optional(),
  jurisdiction: words(40).optional(),
  topic: z.enum(topics, { error: `is not a topic; allowed: one of ${topics.join(', ')}` }).optional(),
})

const textOf = (r: Rule): string =>
  [
    r.id,
    r.title,
    r.scope,
    r.jurisdiction,
    r.topic,
    r.note ?? '',
    ...r.values.flatMap((v) => [v.source.document, v.source.section]),
  ]
    .join(' ')
    .toLowerCase()

/** Every rule the program judges by, with what it covers and on whose word. */
export const ruleRoutes = new Hono<AppEnv>()
  .get('/api/rules', (c) => {
    const { q = '', jurisdiction, topic } = readQuery(c, query)
    const wanted = q.toLowerCase().split(/\s+/).filter(Boolean)
    const rules = everyRule.filter(
      (r) =>
        (jurisdiction === undefined || r.jurisdiction === jurisdiction) &&
        (topic === undefined || r.topic === topic) &&
        wanted.every((w) => textOf(r).includes(w)),
    )
    return c.json({ rules })
  })
  .get('/api/rules/:id', (c) => {
    const found = everyRule.find((r) => r.id === c.req.param('id'))
    if (!found) throw notHere('rule', c.req.param('id'))
    return c.json(found)
  })
