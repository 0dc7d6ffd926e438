import { openSync } from 'fontkit'
import type { Content } from 'pdfmake'
import { contentWidth, ink, line, type PaperSize } from './frame.ts'
import { fontFiles } from './print.ts'

/** Size of a long table's text, points. */
const FONT_PT = 9
/** Room left and right of a cell, points. */
const PAD_PT = 4
/** A column of short words is never wider than this share of the page. */
const MOST_OF_PAGE = 0.22
/** What each wide column has at least on average, points, however much the short ones hold. */
const LEAST_WIDE_PT = 60
/** Pairs of letters set closer or wider apart than their own widths make at most this much of a cell, points. */
const KERNING_PT = 1

const font = openSync(fontFiles.normal)
const advances = new Map<string, number>()

/** Width of one sign, points. */
function signPt(sign: string): number {
  let pt = advances.get(sign)
  if (pt === undefined) {
    pt = (font.glyphForCodePoint(sign.codePointAt(0)!).advanceWidth / font.unitsPerEm) * FONT_PT
    advances.set(sign, pt)
  }
  return pt
}

/** Width of a text, points: its signs one after another, which is quick enough for ten thousands of cells. */
function widthPt(text: string): number {
  let pt = KERNING_PT
  for (const sign of text) pt += signPt(sign)
  return pt
}

export type LongColumn = {
  readonly head: string
  readonly right?: boolean
  /** Takes what the other columns leave, and wraps. */
  readonly wide?: boolean
}

/** Widths in points: short columns as wide as their longest cell, wide ones share the rest by what they hold. */
function widthsOf(columns: readonly LongColumn[], rows: readonly (readonly string[])[], size: PaperSize): number[] {
  const room = contentWidth(size) - columns.length * 2 * PAD_PT
  const sum = (pts: readonly number[]): number => pts.reduce((all, pt) => all + pt, 0)
  const longest = columns.map((c, i) => rows.reduce((pt, row) => Math.max(pt, widthPt(row[i] ?? '')), widthPt(c.head)))
  const short = longest.map((pt, i) => (columns[i]!.wide ? 0 : Math.min(pt, room * MOST_OF_PAGE)))
  const wide = longest.map((pt, i) => (columns[i]!.wide ? Math.min(pt, room / 2) : 0))
  const most = room - LEAST_WIDE_PT * columns.filter((c) => c.wide).length
  const shrink = Math.min(1, most / sum(short))
  const left = room - sum(short) * shrink
  return columns.map((c, i) => (c.wide ? (left * wide[i]!) / sum(wide) : short[i]! * shrink))
}

/** Hairlines between rows, a heavier one under the heads, none above the title. */
const layout = {
  paddingLeft: () => PAD_PT,
  paddingRight: () => PAD_PT,
  paddingTop: () => 2.5,
  paddingBottom: () => 2.5,
  hLineWidth: (i: number, node: { table: { body: unknown[] } }) =>
    i < 2 ? 0 : i === 2 || i === node.table.body.length ? 1 : 0.5,
  vLineWidth: () => 0,
  hLineColor: (i: number) => (i === 2 ? ink : line),
}

/**
 * A table that may run over a hundred pages: its title and heads stand again on top of each, and neither ever stands without a row below.
 * The printer lays out word by word, each word at the same cost as a whole cell. Column widths are therefore reckoned here, and a cell that
 * fits into its column is handed over as one piece; only one that does not is broken into words.
 *
 * @param rows at least one, each a text for each column
 */
export function longTable(
  title: string,
  columns: readonly LongColumn[],
  rows: readonly (readonly string[])[],
  size: PaperSize,
): Content {
  const widths = widthsOf(columns, rows, size)
  const cell = (text: string, i: number): Content => ({
    text,
    noWrap: widthPt(text) <= widths[i]! && !/[\r\n]/.test(text),
    ...(columns[i]!.right ? { alignment: 'right' } : {}),
  })
  return {
    table: {
      headerRows: 2,
      keepWithHeaderRows: 1,
      widths,
      body: [
        [{ text: title, style: 'heading', colSpan: columns.length }, ...columns.slice(1).map(() => '')],
        columns.map((c) => ({ text: c.head, style: 'th', ...(c.right ? { alignment: 'right' } : {}) })),
        ...rows.map((row) => row.map(cell)),
      ],
    },
    layout,
    fontSize: FONT_PT,
  }
}
