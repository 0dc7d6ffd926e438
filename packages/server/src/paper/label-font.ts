import { openSync, type Font } from 'fontkit'
import { fontFiles } from './print.ts'

/** Millimetres in a point, 1/72 inch. */
export const MM_PER_PT = 25.4 / 72

const fonts: { readonly regular: Font; readonly bold: Font } = {
  regular: openSync(fontFiles.normal),
  bold: openSync(fontFiles.bold),
}
const of = (bold: boolean): Font => (bold ? fonts.bold : fonts.regular)

/** Width of a text, mm, as its glyphs are set. */
export const widthMm = (text: string, sizePt: number, bold: boolean): number =>
  (of(bold).layout(text).advanceWidth / of(bold).unitsPerEm) * sizePt * MM_PER_PT

const heightOf = (letter: string, bold: boolean): number =>
  of(bold).glyphForCodePoint(letter.codePointAt(0)!).bbox.maxY / of(bold).unitsPerEm

/** Height of the lower-case x of a size, mm, by the outline of the letter itself. */
export const xHeightMm = (sizePt: number, bold: boolean): number => heightOf('x', bold) * sizePt * MM_PER_PT

/** Height of a figure, mm: that of the lowest of the ten. */
export const figureHeightMm = (sizePt: number, bold: boolean): number =>
  Math.min(...Array.from('0123456789', (d) => heightOf(d, bold))) * sizePt * MM_PER_PT

/** From the top of a line to its baseline, mm. */
export const ascentMm = (sizePt: number, bold: boolean): number =>
  (of(bold).ascent / of(bold).unitsPerEm) * sizePt * MM_PER_PT

/** Joiners and selectors of variants show nothing by themselves. */
const SHOWS_NOTHING = /^[\p{White_Space}\p{Default_Ignorable_Code_Point}]$/u

/** Characters of a text the font has no letter for: they would be drawn as an empty box. */
export const withoutLetter = (text: string, bold: boolean): string[] =>
  Array.from(text.normalize('NFC')).filter(
    (c) => !SHOWS_NOTHING.test(c) && !of(bold).hasGlyphForCodePoint(c.codePointAt(0)!),
  )

const STEP_PT = 0.1
/** The least size, in tenths of a point, whose letters in both weights reach a height. */
const sizeFor = (heightAtOne: number, mm: number): number => Math.ceil(mm / heightAtOne / STEP_PT - 1e-9) * STEP_PT
export const sizeForXHeight = (mm: number): number => sizeFor(Math.min(xHeightMm(1, false), xHeightMm(1, true)), mm)
export const sizeForFigures = (mm: number): number => sizeFor(figureHeightMm(1, true), mm)

/** The outlines of a text as one SVG path with its baseline at (x, y), mm. */
export function outline(text: string, x: number, y: number, sizePt: number, bold: boolean): string {
  const font = of(bold)
  const k = (sizePt * MM_PER_PT) / font.unitsPerEm
  const run = font.layout(text)
  let at = x
  return run.glyphs
    .map((glyph, i) => {
      const { xAdvance, xOffset, yOffset } = run.positions[i]!
      const d = glyph.path
        .scale(k, -k)
        .translate(at + xOffset * k, y - yOffset * k)
        .toSVG()
      at += xAdvance * k
      return d
    })
    .join('')
}
