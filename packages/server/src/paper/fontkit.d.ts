/** The part of fontkit that labels use; the package brings no types of its own. */
declare module 'fontkit' {
  export type Glyph = {
    readonly advanceWidth: number
    readonly bbox: { readonly minY: number; readonly maxY: number }
    readonly path: { scale(x: number, y: number): { translate(x: number, y: number): { toSVG(): string } } }
  }
  export type Font = {
    readonly unitsPerEm: number
    readonly ascent: number
    readonly descent: number
    layout(text: string): {
      readonly glyphs: readonly Glyph[]
      readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number; readonly yOffset: number }[]
      readonly advanceWidth: number
    }
    glyphForCodePoint(point: number): Glyph
    hasGlyphForCodePoint(point: number): boolean
  }
  export function openSync(file: string): Font
}
