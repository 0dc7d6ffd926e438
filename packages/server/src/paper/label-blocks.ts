import type { DrawnCode } from './label-code.ts'
import { MM_PER_PT, widthMm } from './label-font.ts'

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
    }
  | { readonly kind: 'line'; readonly x1: number; readonly x2: number; readonly y: number; readonly mm: number }
  | { readonly kind: 'code'; readonly x: number; readonly y: number; readonly code: DrawnCode }

export type Placed = {
  readonly boxes: readonly Box[]
  readonly height: number
  /** By how much it is wider than its column, mm. */
  readonly tooWide: number
}
export type Block = { readonly what: string; readonly place: (x: number, width: number, top: number) => Placed }
export type Run = { readonly text: string; readonly bold: boolean }

const LEADING = 1.15
const lineMm = (sizePt: number): number => sizePt * MM_PER_PT * LEADING

export const plain = (text: string, bold = false): Run[] => [{ text, bold }]

type Word = { readonly runs: readonly Run[]; readonly width: number }

/** Words, each of one or more runs, so that a word half of which is set off is not torn. */
function wordsOf(runs: readonly Run[], sizePt: number): Word[] {
  const words: Run[][] = [[]]
  for (const run of runs)
    for (const [i, part] of run.text.split(/\s+/).entries()) {
      if (i > 0) words.push([])
      if (part !== '') words.at(-1)!.push({ text: part, bold: run.bold })
    }
  return words
    .filter((w) => w.length > 0)
    .map((w) => ({ runs: w, width: w.reduce((s, r) => s + widthMm(r.text, sizePt, r.bold), 0) }))
}

function linesOf(words: readonly Word[], width: number, space: number): Word[][] {
  const lines: Word[][] = []
  let at = 0
  for (const w of words) {
    const line = lines.at(-1)
    if (line && at + space + w.width <= width + 1e-9) {
      line.push(w)
      at += space + w.width
    } else {
      lines.push([w])
      at = w.width
    }
  }
  return lines
}

/** Runs of a line with the spaces between its words, neighbours of one weight put together. */
const joined = (line: readonly Word[]): Run[] =>
  line
    .flatMap((w, i) => w.runs.map((r, j) => ({ ...r, text: i > 0 && j === 0 ? ` ${r.text}` : r.text })))
    .reduce<Run[]>((done, r) => {
      const last = done.at(-1)
      return last?.bold === r.bold ? [...done.slice(0, -1), { ...last, text: last.text + r.text }] : [...done, r]
    }, [])

/** A text broken into lines. */
export const paragraph = (what: string, runs: readonly Run[], sizePt: number): Block => ({
  what,
  place: (x, width, top) => {
    const words = wordsOf(runs, sizePt)
    // The wider of the two spaces, so that a line never comes out longer than it was reckoned.
    const space = Math.max(widthMm(' ', sizePt, false), widthMm(' ', sizePt, true))
    const lines = linesOf(words, width, space)
    const boxes = lines.flatMap((line, i) => {
      let at = x
      const y = top + i * lineMm(sizePt) + ascentOf(sizePt)
      return joined(line).map((r): Box => {
        const box = { kind: 'text' as const, what, x: at, y, sizePt, bold: r.bold, text: r.text }
        at += widthMm(r.text, sizePt, r.bold)
        return box
      })
    })
    return {
      boxes,
      height: lines.length * lineMm(sizePt),
      tooWide: Math.max(0, ...words.map((w) => w.width - width)),
    }
  },
})

/** Baseline of a line from its top, as a share of the size: room for capitals and accents above it. */
const ascentOf = (sizePt: number): number => sizePt * MM_PER_PT * 0.9

export const rule: Block = {
  what: 'rule',
  place: (x, width, top) => ({
    boxes: [{ kind: 'line', x1: x, x2: x + width, y: top + 0.3, mm: 0.25 }],
    height: 0.6,
    tooWide: 0,
  }),
}

export type TableRow = { readonly label: string; readonly value: string; readonly third?: string }

/** A table of two or three columns under a heading, figures to the right. */
export const table = (what: string, title: string, per: string, rows: readonly TableRow[], sizePt: number): Block => ({
  what,
  place: (x, width, top) => {
    // A little more than the leading, so that no descender touches the rule below it.
    const line = lineMm(sizePt) * 1.1
    const all: readonly (TableRow & { bold: boolean })[] = [
      { label: title, value: per, bold: true },
      ...rows.map((r) => ({ ...r, bold: false })),
    ]
    const wide = (of: (r: TableRow) => string | undefined, bold: boolean) =>
      Math.max(0, ...all.map((r) => (of(r) === undefined ? 0 : widthMm(of(r)!, sizePt, bold))))
    const third = wide((r) => r.third, false)
    const gap = 1.5
    const valueRight = x + width - (third > 0 ? third + gap : 0)
    const needed = wide((r) => r.label, true) + gap + wide((r) => r.value, true) + (third > 0 ? third + gap : 0)
    const boxes = all.flatMap((r, i): Box[] => {
      const y = top + i * line + ascentOf(sizePt)
      const text = (t: string, at: number): Box => ({ kind: 'text', what, x: at, y, sizePt, bold: r.bold, text: t })
      return [
        text(r.label, x),
        text(r.value, valueRight - widthMm(r.value, sizePt, r.bold)),
        ...(r.third === undefined ? [] : [text(r.third, x + width - widthMm(r.third, sizePt, r.bold))]),
        { kind: 'line', x1: x, x2: x + width, y: top + (i + 1) * line, mm: i === 0 ? 0.3 : 0.1 },
      ]
    })
    return { boxes, height: all.length * line + 0.2, tooWide: Math.max(0, needed - width) }
  },
})
