import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import type { Block, Box } from './label-blocks.ts'
import { widthMm } from './label-font.ts'
import { ascentOf, lineMm } from './label-text.ts'

export const MARK = 'mark of the establishment'
const LINE_MM = 0.35
const ROOM_LINE_MM = 0.1

/** An oval whose inside takes a rectangle of text has its axes longer by this. */
const AROUND = Math.SQRT2
const LYING = 1.4

/** The mark of the establishment, its lines in the middle of an oval or a frame; or an empty circle for a legend printed from other artwork. */
export function markBlock({ kind, lines, roomMm = 0 }: NonNullable<LabelOutput['mark']>, sizePt: number): Block {
  const line = lineMm(sizePt)
  const inner = { w: Math.max(0, ...lines.map((t) => widthMm(t, sizePt, true))), h: lines.length * line }
  const around = kind === 'oval' ? AROUND : 1
  const pad = kind === 'room' ? 0 : 1
  const h = kind === 'room' ? roomMm : inner.h * around + 2 * pad
  // An oval lies; one that stood would be taken for a circle.
  const w = kind === 'room' ? roomMm : Math.max(inner.w * around + 2 * pad, kind === 'oval' ? h * LYING : 0)
  const oval = kind === 'oval'
  return {
    what: MARK,
    least: w,
    place: (x, width, top) => {
      const edge = { x: x + LINE_MM / 2, y: top + LINE_MM / 2, w: w - LINE_MM, h: h - LINE_MM, mm: LINE_MM }
      const outline: Box =
        kind === 'room'
          ? { kind: 'oval', ...edge, mm: ROOM_LINE_MM, dashed: true }
          : { kind: oval ? 'oval' : 'rect', ...edge }
      return {
        boxes: [
          outline,
          ...lines.map((text, i): Box => ({
            kind: 'text',
            what: MARK,
            x: x + (w - widthMm(text, sizePt, true)) / 2,
            y: top + (h - inner.h) / 2 + i * line + ascentOf(sizePt),
            sizePt,
            bold: true,
            text,
          })),
        ],
        height: h,
        tooWide: Math.max(0, w - width),
      }
    },
  }
}
