import type { Content, DocumentDefinition } from 'pdfmake'
import { paperInstant } from './dates.ts'

export const paperSizes = ['A4', 'Letter'] as const
export type PaperSize = (typeof paperSizes)[number]

export const ink = '#1d1a16'
export const quiet = '#5d564c'
export const line = '#b5aa9a'
export const shade = '#f1ece2'
export const stop = '#8c1d18'
export const good = '#23552b'
export const amber = '#8a5a00'

/** What stands on every sheet, whatever it says. */
export type Frame = {
  readonly kitchen: {
    readonly name: string
    readonly place?: string
    readonly demo: boolean
    readonly units: 'metric' | 'us'
  }
  readonly batch: string
  /** What stands at the foot in place of the batch, for a sheet that belongs to none. */
  readonly foot?: string
  /** Last entry of the record that the sheet was made from: its number, hash and instant. */
  readonly head: { readonly seq: number; readonly hash: string; readonly at: string }
  readonly size: PaperSize
}

const points = { A4: [595.28, 841.89], Letter: [612, 792] } as const
const margin = 40

/** Width between the margins, points. */
export const contentWidth = (size: PaperSize): number => points[size][0] - 2 * margin

const cell = { paddingLeft: () => 5, paddingRight: () => 5, paddingTop: () => 4, paddingBottom: () => 4 }

/** Hairlines between rows, a heavier one under the head; no boxes. */
export const ruled = {
  ...cell,
  hLineWidth: (i: number, node: { table: { headerRows?: number; body: unknown[] } }) =>
    i === 0 ? 0 : i === (node.table.headerRows ?? 0) || i === node.table.body.length ? 1 : 0.5,
  vLineWidth: () => 0,
  hLineColor: (i: number, node: { table: { headerRows?: number } }) =>
    i === (node.table.headerRows ?? 0) ? ink : line,
}

/** Hairlines both ways, for tables that are filled in by hand. */
export const grid = {
  ...cell,
  hLineWidth: (i: number, node: { table: { headerRows?: number } }) => (i === (node.table.headerRows ?? 0) ? 1 : 0.5),
  vLineWidth: () => 0.5,
  hLineColor: () => quiet,
  vLineColor: () => line,
}

export const heading = (text: string): Content => ({ text, style: 'heading', headlineLevel: 1 })

/** Label and figure side by side, as many as fit in a row. */
export const factRow = (facts: readonly (readonly [string, string])[]): Content => ({
  columns: facts.map(([label, value]) => ({
    width: '*',
    stack: [
      { text: label, style: 'label' },
      { text: value, style: 'fact' },
    ],
  })),
  columnGap: 12,
  margin: [0, 6, 0, 0],
})

/** A box with a red edge: a caution, where the hand is. */
export const caution = (title: string, text: string): Content => ({
  // Its heading and its words are read together: they stand on one page.
  unbreakable: true,
  table: {
    widths: ['*'],
    dontBreakRows: true,
    body: [
      [
        {
          stack: [
            { text: title, bold: true, color: stop },
            { text, margin: [0, 1, 0, 0], fontSize: 9.5 },
          ],
          margin: [6, 3, 4, 3],
        },
      ],
    ],
  },
  layout: {
    hLineWidth: () => 0,
    vLineWidth: (i: number) => (i === 0 ? 3 : 0),
    vLineColor: () => stop,
    fillColor: () => '#fbeeea',
  },
  margin: [0, 2, 0, 2],
})

/** Lines to sign on. */
export const signatures = (names: readonly string[], width: number): Content => ({
  columns: names.map((name) => ({
    width: '*',
    stack: [
      {
        canvas: [
          {
            type: 'line',
            x1: 0,
            y1: 0,
            x2: (width - 16 * (names.length - 1)) / names.length,
            y2: 0,
            lineWidth: 0.7,
            lineColor: ink,
          },
        ],
      },
      { text: name, style: 'label', margin: [0, 2, 0, 0] },
    ],
  })),
  columnGap: 16,
  margin: [0, 30, 0, 0],
  unbreakable: true,
})

/** A document in the house's dress: kitchen and title on top of each page, batch, head of the record and page number below. */
export function sheet(frame: Frame, title: string, content: readonly Content[]): DocumentDefinition {
  const { kitchen, batch, head, size, foot } = frame
  const made = new Date(head.at)
  return {
    pageSize: size.toUpperCase(),
    pageMargins: [margin, 62, margin, 50],
    language: 'en',
    info: {
      title: `${title} ${batch}`,
      author: kitchen.name,
      creator: 'Forcemeat',
      producer: 'Forcemeat',
      creationDate: made,
      modDate: made,
    },
    defaultStyle: { font: 'SourceSans', fontSize: 10.5, color: ink, lineHeight: 1.12 },
    styles: {
      title: { fontSize: 24, bold: true, lineHeight: 1 },
      heading: { fontSize: 13, bold: true, margin: [0, 12, 0, 3] },
      label: { fontSize: 9, color: quiet },
      fact: { fontSize: 13, bold: true },
      th: { fontSize: 9, color: quiet },
      small: { fontSize: 9, color: quiet },
    },
    header: {
      margin: [margin, 24, margin, 0],
      stack: [
        {
          columns: [
            {
              text: [
                { text: kitchen.name, bold: true },
                kitchen.place ? { text: `, ${kitchen.place}`, color: quiet } : '',
              ],
              width: '*',
            },
            ...(kitchen.demo ? [{ text: 'INVENTED DATA', bold: true, color: stop, width: 'auto', noWrap: true }] : []),
            { text: title, alignment: 'right', width: 'auto', noWrap: true },
          ],
          columnGap: 10,
        },
        { canvas: [{ type: 'line', x1: 0, y1: 4, x2: contentWidth(size), y2: 4, lineWidth: 0.7, lineColor: ink }] },
      ],
    },
    footer: (page: number, pages: number): Content => ({
      margin: [margin, 12, margin, 0],
      columns: [
        { text: foot ?? `Batch ${batch}`, width: 'auto', bold: true, fontSize: 9 },
        {
          text: `Record up to entry ${head.seq}, ${paperInstant(head.at)}, SHA-256 ${head.hash.slice(0, 16)}…`,
          alignment: 'center',
          fontSize: 8,
          color: quiet,
          width: '*',
        },
        { text: `Page ${page} of ${pages}`, width: 'auto', fontSize: 9 },
      ],
      columnGap: 10,
    }),
    // A heading never stands alone at the foot of a page.
    pageBreakBefore: (node: { headlineLevel?: number }, around: { getFollowingNodesOnPage: () => unknown[] }) =>
      node.headlineLevel === 1 && around.getFollowingNodesOnPage().length === 0,
    content,
  }
}
