import type { LabelDrawnQuestion } from '@forcemeat/craft/declare/label/drawn'
import type { LabelPack, labelLayouts } from '@forcemeat/craft/declare/label/pack'
import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import type { DrawnText, LeastType } from '@forcemeat/craft/declare/label/type-size'
import { figures } from '@forcemeat/craft/rules'
import { rule, type Block, type Box } from './label-blocks.ts'
import { codeBlock } from './label-code-block.ts'
import { figureHeightMm, xHeightMm } from './label-font.ts'
import { labelPartsOf, panelKey } from './label-parts.ts'

export type Layout = (typeof labelLayouts)[number]
export type LabelSize = { readonly layout: Layout; readonly widthMm: number; readonly heightMm: number }

/** A label as drawn: boxes in millimetres from the upper left corner, and what found no room. */
export type DrawnLabel = LabelSize & {
  readonly boxes: readonly Box[]
  readonly texts: readonly DrawnText[]
  readonly netMm?: number
  readonly unplaced: readonly string[]
  readonly missingMm: number
} & Pick<LabelDrawnQuestion, 'panel' | 'handling' | 'code'>

const EDGE_MM = 3
const GAP_MM = 1.2
const BETWEEN_MM = 4

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
      // A rule between languages is nothing anybody misses.
      if (b !== rule) over.push(b.what)
      tooWide = Math.max(tooWide, placed.tooWide)
    } else boxes.push(...placed.boxes)
  }
  return { boxes, bottom: y - GAP_MM, over, missing: Math.max(tooWide, y - GAP_MM - bottom, 0) }
}

/**
 * Two columns, the right one as wide as its tables need. The code stands under the tables, or under the text where there is more room, or at
 * the foot across both where it is wider than either.
 */
function twoColumns(
  read: readonly Block[],
  beside: readonly Block[],
  codes: readonly Block[],
  at: { x: number; width: number; top: number; bottom: number },
): Column[] {
  const { x, width, top, bottom } = at
  if (beside.length === 0 && codes.length === 0) return [column(read, x, width, top, bottom)]
  const inner = width - BETWEEN_MM
  const code = Math.max(0, ...codes.map((b) => b.least))
  const tables = Math.max(0, ...(beside.length === 0 ? codes : beside).map((b) => b.least))
  const right = Math.min(inner * 0.7, Math.max(tables, inner * 0.4))
  const left = inner - right
  const x2 = x + left + BETWEEN_MM
  const high = codes.reduce((s, c) => s + c.place(0, width, 0).height + GAP_MM, 0)
  const foot = code > right && code > left
  // A foot that reached into what stands above is no foot: the code then finds no room.
  const low = foot && bottom - high >= top
  const end = low ? bottom - high : bottom
  const [text, table] = [column(read, x, left, top, end), column(beside, x2, right, top, end)]
  if (foot) return [text, table, column(codes, x, width, low ? end + GAP_MM : bottom, bottom)]
  const fits = (c: Column, w: number): boolean => code <= w && c.bottom + high <= end
  return !fits(table, right) && (fits(text, left) || code > right)
    ? [column([...read, ...codes], x, left, top, end), table]
    : [text, column([...beside, ...codes], x2, right, top, end)]
}

/** Three columns from left to right for a long, low label: the head, what is read, the tables and codes. */
function strip(
  head: readonly Block[],
  read: readonly Block[],
  beside: readonly Block[],
  at: { x: number; width: number; top: number; bottom: number },
): Column[] {
  const { x, width, top, bottom } = at
  const inner = width - 2 * BETWEEN_MM
  const last = Math.min(inner * 0.5, Math.max(inner * 0.22, ...beside.map((b) => b.least)))
  const first = (inner - last) * 0.36
  const middle = inner - last - first
  return [
    column(head, x, first, top, bottom),
    column(read, x + first + BETWEEN_MM, middle, top, bottom),
    column(beside, x + first + middle + 2 * BETWEEN_MM, last, top, bottom),
  ]
}

/** What the rules ask about the label as it was drawn, read off its boxes. */
function measured(
  label: LabelOutput,
  boxes: readonly Box[],
  pack: LabelPack,
): Pick<DrawnLabel, 'texts' | 'panel' | 'handling' | 'code'> {
  const texts = boxes.flatMap((b) => (b.kind === 'text' ? [b] : []))
  const x = (b: (typeof texts)[number]): number => xHeightMm(b.sizePt, b.bold)
  const handling = texts.filter((b) => b.what.startsWith('safe handling'))
  const heading = handling.filter((b) => b.what.endsWith('heading'))
  const rest = handling.filter((b) => !b.what.endsWith('heading'))
  const code = boxes.flatMap((b) => (b.kind === 'code' ? [b.code.size] : []))[0]
  const sized = texts.flatMap((b) =>
    b.leastPt === undefined ? [] : [{ what: b.text, pt: b.sizePt, leastPt: b.leastPt }],
  )
  return {
    // A panel with sizes of its own is held to those.
    texts: texts.filter((b) => b.leastPt === undefined).map((b) => ({ what: b.what, mm: x(b) })),
    ...(sized.length === 0 ? {} : { panel: { format: panelKey(label, pack), texts: sized } }),
    ...(heading.length === 0 || rest.length === 0
      ? {}
      : { handling: { headingMm: Math.min(...heading.map(x)), smallestMm: Math.min(...rest.map(x)) } }),
    ...(code ? { code } : {}),
  }
}

/** Width of the thinnest bar that a warehouse reads, where the code is of cases and nobody asks for a width. */
function warehouseModule(label: LabelOutput, pack: LabelPack): number | undefined {
  if (label.code?.kind !== 'gs1-128' || pack.moduleMm !== undefined) return undefined
  return figures('labelDrawn').codes['gs1-128'].leastModuleMm
}

/**
 * Lay a label out as `laid` does. A GS1-128 stands at the module a warehouse reads wherever all of the label finds room with it and the symbol is
 * no longer than it may be, at its usual one otherwise.
 */
export function layLabel(label: LabelOutput, least: LeastType, size: LabelSize, pack: LabelPack): DrawnLabel {
  const wide = warehouseModule(label, pack)
  if (wide !== undefined) {
    const drawn = laid(label, least, size, { ...pack, moduleMm: wide })
    const { mostWidthMm } = figures('labelDrawn').codes['gs1-128']
    if (drawn.unplaced.length === 0 && drawn.code && drawn.code.widthMm <= (mostWidthMm ?? Infinity)) return drawn
  }
  return laid(label, least, size, pack)
}

/**
 * Lay a label out at the least sizes its place allows, or the larger ones of its pack. Letters are never set smaller to make them fit: what
 * finds no room is named, with the millimetres that are wanting.
 */
function laid(label: LabelOutput, least: LeastType, size: LabelSize, pack: LabelPack): DrawnLabel {
  const folded = size.layout === 'front-and-back'
  const { head: names, net, read, beside, bodySize, netSize, code } = labelPartsOf(label, least, pack, folded)
  const head = folded ? names : [...names, ...net]
  const edge = pack.marginMm ?? EDGE_MM
  const { layout, widthMm, heightMm } = size
  const width = widthMm - 2 * edge
  const bottom = heightMm - edge
  const codes = code ? [codeBlock(code, bodySize)] : []
  const at = { x: edge, width, top: edge, bottom }
  const columns = (): Column[] => {
    if (layout === 'column') return [column([...head, ...read, ...beside, ...codes], edge, width, edge, bottom)]
    if (layout === 'two-columns') return twoColumns([...head, ...read], beside, codes, at)
    if (layout === 'strip') return strip(head, read, [...beside, ...codes], at)
    if (folded) {
      const foot = bottom - net.reduce((s, b) => s + b.place(0, width, 0).height, 0)
      return [
        column(head, edge, width, edge, foot - GAP_MM),
        column(net, edge, width, Math.max(foot, edge), bottom),
        ...twoColumns(read, beside, codes, { ...at, x: widthMm + edge }),
      ]
    }
    const top = column([...head, rule], edge, width, edge, bottom)
    return [top, ...twoColumns(read, beside, codes, { ...at, top: top.bottom + GAP_MM })]
  }
  const all = columns()
  const boxes = all.flatMap((c) => c.boxes)
  const weighed = boxes.some((b) => b.kind === 'text' && b.what === 'net weight')
  return {
    layout,
    heightMm,
    // Front and back are one piece, folded in its middle.
    widthMm: folded ? 2 * widthMm : widthMm,
    boxes: folded ? [...boxes, fold(widthMm, heightMm)] : boxes,
    ...measured(label, boxes, pack),
    ...(weighed ? { netMm: figureHeightMm(netSize, true) } : {}),
    unplaced: all.flatMap((c) => c.over),
    missingMm: Math.max(0, ...all.map((c) => c.missing)),
  }
}

/** The line to fold at: a hair of a rectangle, over the whole height. */
const fold = (x: number, h: number): Box => ({ kind: 'rect', x, y: 0, w: 0, h, mm: 0.1 })
