import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import type { labelLayouts } from '@forcemeat/craft/declare/label/pack'
import type { DrawnText, LeastType } from '@forcemeat/craft/declare/label/type-size'
import { drawCode, type DrawnCode } from './label-code.ts'
import { figureHeightMm, sizeForFigures, sizeForXHeight, xHeightMm } from './label-font.ts'
import { paragraph, plain, rule, table, type Block, type Box, type Run } from './label-blocks.ts'

export type Layout = (typeof labelLayouts)[number]
export type LabelSize = { readonly layout: Layout; readonly widthMm: number; readonly heightMm: number }

/** A label as drawn: boxes in millimetres from the upper left corner, and what found no room. */
export type DrawnLabel = LabelSize & {
  readonly boxes: readonly Box[]
  readonly texts: readonly DrawnText[]
  readonly netMm?: number
  readonly unplaced: readonly string[]
  readonly missingMm: number
}

const EDGE_MM = 3
const GAP_MM = 1.2
const BETWEEN_MM = 4

const runsOf = (text: string, spans: readonly { start: number; end: number }[]): Run[] => {
  const cuts = spans.flatMap((s) => [s.start, s.end])
  const edges = [...new Set([0, ...cuts, text.length])].toSorted((a, b) => a - b)
  return edges.slice(0, -1).flatMap((start, i) => {
    const bold = spans.some((s) => s.start <= start && start < s.end)
    return [{ text: text.slice(start, edges[i + 1]), bold }]
  })
}

const codeBlock = (code: DrawnCode): Block => ({
  what: code.what,
  place: (x, width, top) => ({
    boxes: [{ kind: 'code', x, y: top, code }],
    height: code.height,
    tooWide: Math.max(0, code.width - width),
  }),
})

/** The blocks of a label in three groups: its head, what is read, and its tables and codes. */
function blocksOf(label: LabelOutput, least: LeastType) {
  const body = sizeForXHeight(least.xHeightMm)
  const netSize = Math.max(body, sizeForFigures(least.netMm))
  const say = (what: string, text: string | undefined, bold = false): Block[] =>
    text === undefined || text === '' ? [] : [paragraph(what, plain(text, bold), body)]
  const list = label.ingredients
  const per = label.nutrition?.basis ?? 'per 100 g'
  const head = [
    paragraph('name', plain(label.name, true), Math.max(body * 1.6, 12)),
    ...say('words beside the name', label.beside.join(', ')),
    ...(label.netText === undefined ? [] : [paragraph('net weight', plain(label.netText, true), netSize)]),
  ]
  const read = [
    paragraph(
      'ingredients',
      [{ text: `${list.heading.replace(/:?\s*$/, '')}: `, bold: false }, ...runsOf(list.text, list.emphasised)],
      body,
    ),
    ...say('contains line', list.contains, true),
    ...say('may contain', label.mayContain),
    ...say('statements', list.statements.map((s) => `${s}.`).join(' ')),
    ...say('date', label.dateText, true),
    ...say('storage', label.storage.join('. ')),
    ...label.handling.flatMap((h, i) => say(`handling ${i + 1}`, h, h === 'Safe Handling Instructions')),
    ...say('lot', label.lot === undefined ? undefined : `Lot ${label.lot}`, true),
    ...say('business', label.business),
  ]
  const beside: Block[] = label.nutrition
    ? [
        table(
          'nutrition',
          label.place === 'US' ? 'Nutrition Facts' : 'Nutrition',
          per,
          [
            ...label.serving,
            ...label.nutrition.panel
              .filter((r) => r.mandatory)
              .map((r) => {
                const value = per === 'per serving' ? r.declaredPerServing : r.declaredPer100g
                return {
                  label: r.label,
                  value: value === undefined ? '?' : `${value} ${r.unit}`,
                  ...(r.declaredDv === undefined ? {} : { third: `${r.declaredDv} %` }),
                }
              }),
          ],
          body,
        ),
      ]
    : []
  return { head, read, beside, netSize, code: label.code && drawCode(label.code) }
}

type Column = {
  readonly boxes: readonly Box[]
  readonly bottom: number
  readonly over: readonly string[]
  readonly missing: number
}

/** Blocks one below another. What passes the lower edge or the width is not drawn, and named. */
function column(blocks: readonly Block[], x: number, width: number, top: number, bottom: number): Column {
  let y = top
  const boxes: Box[] = []
  const over: string[] = []
  let tooWide = 0
  for (const b of blocks) {
    const placed = b.place(x, width, y)
    y += placed.height + GAP_MM
    const end = y - GAP_MM
    if (end > bottom + 1e-6 || placed.tooWide > 1e-6) {
      over.push(b.what)
      tooWide = Math.max(tooWide, placed.tooWide)
    } else boxes.push(...placed.boxes)
  }
  return { boxes, bottom: y - GAP_MM, over, missing: Math.max(tooWide, y - GAP_MM - bottom, 0) }
}

/**
 * Lay a label out at the least sizes its place allows. Letters are never set smaller to make them fit: what finds no room is named, with the
 * millimetres that are wanting.
 */
export function layLabel(label: LabelOutput, least: LeastType, size: LabelSize): DrawnLabel {
  const { head, read, beside, netSize, code } = blocksOf(label, least)
  const width = size.widthMm - 2 * EDGE_MM
  const bottom = size.heightMm - EDGE_MM
  const right = Math.max(0, (width - BETWEEN_MM) * 0.46)
  const left = width - BETWEEN_MM - right
  const codes = code ? [codeBlock(code)] : []
  // A code wider than its column stands at the foot, across both.
  const atFoot = code !== undefined && size.layout !== 'column' && code.width > right
  const end = atFoot ? bottom - code.height - GAP_MM : bottom
  const foot = atFoot ? [column(codes, EDGE_MM, width, bottom - code.height, bottom)] : []
  const twoFrom = (top: number, first: readonly Block[]): Column[] => [
    column(first, EDGE_MM, left, top, end),
    column([...beside, ...(atFoot ? [] : codes)], EDGE_MM + left + BETWEEN_MM, right, top, end),
    ...foot,
  ]
  const columns = (): Column[] => {
    if (size.layout === 'column')
      return [column([...head, ...read, ...beside, ...codes], EDGE_MM, width, EDGE_MM, bottom)]
    if (size.layout === 'two-columns') return twoFrom(EDGE_MM, [...head, ...read])
    const top = column([...head, rule], EDGE_MM, width, EDGE_MM, end)
    return [top, ...twoFrom(top.bottom + GAP_MM, read)]
  }
  const all = columns()
  const boxes = all.flatMap((c) => c.boxes)
  const net = boxes.some((b) => b.kind === 'text' && b.what === 'net weight')
  return {
    ...size,
    boxes,
    texts: boxes.flatMap((b) => (b.kind === 'text' ? [{ what: b.what, mm: xHeightMm(b.sizePt, b.bold) }] : [])),
    ...(net ? { netMm: figureHeightMm(netSize, true) } : {}),
    unplaced: all.flatMap((c) => c.over),
    missingMm: Math.max(0, ...all.map((c) => c.missing)),
  }
}
