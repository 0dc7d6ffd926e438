import type { Content, DocumentDefinition } from 'pdfmake'
import { ascentMm, MM_PER_PT, outline, withoutLetter } from './label-font.ts'
import type { DrawnLabel } from './label-layout.ts'
import { paperSizes, type PaperSize } from './frame.ts'

/** Ink and ground of a label: black on white, the strongest contrast there is. */
const INK = '#000000'
const GROUND = '#ffffff'
const n = (mm: number): string => String(Number(mm.toFixed(4)))
const pt = (mm: number): number => mm / MM_PER_PT
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')

/** Relative luminance of a colour (WCAG 2.2). */
const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
/** Contrast of what is drawn, by the colours it is drawn in. */
export const inkContrast: number = (luminance(GROUND) + 0.05) / (luminance(INK) + 0.05)

/** Characters on a label that its fonts cannot draw, each once. */
export const undrawable = (label: DrawnLabel): string[] => [
  ...new Set(label.boxes.flatMap((b) => (b.kind === 'text' ? withoutLetter(b.text, b.bold) : []))),
]

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
    if (b.kind === 'rect')
      return `<rect x="${n(b.x)}" y="${n(b.y)}" width="${n(b.w)}" height="${n(b.h)}" stroke="${INK}" stroke-width="${n(b.mm)}" fill="none"/>`
    if (b.kind === 'oval')
      return `<ellipse cx="${n(b.x + b.w / 2)}" cy="${n(b.y + b.h / 2)}" rx="${n(b.w / 2)}" ry="${n(b.h / 2)}" stroke="${INK}" stroke-width="${n(b.mm)}"${b.dashed ? ' stroke-dasharray="1"' : ''} fill="none"/>`
    if (b.kind === 'art')
      return `<svg x="${n(b.x)}" y="${n(b.y)}" width="${n(b.mm)}" height="${n(b.mm)}" viewBox="0 0 24 24">${b.svg}</svg>`
    const { code } = b
    const [vw, vh] = code.viewBox
    return `<svg x="${n(b.x + code.quiet.left)}" y="${n(b.y + code.quiet.y)}" width="${n(code.width - code.quiet.left - code.quiet.right)}" height="${n(code.height - 2 * code.quiet.y)}" viewBox="0 0 ${vw} ${vh}">${code.svg}</svg>`
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
    if (b.kind === 'rect')
      return {
        canvas:
          b.w === 0
            ? [{ type: 'line', x1: 0, y1: 0, x2: 0, y2: pt(b.h), lineWidth: pt(b.mm), lineColor: INK }]
            : [{ type: 'rect', x: 0, y: 0, w: pt(b.w), h: pt(b.h), lineWidth: pt(b.mm), lineColor: INK }],
        absolutePosition: { x: pt(x0 + b.x), y: pt(y0 + b.y) },
      }
    if (b.kind === 'oval')
      return {
        canvas: [
          {
            type: 'ellipse',
            x: pt(b.w / 2),
            y: pt(b.h / 2),
            r1: pt(b.w / 2),
            r2: pt(b.h / 2),
            lineWidth: pt(b.mm),
            lineColor: INK,
            ...(b.dashed ? { dash: { length: pt(1) } } : {}),
          },
        ],
        absolutePosition: { x: pt(x0 + b.x), y: pt(y0 + b.y) },
      }
    if (b.kind === 'art')
      return {
        svg: `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">${b.svg}</svg>`,
        width: pt(b.mm),
        height: pt(b.mm),
        absolutePosition: { x: pt(x0 + b.x), y: pt(y0 + b.y) },
      }
    const { code } = b
    const [vw, vh] = code.viewBox
    const [w, h] = [pt(code.width - code.quiet.left - code.quiet.right), pt(code.height - 2 * code.quiet.y)]
    return {
      svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${vw}" height="${vh}" viewBox="0 0 ${vw} ${vh}">${code.svg}</svg>`,
      width: w,
      height: h,
      absolutePosition: { x: pt(x0 + b.x + code.quiet.left), y: pt(y0 + b.y + code.quiet.y) },
    }
  })
}

export const sheets = ['one', ...paperSizes] as const
export type LabelSheet = (typeof sheets)[number]

const sheetMm: Readonly<Record<PaperSize, readonly [number, number]>> = { A4: [210, 297], Letter: [215.9, 279.4] }

/** How labels stand on a sheet; what is not said is as many as fit, with usual margins and gutters. */
export type SheetPlan = {
  readonly across?: number | undefined
  readonly down?: number | undefined
  readonly marginXMm?: number | undefined
  readonly marginYMm?: number | undefined
  readonly gutterXMm?: number | undefined
  readonly gutterYMm?: number | undefined
}
const MARGIN_MM = 8
const GUTTER_MM = 3

/** Corners of the labels of a sheet, and how many would fit across and down. */
export function onSheet(
  size: PaperSize,
  { widthMm: w, heightMm: h }: { widthMm: number; heightMm: number },
  plan: SheetPlan,
) {
  const [pw, ph] = sheetMm[size]
  const [mx, my] = [plan.marginXMm ?? MARGIN_MM, plan.marginYMm ?? MARGIN_MM]
  const [gx, gy] = [plan.gutterXMm ?? GUTTER_MM, plan.gutterYMm ?? GUTTER_MM]
  // A sheet of labels is measured off its maker's drawing; the last hundredth of a millimetre is not a label less.
  const fit = (paper: number, margin: number, one: number, gutter: number) =>
    Math.max(0, Math.floor((paper - 2 * margin + gutter + 0.01) / (one + gutter)))
  const fits = { across: fit(pw, mx, w, gx), down: fit(ph, my, h, gy) }
  const [across, down] = [plan.across ?? fits.across, plan.down ?? fits.down]
  const corners = Array.from({ length: across * down }, (_, i) => ({
    x: mx + (i % across) * (w + gx),
    y: my + Math.floor(i / across) * (h + gy),
  }))
  return { fits, across, down, corners }
}

export type Standing = {
  readonly approved: boolean
  readonly title: string
  readonly author: string
  readonly at: string
}

/** One label on a page of its own size, or a sheet full of them. What nobody has approved is marked across every label. */
export function labelDocument(
  label: DrawnLabel,
  sheet: LabelSheet,
  standing: Standing,
  plan: SheetPlan = {},
): DocumentDefinition {
  const { widthMm: w, heightMm: h } = label
  const [pw, ph] = sheet === 'one' ? [w, h] : sheetMm[sheet]
  const places = sheet === 'one' ? [{ x: 0, y: 0 }] : onSheet(sheet, label, plan).corners
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
