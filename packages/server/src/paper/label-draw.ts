import type { Content, DocumentDefinition } from 'pdfmake'
import { ascentMm, MM_PER_PT, outline } from './label-font.ts'
import type { DrawnLabel } from './label-layout.ts'
import { paperSizes, type PaperSize } from './frame.ts'

/** Ink and ground of a label: black on white, the strongest contrast there is. */
const INK = '#000000'
const GROUND = '#ffffff'
const n = (mm: number): string => String(Number(mm.toFixed(4)))
const pt = (mm: number): number => mm / MM_PER_PT
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')

/** Everything a label says, as one text for a reader that speaks. */
const spokenText = (label: DrawnLabel): string =>
  label.boxes.flatMap((b) => (b.kind === 'text' ? [b.text.trim()] : [])).join(' ')

/** The label in real size as SVG. Letters are outlines, so that it looks and measures the same wherever it is opened. */
export function labelSvg(label: DrawnLabel): string {
  const { widthMm: w, heightMm: h } = label
  const parts = label.boxes.map((b) => {
    if (b.kind === 'text') return `<path d="${outline(b.text, b.x, b.y, b.sizePt, b.bold)}"/>`
    if (b.kind === 'line')
      return `<path d="M${n(b.x1)} ${n(b.y)}H${n(b.x2)}" stroke="${INK}" stroke-width="${n(b.mm)}" fill="none"/>`
    const { code } = b
    const [vw, vh] = code.viewBox
    return `<svg x="${n(b.x + code.quiet.x)}" y="${n(b.y + code.quiet.y)}" width="${n(code.width - 2 * code.quiet.x)}" height="${n(code.height - 2 * code.quiet.y)}" viewBox="0 0 ${vw} ${vh}">${code.svg}</svg>`
  })
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${n(w)}mm" height="${n(h)}mm" viewBox="0 0 ${n(w)} ${n(h)}" role="img" aria-label="${escaped(spokenText(label))}"><rect width="${n(w)}" height="${n(h)}" fill="${GROUND}"/><g fill="${INK}">${parts.join('')}</g></svg>`
}

/** The label as content of a PDF page, its corner at (x0, y0) mm. */
function content(label: DrawnLabel, x0: number, y0: number): Content[] {
  return label.boxes.map((b): Content => {
    if (b.kind === 'text')
      return {
        text: b.text,
        fontSize: b.sizePt,
        bold: b.bold,
        color: INK,
        lineHeight: 1,
        noWrap: true,
        preserveLeadingSpaces: true,
        absolutePosition: { x: pt(x0 + b.x), y: pt(y0 + b.y - ascentMm(b.sizePt, b.bold)) },
      }
    if (b.kind === 'line')
      return {
        canvas: [{ type: 'line', x1: 0, y1: 0, x2: pt(b.x2 - b.x1), y2: 0, lineWidth: pt(b.mm), lineColor: INK }],
        absolutePosition: { x: pt(x0 + b.x1), y: pt(y0 + b.y) },
      }
    const { code } = b
    const [vw, vh] = code.viewBox
    const [w, h] = [pt(code.width - 2 * code.quiet.x), pt(code.height - 2 * code.quiet.y)]
    return {
      svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${vw}" height="${vh}" viewBox="0 0 ${vw} ${vh}">${code.svg}</svg>`,
      width: w,
      height: h,
      absolutePosition: { x: pt(x0 + b.x + code.quiet.x), y: pt(y0 + b.y + code.quiet.y) },
    }
  })
}

export const sheets = ['one', ...paperSizes] as const
export type LabelSheet = (typeof sheets)[number]

const sheetMm: Readonly<Record<PaperSize, readonly [number, number]>> = { A4: [210, 297], Letter: [215.9, 279.4] }
const MARGIN_MM = 8
const SPACE_MM = 3

/** How many labels stand on a sheet, across and down. */
export function onSheet(size: PaperSize, { widthMm: w, heightMm: h }: { widthMm: number; heightMm: number }) {
  const [pw, ph] = sheetMm[size]
  const fit = (paper: number, one: number) =>
    Math.max(0, Math.floor((paper - 2 * MARGIN_MM + SPACE_MM) / (one + SPACE_MM)))
  return { across: fit(pw, w), down: fit(ph, h) }
}

export type Standing = {
  readonly approved: boolean
  readonly title: string
  readonly author: string
  readonly at: string
}

/** One label on a page of its own size, or a sheet full of them. What nobody has approved is marked across every label. */
export function labelDocument(label: DrawnLabel, sheet: LabelSheet, standing: Standing): DocumentDefinition {
  const { widthMm: w, heightMm: h } = label
  const { across, down } = sheet === 'one' ? { across: 1, down: 1 } : onSheet(sheet, label)
  const [pw, ph] = sheet === 'one' ? [w, h] : sheetMm[sheet]
  const corner = sheet === 'one' ? 0 : MARGIN_MM
  const places = Array.from({ length: across * down }, (_, i) => ({
    x: corner + (i % across) * (w + SPACE_MM),
    y: corner + Math.floor(i / across) * (h + SPACE_MM),
  }))
  const made = new Date(standing.at)
  return {
    pageSize: { width: pt(pw), height: pt(ph) },
    pageMargins: [0, 0, 0, 0],
    language: 'en',
    info: {
      title: standing.title,
      author: standing.author,
      creator: 'Forcemeat',
      producer: 'Forcemeat',
      creationDate: made,
      modDate: made,
    },
    ...(standing.approved
      ? {}
      : { watermark: { text: 'PROOF, NOT APPROVED', color: '#8c1d18', opacity: 0.22, bold: true, angle: 0 } }),
    defaultStyle: { font: 'SourceSans' },
    content: places.flatMap(({ x, y }) => [
      ...content(label, x, y),
      ...(sheet === 'one'
        ? []
        : [
            {
              canvas: [{ type: 'rect', x: 0, y: 0, w: pt(w), h: pt(h), lineWidth: 0.25, lineColor: '#b5aa9a' }],
              absolutePosition: { x: pt(x), y: pt(y) },
            },
          ]),
    ]),
  }
}
