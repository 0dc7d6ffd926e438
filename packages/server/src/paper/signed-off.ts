import type { Content } from 'pdfmake'
import { paperDay, paperInstant } from './dates.ts'
import { good, heading, ruled, stop } from './frame.ts'
import { th } from './findings-table.ts'

export type PaperInstrument = {
  readonly code: string
  readonly name: string
  readonly type: string
  readonly lastCheck?: string
  readonly due?: string
}

export type PaperDecision = {
  readonly decision: 'release' | 'hold'
  readonly reasons: readonly string[]
  readonly by: string
  readonly at: string
  readonly signed: string
}

const fitsOnePage = 12

/** The instruments a record rests on, with their last checks. */
export function instruments(list: readonly PaperInstrument[]): Content[] {
  if (list.length === 0) return []
  const parts: Content[] = [
    heading('Instruments'),
    {
      table: {
        headerRows: 1,
        keepWithHeaderRows: 1,
        dontBreakRows: true,
        widths: [60, '*', 70, '*', 80],
        body: [
          [th('Code'), th('Name'), th('Type'), th('Last check'), th('Next due')],
          ...list.map((i) => [
            i.code,
            i.name,
            i.type,
            i.lastCheck ?? { text: 'never checked', bold: true, color: stop },
            i.due === undefined ? '–' : paperDay(i.due),
          ]),
        ],
      },
      layout: ruled,
    },
  ]
  // A heading stays with what it is of; a table of more than a page cannot.
  return list.length <= fitsOnePage ? [{ unbreakable: true, stack: parts }] : parts
}

/** What a person decided and signed. */
export function decided(d: PaperDecision | undefined): Content[] {
  if (!d) return [heading('Decision'), { text: 'None yet. A person decides; this paper does not.', bold: true }]
  return [
    heading('Decision'),
    {
      text: d.decision === 'release' ? '✓ Released' : '× Held',
      fontSize: 16,
      bold: true,
      color: d.decision === 'release' ? good : stop,
    },
    { ul: d.reasons.map((t) => ({ text: t })) },
    {
      text: `By ${d.by}, ${paperInstant(d.at)}. Signed over facts and findings: ${d.signed}`,
      style: 'small',
      margin: [0, 3, 0, 0],
    },
  ]
}
