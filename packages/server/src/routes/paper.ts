import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { askedPaper, paperShape } from '../paper/asked.ts'
import { paperOf, papers, type PaperKind } from '../paper/paper-of.ts'

const query = z.strictObject(paperShape)

/** What is printed: PDF, made here without a browser. The printer is loaded with the first sheet asked for. */
export const paperRoutes = (house: House) =>
  new Hono<AppEnv>().get('/paper/:kind/:file{[^/]+\\.pdf}', async (c) => {
    const kind = c.req.param('kind')
    if (!(papers as readonly string[]).includes(kind)) throw notHere('paper', kind)
    const batch = c.req.param('file').slice(0, -'.pdf'.length)
    const paper = askedPaper(readQuery(c, query))
    const pdf = await paperOf(house.ledger, kind as PaperKind, batch, paper)
    if (!pdf) throw notHere('batch', batch)
    return c.body(pdf, 200, {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${kind}-${batch.replaceAll(/[^A-Za-z0-9.-]/g, '_')}-${paper.size}.pdf"`,
    })
  })
