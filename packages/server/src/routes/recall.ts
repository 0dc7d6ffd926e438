import type { RecallSubject } from '@forcemeat/ledger'
import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { askedPaper, paperShape } from '../paper/asked.ts'
import { toCsv } from '../recall/csv.ts'
import { formSources, gapsOf, recallForms, recallParts, recallTable } from '../recall/forms.ts'
import { formOf, recallPdf } from '../recall/report.ts'

const subjects = ['lot', 'pack', 'batch'] as const
const form = z.enum(recallForms, { error: `is not a form; allowed: ${recallForms.join(', ')}` }).optional()
const fileQuery = z.strictObject({
  form,
  part: z.enum(recallParts, { error: `is not a part; allowed: ${recallParts.join(', ')}` }).optional(),
})
const paperQuery = z.strictObject({
  form,
  ...paperShape,
})

function subjectOf(type: string, id: string): RecallSubject {
  if (!(subjects as readonly string[]).includes(type)) throw notHere('kind of recall', type)
  return { type: type as RecallSubject['type'], id }
}

const fileName = (...parts: string[]): string => parts.join('-').replaceAll(/[^A-Za-z0-9.-]/g, '_')

/** A recall, or a drill of one: everything a lot, a pack or a batch is in, who has it, and what is accounted for. */
export const recallRoutes = ({ ledger }: House) =>
  new Hono<AppEnv>()
    .get('/api/recall', async (c) => c.json({ drills: await ledger.drills() }))
    .get('/api/recall/:type/:id', async (c) => {
      const subject = subjectOf(c.req.param('type'), c.req.param('id'))
      const begun = performance.now()
      const found = await ledger.recall(subject)
      if (!found) throw notHere(subject.type, subject.id)
      const kitchen = await ledger.kitchen()
      const asked = formOf(kitchen?.jurisdictions ?? [])
      return c.json({
        ...found,
        form: asked,
        formSource: formSources[asked],
        gaps: gapsOf(recallTable(found, kitchen, asked, 'consignments')),
        tookMs: Number((performance.now() - begun).toFixed(1)),
        drills: (await ledger.drills()).filter((d) => d.subject === subject.type && d.of === subject.id),
      })
    })
    .get('/api/recall/:type/:id/csv', async (c) => {
      const subject = subjectOf(c.req.param('type'), c.req.param('id'))
      const { form: asked, part = 'consignments' } = readQuery(c, fileQuery)
      const [found, kitchen] = await Promise.all([ledger.recall(subject), ledger.kitchen()])
      if (!found) throw notHere(subject.type, subject.id)
      const table = recallTable(found, kitchen, asked ?? formOf(kitchen?.jurisdictions ?? []), part)
      return c.body(toCsv(table.heads, table.rows), 200, {
        'content-type': 'text/csv; charset=utf-8',
        'content-disposition': `attachment; filename="${fileName('recall', subject.type, subject.id, part)}.csv"`,
      })
    })
    .get('/paper/recall/:type/:file{[^/]+\\.pdf}', async (c) => {
      const subject = subjectOf(c.req.param('type'), c.req.param('file').slice(0, -'.pdf'.length))
      const { form: asked, ...paper } = readQuery(c, paperQuery)
      const pdf = await recallPdf(ledger, subject, askedPaper(paper), asked)
      if (!pdf) throw notHere(subject.type, subject.id)
      return c.body(pdf, 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="${fileName('recall', subject.type, subject.id)}.pdf"`,
      })
    })
