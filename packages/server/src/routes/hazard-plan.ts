import { list, text } from '@forcemeat/craft/schema'
import { Hono } from 'hono'
import { z } from 'zod'
import { signedBy } from '../access/entries.ts'
import { kindsOf } from '../access/roles.ts'
import type { AppEnv, House } from '../context.ts'
import { planOf } from '../hazard/plan-of.ts'
import { planHash, signedPlanOf, signPlan, sinceSigned, toComplete, type SignedPlan } from '../hazard/signed.ts'
import { jsonLimit, readQuery, readShaped } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere, refuse } from '../http/refusal.ts'
import { kitchenFrame } from '../paper/frame-of.ts'
import { askedPaper, paperShape } from '../paper/asked.ts'

const versions = { version: whole(1, 100_000).optional(), against: whole(1, 100_000).optional() }
const query = z.strictObject(versions)
const paperQuery = z.strictObject({
  ...versions,
  signed: whole(1, 1e12).optional(),
  ...paperShape,
})

/** A signature without the plan under it: that is on paper. */
const without = ({ plan: _plan, ...signed }: SignedPlan) => signed

const signing = z.strictObject({
  version: z.int().min(1).max(100_000),
  planHash: z
    .string()
    .regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: the hash the plan was shown with' }),
  name: text(120),
  qualification: text(400),
  completed: list(z.strictObject({ item: text(400), said: text(2000) }), { max: 60 }),
  by: text(60),
  key: text(100).optional(),
})

/** The draft hazard plan of a recipe: to look at, and on paper to complete and sign. */
export const hazardPlanRoutes = ({ ledger, now }: House) => {
  const today = (): string => now().toISOString().slice(0, 10)
  return new Hono<AppEnv>()
    .get('/api/hazard-plan/:recipe', async (c) => {
      const recipe = c.req.param('recipe')
      const found = await planOf(ledger, recipe, { ...readQuery(c, query), on: today() })
      if (!found) throw notHere('recipe or version', recipe)
      const signed = await signedPlanOf(ledger, recipe)
      return c.json({
        ...found,
        planHash: planHash(found.plan),
        toComplete: toComplete(found.plan),
        ...(signed ? { signed: without(signed), sinceSigned: sinceSigned(signed, found.plan) } : {}),
      })
    })
    .post('/api/hazard-plan/:recipe/sign', jsonLimit, async (c) => {
      const asked = await readShaped(c, signing)
      const identity = c.get('identity')
      signedBy(identity, asked.by)
      if (identity && !kindsOf(identity).includes('hazard.sign'))
        throw refuse(403, `is ${identity.role}, who may not sign a hazard plan; allowed: a checker or owner`, 'by')
      return c.json({ entries: await signPlan(ledger, c.req.param('recipe'), asked, today()) }, 201)
    })
    .get('/paper/hazard-plan/:file{[^/]+\\.pdf}', async (c) => {
      const recipe = c.req.param('file').slice(0, -'.pdf'.length)
      const { size, units, signed: seq, ...asked } = readQuery(c, paperQuery)
      const signed = seq === undefined ? undefined : await signedPlanOf(ledger, recipe, seq)
      if (seq !== undefined && !signed) throw notHere('signed plan', `${recipe} ${seq}`)
      const found = signed
        ? { recipe, version: signed.version, newest: signed.version, plan: signed.plan, changes: [] }
        : await planOf(ledger, recipe, { ...asked, on: today() })
      if (!found) throw notHere('recipe or version', recipe)
      const [{ printPdf }, { hazardPlanPaper }] = await Promise.all([
        import('../paper/print.ts'),
        import('../paper/hazard-plan.ts'),
      ])
      const frame = {
        ...(await kitchenFrame(ledger, recipe, askedPaper({ size, units }))),
        foot: `Recipe ${recipe}, version ${found.version}`,
      }
      return c.body(await printPdf(hazardPlanPaper(frame, found, signed)), 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="hazard-plan-${recipe.replaceAll(/[^A-Za-z0-9.-]/g, '_')}.pdf"`,
      })
    })
}
