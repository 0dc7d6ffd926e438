import { facts, type EntriesQuery, type FactKind } from '@forcemeat/ledger'
import type { DocumentDefinition } from 'pdfmake'
import { Hono, type Context } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import { readQuery } from '../http/body.ts'
import { notHere } from '../http/refusal.ts'
import { whole, words } from '../http/query.ts'
import { kitchenFrame } from '../paper/frame-of.ts'
import { askedPaper, paperShape, type PaperAsked } from '../paper/asked.ts'
import type { Frame } from '../paper/frame.ts'

const query = z.strictObject(paperShape)

/** Things whose whole record is printed, and how each is called. */
const subjects = {
  lot: 'Lot',
  batch: 'Batch',
  pack: 'Pack',
  instrument: 'Instrument',
  deviation: 'Deviation',
  recipe: 'Recipe',
  business: 'Business',
  room: 'Room',
  order: 'Order',
  label: 'Label',
  drill: 'Recall',
} as const
type Printed = keyof typeof subjects
const isPrinted = (type: string): type is Printed => Object.hasOwn(subjects, type)

const kinds = Object.keys(facts) as [FactKind, ...FactKind[]]
const part = { after: whole(0, 1e12).optional() }
const partQuery = z.strictObject({ ...query.shape, ...part })
const listQuery = z.strictObject({
  ...query.shape,
  ...part,
  kind: z.enum(kinds, { error: `is not a kind of entry; allowed: one of ${kinds.join(', ')}` }).optional(),
  q: words().optional(),
})
/** Most photographs on one paper. */
const mostPhotos = 12

/** The record of an instrument and of a deviation, on paper; and of anything, entry by entry. */
export const recordPaperRoutes = ({ ledger }: House) => {
  type Dressed = { readonly frame: Frame; readonly nameOf: (person: string) => string }
  const dress = async (foot: string, paper: PaperAsked): Promise<Dressed> => {
    const people = await ledger.people()
    const frame = { ...(await kitchenFrame(ledger, foot, paper)), foot }
    return { frame, nameOf: (code) => people.find((p) => p.person === code)?.name ?? code }
  }
  const answer = async (c: Context<AppEnv>, name: string, document: DocumentDefinition) => {
    const { printPdf } = await import('../paper/print.ts')
    return c.body(await printPdf(document), 200, {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name.replaceAll(/[^A-Za-z0-9.-]/g, '_')}.pdf"`,
    })
  }
  const printed = async (
    c: Context<AppEnv>,
    asked: EntriesQuery,
    { after, ...paper }: z.infer<typeof partQuery>,
    { title, file, of }: { readonly title: string; readonly file: string; readonly of?: readonly [Printed, string] },
  ) => {
    const { mostOnPaper, subjectRecord } = await import('../paper/subject-record.ts')
    const found = await ledger.entries({
      ...asked,
      ...(after === undefined ? {} : { after }),
      limit: mostOnPaper + 1,
    })
    if (found.length === 0 && of !== undefined) throw notHere(of[0], of[1])
    const entries = found.slice(0, mostOnPaper)
    const attached = of === undefined ? [] : await ledger.photos(of[0], of[1])
    const photos = []
    for (const { seq, file: sha256, caption } of attached.slice(-mostPhotos)) {
      const jpeg = await ledger.getFile(sha256)
      if (jpeg) photos.push({ seq, jpeg, ...(caption === undefined ? {} : { caption }) })
    }
    const { frame, nameOf } = await dress(title, askedPaper(paper))
    return answer(
      c,
      file,
      subjectRecord({
        ...frame,
        title,
        entries,
        ...(after === undefined || after === 0 ? {} : { after }),
        ...(found.length > mostOnPaper ? { more: entries.at(-1)!.seq } : {}),
        photos,
        nameOf,
      }),
    )
  }
  const codeOf = (c: Context<AppEnv>): string => (c.req.param('file') ?? '').slice(0, -'.pdf'.length)
  return new Hono<AppEnv>()
    .get('/paper/record/:type/:file{[^/]+\\.pdf}', async (c) => {
      const type = c.req.param('type')
      if (!isPrinted(type)) throw notHere('kind of record', type)
      const code = codeOf(c)
      const title = `${subjects[type]} ${code}`
      const asked = readQuery(c, partQuery)
      return printed(c, { about: `${type}:${code}` }, asked, {
        title,
        file: `record-${type}-${code}`,
        of: [type, code],
      })
    })
    .get('/paper/entries.pdf', async (c) => {
      const { kind, q, ...asked } = readQuery(c, listQuery)
      const said = [kind === undefined ? 'All entries' : `Entries of kind ${kind}`, ...(q ? [`that hold “${q}”`] : [])]
      return printed(c, { ...(kind ? { kind } : {}), ...(q ? { q } : {}) }, asked, {
        title: said.join(' '),
        file: 'entries',
      })
    })
    .get('/paper/instrument/:file{[^/]+\\.pdf}', async (c) => {
      const paper = askedPaper(readQuery(c, query))
      const found = await ledger.instrument(codeOf(c))
      if (!found) throw notHere('instrument', codeOf(c))
      const { checks, ...instrument } = found
      const { frame, nameOf } = await dress(`Instrument ${instrument.instrument}`, paper)
      const { instrumentRecord } = await import('../paper/instrument.ts')
      const doubts = await ledger.doubts(instrument.instrument)
      return answer(c, `instrument-${codeOf(c)}`, instrumentRecord({ ...frame, instrument, checks, doubts, nameOf }))
    })
    .get('/paper/deviation/:file{[^/]+\\.pdf}', async (c) => {
      const paper = askedPaper(readQuery(c, query))
      const [deviation] = await ledger.deviations(codeOf(c))
      if (!deviation) throw notHere('deviation', codeOf(c))
      const { frame, nameOf } = await dress(`Deviation ${deviation.deviation}`, paper)
      const { deviationReport } = await import('../paper/deviation.ts')
      return answer(c, `deviation-${codeOf(c)}`, deviationReport({ ...frame, deviation, nameOf }))
    })
}
