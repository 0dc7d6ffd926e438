import { facts, type Draft, type FactKind } from '@forcemeat/ledger'
import { Hono } from 'hono'
import { z } from 'zod'
import { asSigned } from '../access/entries.ts'
import type { AppEnv, House } from '../context.ts'
import { jsonLimit, readJson, readQuery } from '../http/body.ts'
import { given, whole, words } from '../http/query.ts'
import { notHere, Refusal } from '../http/refusal.ts'
import type { Doubts } from '../judge/doubts.ts'
import { guardCure } from '../judge/guard-cure.ts'
import { guardCurves } from '../judge/guard-curves.ts'
import { guardPhotos } from '../judge/guard-photos.ts'
import { guardReadings } from '../judge/guard-readings.ts'
import { guardSense } from '../judge/guard-sense.ts'
import { guardShipping } from '../judge/guard-shipping.ts'

const kinds = Object.keys(facts) as [FactKind, ...FactKind[]]

const query = z.strictObject({
  after: whole(0, 1e12).optional(),
  limit: whole(1, 1000).optional(),
  kind: z.enum(kinds, { error: `is not a kind of entry; allowed: one of ${kinds.join(', ')}` }).optional(),
  about: words().optional(),
  q: words().optional(),
  order: z.enum(['asc', 'desc'], { error: 'is not an order; allowed: asc, desc' }).optional(),
})

/** Kinds a person signs, and the address that makes what is signed. */
const signedElsewhere: Readonly<Record<string, string>> = {
  'batch.decide':
    'POST /api/batches/:batch/decide { decision, reasons, by }, which judges the batch and signs what it found',
  'hazard.sign':
    'POST /api/hazard-plan/:recipe/sign { version, planHash, name, qualification, completed, by }, which makes the plan and signs it as it stands',
  'label.approve':
    'POST /api/labels/approve { label, recipe or batch, place, pack, reasons, by }, which makes the label and signs its content',
}

/** What a person signs is computed here, never taken from outside. */
function refuseDecisions(drafts: readonly unknown[]): void {
  const faults = drafts.flatMap((draft, i) => {
    const kind = (draft as { kind?: unknown } | null)?.kind
    if (typeof kind !== 'string' || !Object.hasOwn(signedElsewhere, kind)) return []
    return [
      { path: drafts.length === 1 ? 'kind' : `[${i}].kind`, message: `is ${kind}; allowed: ${signedElsewhere[kind]!}` },
    ]
  })
  if (faults.length > 0) throw new Refusal(400, faults)
}

/** The record itself: in, by appending; out, by page. */
export const entryRoutes = ({ ledger, now }: House, doubts: Doubts) =>
  new Hono<AppEnv>()
    .post('/api/entries', jsonLimit, async (c) => {
      const given = await readJson(c)
      const drafts: unknown[] = Array.isArray(given) ? given : [given]
      refuseDecisions(drafts)
      const signed = await asSigned(ledger, c.get('identity'), drafts)
      // What was recorded before is not held against what is known now: its sender only asks whether it arrived.
      const before = await ledger.sentBefore(signed)
      const fresh = signed.map((draft, i) => (before[i] ? undefined : draft))
      await guardSense(ledger, now(), fresh)
      await guardReadings(ledger, now(), fresh)
      await guardCure(ledger, fresh)
      await guardCurves(ledger, fresh)
      await guardPhotos(ledger, fresh)
      await guardShipping(ledger, doubts, fresh)
      const entries = await ledger.append(signed as Draft[])
      return c.json({ entries }, before.every((e) => e !== undefined) ? 200 : 201)
    })
    .get('/api/entries/:seq', async (c) => {
      const asked = c.req.param('seq')
      const entry = /^[1-9]\d{0,11}$/.test(asked) ? await ledger.entry(Number(asked)) : undefined
      if (!entry) throw notHere('entry', asked)
      return c.json(entry)
    })
    .get('/api/entries', async (c) => c.json({ entries: await ledger.entries(given(readQuery(c, query))) }))
