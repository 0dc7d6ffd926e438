import type { DrawnCode } from './label-code.ts'
import { widthMm } from './label-font.ts'
import { ascentOf, joined, lineMm, linesOf, plain, spaceMm, wordsOf, type Run } from './label-text.ts'

/** One thing drawn, mm from the upper left corner; `y` of a text is its baseline. */
export type Box =
  | {
      readonly kind: 'text'
      readonly what: string
      readonly x: number
      readonly y: number
      readonly sizePt: number
      readonly bold: boolean
      readonly text: string
      /** Least size in points, where the text stands in a panel that has sizes of its own. */
      readonly leastPt?: number
    }
  | {
      readonly kind: 'line'
      readonly x1: number
      readonly x2: number
      readonly y: number
      readonly mm: number
      readonly dashed?: boolean
    }
  | {
      readonly kind: 'rect'
      readonly x: number
      readonly y: number
      readonly w: number
      readonly h: number
      readonly mm: number
    }
  /** An oval in its rectangle; dashed where it only keeps room. */
  | {
      readonly kind: 'oval'
      readonly x: number
      readonly y: number
      readonly w: number
      readonly h: number
      readonly mm: number
      readonly dashed?: boolean
    }
  /** A picture of our own in a square of 24 units. */
  | { readonly kind: 'art'; readonly x: number; readonly y: number; readonly mm: number; readonly svg: string }
  | { readonly kind: 'code'; readonly x: number; readonly y: number; readonly code: DrawnCode }

export type Placed = {
  readonly boxes: readonly Box[]
  readonly height: number
  /** By how much it is wider than its column, mm. */
  readonly tooWide: number
}
export type Block = {
  readonly what: string
  /** Least width it can stand in, mm. */
  readonly least: number
  readonly place: (x: number, width: number, top: number) => Placed
}

/** A text broken into lines. */
export function paragraph(what: string, runs: readonly Run[], sizePt: number, leastPt?: number): Block {
  const words = wordsOf(runs, sizePt)
  const least = Math.max(0, ...words.map((w) => w.width))
  return {
    what,
    least,
    place: (x, width, top) => {
      const lines = linesOf(words, width, spaceMm(sizePt))
      const boxes = lines.flatMap((line, i) => {
        let at = x
        const y = top + i * lineMm(sizePt) + ascentOf(sizePt)
        return joined(line).map((r): Box => {
          const box = {
            kind: 'text' as const,
            what,
            x: at,
            y,
            sizePt,
            bold: r.bold,
            text: r.text,
            ...(leastPt === undefined ? {} : { leastPt }),
          }
          at += widthMm(r.text, sizePt, r.bold)
          return box
        })
      })
      return { boxes, height: lines.length * lineMm(sizePt), tooWide: Math.max(0, least - width) }
    },
  }
}

export const rule: Block = {
  what: 'rule',
  least: 0,
  place: (x, width, top) => ({
    boxes: [{ kind: 'line', x1: x, x2: x + width, y: top + 0.3, mm: 0.25 }],
    height: 0.6,
    tooWide: 0,
  }),
}

/** Blocks one under another as one block, with a gap between. */
export const stack = (what: string, blocks: readonly Block[], gap: number): Block => ({
  what,
  least: Math.max(0, ...blocks.map((b) => b.least)),
  place: (x, width, top) => {
    let y = top
    let tooWide = 0
    const boxes = blocks.flatMap((b) => {
      const placed = b.place(x, width, y)
      y += placed.height + gap
      tooWide = Math.max(tooWide, placed.tooWide)
      return placed.boxes
    })
    return { boxes, height: Math.max(0, y - gap - top), tooWide }
  },
})

/** Blocks beside each other in columns of one width. */
export const besideEachOther = (what: string, blocks: readonly Block[], gap: number): Block => ({
  what,
  least: blocks.length * Math.max(0, ...blocks.map((b) => b.least)) + (blocks.length - 1) * gap,
  place: (x, width, top) => {
    const each = Math.max(0, (width - (blocks.length - 1) * gap) / blocks.length)
    const placed = blocks.map((b, i) => b.place(x + i * (each + gap), each, top))
    return {
      boxes: placed.flatMap((p) => p.boxes),
      height: Math.max(0, ...placed.map((p) => p.height)),
      tooWide: Math.max(0, ...placed.map((p) => p.tooWide)) * blocks.length,
    }
  },
})

/** A block within a border, with white between. */
export const framed = (block: Block, border: number, inner: number): Block => ({
  what: block.what,
  least: block.least + 2 * (inner + border),
  place: (x, width, top) => {
    const off = inner + border
    const placed = block.place(x + off, width - 2 * off, top + off)
    const h = placed.height + 2 * off
    return {
      boxes: [
        { kind: 'rect', x: x + border / 2, y: top + border / 2, w: width - border, h: h - border, mm: border },
        ...placed.boxes,
      ],
      height: h,
      tooWide: placed.tooWide,
    }
  },
})

export type GridRow = {
  readonly label: string
  readonly values: readonly string[]
  readonly bold?: boolean
  readonly indent?: boolean
}

const GAP = 1.5
const INDENT = 2

/** A table: names to the left, broken where they must, figures to the right in columns of their own. */
export function grid(what: string, rows: readonly GridRow[], sizePt: number): Block {
  const columns = Math.max(0, ...rows.map((r) => r.values.length))
  const widths = Array.from({ length: columns }, (_, c) =>
    Math.max(0, ...rows.map((r) => Math.max(0, ...cellWords(r.values[c] ?? '', sizePt, r.bold)))),
  )
  const right = widths.reduce((s, w) => s + w + GAP, 0)
  const longest = Math.max(
    0,
    ...rows.flatMap((r) => wordsOf(plain(r.label, r.bold), sizePt).map((w) => w.width + (r.indent ? INDENT : 0))),
  )
  const whole = rows.map((r) => widthMm(r.label, sizePt, r.bold ?? false) + (r.indent ? INDENT : 0))
  const natural = Array.from({ length: columns }, (_, c) =>
    Math.max(0, ...rows.map((r) => widthMm(r.values[c] ?? '', sizePt, r.bold ?? false))),
  )
  // A little more than the leading, so that no descender touches the rule below it.
  const line = lineMm(sizePt) * 1.1
  const text = (t: string, x: number, y: number, bold = false): Box => ({
    kind: 'text',
    what,
    x,
    y,
    sizePt,
    bold,
    text: t,
  })
  return {
    what,
    least: longest + right,
    place: (x, width, top) => {
      let y = top
      // Room that no name needs goes to headings that would break.
      const spare = Math.max(0, width - Math.max(0, ...whole) - right) / Math.max(1, columns)
      const wide = widths.map((w, c) => w + Math.min(spare, natural[c]! - w))
      const taken = wide.reduce((s, w) => s + w + GAP, 0)
      const boxes = rows.flatMap((r, i): Box[] => {
        const from = x + (r.indent ? INDENT : 0)
        const labels = linesOf(
          wordsOf(plain(r.label, r.bold), sizePt),
          Math.max(0, width - taken - (r.indent ? INDENT : 0)),
          spaceMm(sizePt),
        )
        const cells = r.values.map((v, c) => {
          const end = x + width - wide.slice(c + 1).reduce((s, w) => s + w + GAP, 0)
          // The first column of a heading with no name has the room of the names.
          const room = c === 0 && r.label === '' ? end - x : wide[c]!
          return { end, lines: linesOf(wordsOf(plain(v, r.bold), sizePt), room, spaceMm(sizePt)) }
        })
        const high = Math.max(1, labels.length, ...cells.map((c) => c.lines.length))
        const drawn = [
          ...labels.flatMap((l, k) =>
            joined(l).map((run) => text(run.text, from, y + k * line + ascentOf(sizePt), r.bold)),
          ),
          ...cells.flatMap(({ end, lines }) =>
            lines.flatMap((l, k) => {
              const said = joined(l)
                .map((run) => run.text)
                .join('')
              const at = end - widthMm(said, sizePt, r.bold ?? false)
              return said === '' ? [] : [text(said, at, y + k * line + ascentOf(sizePt), r.bold)]
            }),
          ),
        ]
        y += high * line
        return [...drawn, { kind: 'line', x1: x, x2: x + width, y, mm: i === 0 ? 0.3 : 0.1 }]
      })
      return { boxes, height: y - top + 0.2, tooWide: Math.max(0, longest + right - width) }
    },
  }
}

/** Widths a cell may not be narrower than: figures stay whole, the words of a heading may break. */
const cellWords = (text: string, sizePt: number, bold = false): number[] =>
  bold ? wordsOf(plain(text, true), sizePt).map((w) => w.width) : [widthMm(text, sizePt, false)]
