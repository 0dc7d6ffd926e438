import type { PanelType } from '@forcemeat/craft/declare/label/drawn'
import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import { paragraph, type Block, type Box } from './label-blocks.ts'
import { MM_PER_PT, widthMm } from './label-font.ts'
import { plain } from './label-text.ts'

/** One text of a row: where it stands, how large, and the least it may be. */
export type Cell = { readonly text: string; readonly pt: number; readonly leastPt: number; readonly bold?: boolean }
export type Line = {
  readonly left?: readonly Cell[]
  readonly right?: Cell
  readonly indentMm?: number
  /** From the top of this line to that of the next, mm. */
  readonly pitchMm: number
  /** Bar above it, points; of the whole width but for `fromMm`. */
  readonly barPt?: number
  readonly fromMm?: number
}

const WHAT = 'nutrition'
const GAP_MM = 1.5
/** Height of a capital of the fonts in use, of the size. */
const CAPITAL = 0.66

const widthOf = (cells: readonly Cell[]): number =>
  cells.reduce((s, c) => s + widthMm(c.text, c.pt, c.bold ?? false), 0)
const leastOf = (l: Line): number => {
  const [left, right] = [widthOf(l.left ?? []), l.right ? widthOf([l.right]) : 0]
  return (l.indentMm ?? 0) + left + right + (left > 0 && right > 0 ? GAP_MM : 0)
}

/** Lines with bars between, as a panel has them. */
export const panelLines = (lines: readonly Line[]): Block => ({
  what: WHAT,
  least: Math.max(0, ...lines.map(leastOf)),
  place: (x, width, top) => {
    let y = top
    const boxes = lines.flatMap((l): Box[] => {
      const bar = (l.barPt ?? 0) * MM_PER_PT
      const barred: Box[] =
        bar === 0 ? [] : [{ kind: 'line', x1: x + (l.fromMm ?? 0), x2: x + width, y: y + bar / 2, mm: bar }]
      y += bar
      const largest = Math.max(0, ...(l.left ?? []).map((c) => c.pt), l.right?.pt ?? 0)
      const base = y + l.pitchMm / 2 + (largest * MM_PER_PT * CAPITAL) / 2
      y += l.pitchMm
      let at = x + (l.indentMm ?? 0)
      const set = (c: Cell, from: number): Box => ({
        kind: 'text',
        what: WHAT,
        x: from,
        y: base,
        sizePt: c.pt,
        bold: c.bold ?? false,
        text: c.text,
        leastPt: c.leastPt,
      })
      const left = (l.left ?? []).map((c) => {
        const box = set(c, at)
        at += widthMm(c.text, c.pt, c.bold ?? false)
        return box
      })
      return [...barred, ...left, ...(l.right ? [set(l.right, x + width - widthOf([l.right]))] : [])]
    })
    return { boxes, height: y - top, tooWide: Math.max(0, Math.max(0, ...lines.map(leastOf)) - width) }
  },
})

/** A heading as large as its width lets it be, never smaller than a size. */
export const fitted = (text: string, leastPt: number, mostPt: number): Block => ({
  what: WHAT,
  least: widthMm(text, leastPt, true),
  place: (x, width, top) => {
    const pt = Math.min(mostPt, Math.max(leastPt, Math.floor((width / widthMm(text, 1, true)) * 10) / 10))
    const high = pt * MM_PER_PT
    return {
      boxes: [{ kind: 'text', what: WHAT, x, y: top + high * 0.78, sizePt: pt, bold: true, text, leastPt }],
      height: high * 1.02,
      tooWide: Math.max(0, widthMm(text, pt, true) - width),
    }
  },
})

export const small = (text: string, type: PanelType): Block => paragraph(WHAT, plain(text), type.smallPt, type.smallPt)

/** What a text of the label says in every language, once where they say the same. */
export const inAll = (
  label: LabelOutput,
  say: (v: LabelOutput['versions'][number]) => string | undefined,
): string[] => [...new Set(label.versions.flatMap((v) => say(v) ?? []))]
export const slashed = (texts: readonly string[]): string => texts.join(' / ')

export const pitch = (type: PanelType): number => (type.rowPt + type.leadingPt) * MM_PER_PT
