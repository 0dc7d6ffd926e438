import type { Deviation } from '@forcemeat/ledger'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay } from './dates.ts'
import { contentWidth, factRow, heading, sheet, signatures, stop, type Frame } from './frame.ts'

export type DeviationPaper = Frame & { readonly deviation: Deviation; readonly nameOf: (person: string) => string }

/** One deviation: what was seen, what was done, who closed it. */
export function deviationReport(p: DeviationPaper): DocumentDefinition {
  const d = p.deviation
  const said = (text: string | undefined): Content =>
    text === undefined ? { text: 'not recorded yet', color: stop, bold: true } : { text }
  const content: Content[] = [
    { text: `Deviation ${d.deviation}`, style: 'title' },
    factRow([
      ['Seen on', paperDay(d.on)],
      ['Recorded by', `${p.nameOf(d.by)}, entry ${d.seq}`],
      ['Standing', d.closed ? `closed ${paperDay(d.closed.on)}` : 'open'],
    ]),
    heading('What was seen'),
    { text: d.what },
    heading('About'),
    { text: d.about.map((a) => `${a.type} ${a.id}`).join(', ') || 'nothing named' },
    ...(d.rule === undefined ? [] : [heading('Rule'), { text: d.rule }]),
    heading('What was done with the product'),
    said(d.product),
    heading('Cause'),
    said(d.cause),
    heading('So that it does not come again'),
    said(d.prevention),
    heading('Closed'),
    d.closed ? { text: `${paperDay(d.closed.on)}, ${p.nameOf(d.closed.by)}: ${d.closed.because}` } : said(undefined),
    signatures(['Responsible, date', 'Verified by, date'], contentWidth(p.size)),
  ]
  return sheet(p, 'Deviation', content)
}
