import type { Block, Box } from './label-blocks.ts'
import type { DrawnCode } from './label-code.ts'
import { widthMm } from './label-font.ts'
import { ascentOf, lineMm } from './label-text.ts'

const BELOW_MM = 0.6
const BESIDE_MM = 1

/** Where the figures of an EAN-13 stand, in modules from its first bar: one before it, six under each half. */
const halves = [
  { from: 3, to: 45 },
  { from: 50, to: 92 },
] as const

/** Lines of a GS1 element string: as many elements on each as its width takes. */
function linesOf(text: string, width: number, sizePt: number): string[] {
  return (text.match(/\(\d+\)[^(]+/g) ?? [text]).reduce<string[]>((lines, part) => {
    const last = lines.at(-1)
    return last !== undefined && widthMm(last + part, sizePt, false) <= width
      ? [...lines.slice(0, -1), last + part]
      : [...lines, part]
  }, [])
}

/** A bar code with what it says in figures: under its bars, or beside a square. */
export function codeBlock(code: DrawnCode, sizePt: number): Block {
  const { kind, moduleMm } = code.size
  const square = kind === 'gs1-datamatrix'
  const line = lineMm(sizePt)
  const each = square ? linesOf(code.text, 0, sizePt) : linesOf(code.text, code.width, sizePt)
  const longest = Math.max(0, ...each.map((t) => widthMm(t, sizePt, false)))
  const least = square ? code.width + BESIDE_MM + longest : Math.max(code.width, kind === 'ean-13' ? 0 : longest)
  const high = square
    ? Math.max(code.height, each.length * line)
    : kind === 'ean-13'
      ? Math.max(code.height, code.bars.y + BELOW_MM + line)
      : code.height + BELOW_MM + each.length * line
  return {
    what: code.what,
    least,
    place: (x, width, top) => {
      const text = (t: string, from: number, y: number): Box => ({
        kind: 'text',
        what: 'figures of the bar code',
        x: from,
        y: y + ascentOf(sizePt),
        sizePt,
        bold: false,
        text: t,
      })
      const middle = (t: string, from: number, to: number, y: number): Box =>
        text(t, from + (to - from - widthMm(t, sizePt, false)) / 2, y)
      const under = top + code.height + BELOW_MM
      const bars = x + code.bars.x
      const figures = (): Box[] => {
        if (square) return each.map((t, i) => text(t, x + code.width + BESIDE_MM, top + i * line))
        if (kind !== 'ean-13') return each.map((t, i) => middle(t, x, x + code.width, under + i * line))
        const figuresY = top + code.bars.y + BELOW_MM
        return [
          text(code.text[0]!, bars - widthMm('0', sizePt, false) - 2 * moduleMm, figuresY),
          ...halves.map((h, i) =>
            middle(code.text.slice(1 + 6 * i, 7 + 6 * i), bars + h.from * moduleMm, bars + h.to * moduleMm, figuresY),
          ),
        ]
      }
      return {
        boxes: [{ kind: 'code', x, y: top, code }, ...figures()],
        height: high,
        tooWide: Math.max(0, least - width),
      }
    },
  }
}
