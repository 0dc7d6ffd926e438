import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { planOf } from '../hazard/plan-of.ts'
import { readQuery } from '../http/body.ts'
import { whole } from '../http/query.ts'
import { notHere } from '../http/refusal.ts'
import { kitchenFrame } from '../paper/frame-of.ts'
import { paperSizes } from '../paper/frame.ts'

const versions = { version: whole(1, 100_000).optional(), against: whole(1, 100_000).optional() }
const query = z.strictObject(versions)
const paperQuery = z.strictObject({
  ...versions,
  size: z.enum(paperSizes, { error: `is not a paper size; allowed: ${paperSizes.join(', ')}` }).optional(),
})

/** The draft hazard plan of a recipe: to look at, and on paper to complete and sign. */
export const hazardPlanRoutes = ({ ledger, now }: House) => {
  const today = (): string => now().toISOString().slice(0, 10)
  return new Hono<AppEnv>()
    .get('/api/hazard-plan/:recipe', async (c) => {
      const recipe = c.req.param('recipe')
      const found = await planOf(ledger, recipe, { ...readQuery(c, query), on: today() })
      if (!found) throw notHere('recipe or version', recipe)
      return c.json(found)
    })
    .get('/paper/hazard-plan/:file{[^/]+\\.pdf}', async (c) => {
      const recipe = c.req.param('file').slice(0, -'.pdf'.length)
      const { size = 'A4', ...asked } = readQuery(c, paperQuery)
      const found = await planOf(ledger, recipe, { ...asked, on: today() })
      if (!found) throw notHere('recipe or version', recipe)
      const [{ printPdf }, { hazardPlanPaper }] = await Promise.all([
        import('../paper/print.ts'),
        import('../paper/hazard-plan.ts'),
      ])
      const frame = {
        ...(await kitchenFrame(ledger, recipe, size)),
        foot: `Recipe ${recipe}, version ${found.version}`,
      }
      return c.body(await printPdf(hazardPlanPaper(frame, found)), 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="hazard-plan-${recipe.replaceAll(/[^A-Za-z0-9.-]/g, '_')}.pdf"`,
      })
    })
}
