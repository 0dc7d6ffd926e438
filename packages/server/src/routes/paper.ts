import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { paperSizes } from '../paper/frame.ts'
import { paperOf, papers, type PaperKind } from '../paper/paper-of.ts'

const query = z.strictObject({
  size: z.enum(paperSizes, { error: `is not a paper size; allowed: ${paperSizes.join(', ')}` }).optional(),
})

/** What is printed: PDF, made here without a browser. The printer is loaded with the first sheet asked for. */
export const paperRoutes = (house: House) =>
  new Hono<AppEnv>().get('/paper/:kind/:file{[^/]+\\.pdf}', async (c) => {
    const kind = c.req.param('kind')
    if (!(papers as readonly string[]).includes(kind)) throw notHere('paper', kind)
    const batch = c.req.param('file').slice(0, -'.pdf'.length)
    const { size = 'A4' } = readQuery(c, query)
    const pdf = await paperOf(house.ledger, kind as PaperKind, batch, size)
    if (!pdf) throw notHere('batch', batch)
    return c.body(pdf, 200, {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${kind}-${batch.replaceAll(/[^A-Za-z0-9.-]/g, '_')}-${size}.pdf"`,
    })
  })
