import type { DocumentDefinition } from 'pdfmake'
import { Hono, type Context } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { kitchenFrame } from '../paper/frame-of.ts'
import { paperSizes, type Frame, type PaperSize } from '../paper/frame.ts'

const query = z.strictObject({
  size: z.enum(paperSizes, { error: `is not a paper size; allowed: ${paperSizes.join(', ')}` }).optional(),
})

/** The record of an instrument and of a deviation, on paper. */
export const recordPaperRoutes = ({ ledger }: House) => {
  type Dressed = { readonly frame: Frame; readonly nameOf: (person: string) => string }
  const dress = async (foot: string, size: PaperSize): Promise<Dressed> => {
    const people = await ledger.people()
    const frame = { ...(await kitchenFrame(ledger, foot, size)), foot }
    return { frame, nameOf: (code) => people.find((p) => p.person === code)?.name ?? code }
  }
  const answer = async (c: Context<AppEnv>, name: string, document: DocumentDefinition) => {
    const { printPdf } = await import('../paper/print.ts')
    return c.body(await printPdf(document), 200, {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name.replaceAll(/[^A-Za-z0-9.-]/g, '_')}.pdf"`,
    })
  }
  const codeOf = (c: Context<AppEnv>): string => (c.req.param('file') ?? '').slice(0, -'.pdf'.length)
  return new Hono<AppEnv>()
    .get('/paper/instrument/:file{[^/]+\\.pdf}', async (c) => {
      const { size = 'A4' } = readQuery(c, query)
      const found = await ledger.instrument(codeOf(c))
      if (!found) throw notHere('instrument', codeOf(c))
      const { checks, ...instrument } = found
      const { frame, nameOf } = await dress(`Instrument ${instrument.instrument}`, size)
      const { instrumentRecord } = await import('../paper/instrument.ts')
      const doubts = await ledger.doubts(instrument.instrument)
      return answer(c, `instrument-${codeOf(c)}`, instrumentRecord({ ...frame, instrument, checks, doubts, nameOf }))
    })
    .get('/paper/deviation/:file{[^/]+\\.pdf}', async (c) => {
      const { size = 'A4' } = readQuery(c, query)
      const [deviation] = await ledger.deviations(codeOf(c))
      if (!deviation) throw notHere('deviation', codeOf(c))
      const { frame, nameOf } = await dress(`Deviation ${deviation.deviation}`, size)
      const { deviationReport } = await import('../paper/deviation.ts')
      return answer(c, `deviation-${codeOf(c)}`, deviationReport({ ...frame, deviation, nameOf }))
    })
}
