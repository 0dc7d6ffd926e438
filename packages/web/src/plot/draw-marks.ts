import type uPlot from 'uplot'
import { paper, type PlotLimit, type PlotMark, type PlotWindow } from './model.ts'
import { createRoom } from './room.ts'

export type Marks = {
  readonly limits: readonly PlotLimit[]
  readonly windows: readonly PlotWindow[]
  readonly marks: readonly PlotMark[]
}

/** A plot narrower than this, px, has few words on it. */
const SMALL = 420

/** Limits as dashed lines with their words on them; windows as bars under the curve, named; instants from top to bottom. */
export function drawMarks(u: uPlot, { limits, windows, marks }: Marks): void {
  const { ctx, bbox } = u
  const ratio = devicePixelRatio || 1
  const [right, floor] = [bbox.left + bbox.width, bbox.top + bbox.height]
  const stroke = (points: readonly (readonly [number, number])[]): void => {
    ctx.beginPath()
    points.forEach(([x, y], i) => (i % 2 === 0 ? ctx.moveTo(x, y) : ctx.lineTo(x, y)))
    ctx.stroke()
  }
  const room = createRoom(bbox.top, floor)
  const line = 15 * ratio
  // On a phone there is room for few words: what stops the batch and what is met; the rest stands in the table below.
  const small = bbox.width < SMALL * ratio
  /** Words with their foot at `y`, moved to the nearest free line, on a strip of paper so that a curve does not run through them. */
  const words = (text: string, from: number, y: number): void => {
    const width = ctx.measureText(text).width
    const x = Math.max(bbox.left, Math.min(from, right - width - 2 * ratio))
    strip(text, x, room.place({ x, y: y - line, width, height: line }) + line, width)
  }
  const strip = (text: string, x: number, foot: number, width: number): void => {
    const ink = ctx.fillStyle
    ctx.fillStyle = paper.ground
    ctx.globalAlpha = 0.8
    ctx.fillRect(x, foot - line + 3 * ratio, width, line)
    ctx.globalAlpha = 1
    ctx.fillStyle = ink
    ctx.fillText(text, x, foot)
  }
  ctx.save()
  ctx.font = `${13 * ratio}px "Source Sans 3", sans-serif`
  ctx.textBaseline = 'alphabetic'
  ctx.textAlign = 'left'
  ctx.lineWidth = ratio
  // Lines first: words then stand on their strip of paper, not under a line.
  ctx.setLineDash([6 * ratio, 5 * ratio])
  for (const limit of limits) {
    const y = u.valToPos(limit.value, 't', true)
    if (y < bbox.top || y > floor) continue
    ctx.strokeStyle = limit.stops ? paper.stop : paper.soft
    stroke([
      [bbox.left, y],
      [right, y],
    ])
  }
  ctx.setLineDash([])
  for (const mark of marks) {
    const x = u.valToPos(mark.minute, 'x', true)
    if (x < bbox.left || x > right) continue
    ctx.strokeStyle = mark.strong ? paper.ink : '#b9ae9b'
    ctx.fillStyle = mark.strong ? paper.ink : paper.soft
    stroke([
      [x, bbox.top],
      [x, floor],
    ])
    if (!small || mark.strong) words(mark.label, x + 4 * ratio, bbox.top + 15 * ratio)
  }
  if (!small)
    windows.forEach((w, row) => {
      const [x0, x1] = [u.valToPos(w.fromMinute, 'x', true), u.valToPos(w.toMinute, 'x', true)]
      room.take({ x: x0, y: floor - (20 + row * 18) * ratio, width: x1 - x0, height: 12 * ratio })
    })
  const levels = limits.map((l) => u.valToPos(l.value, 't', true))
  limits.forEach((limit, i) => {
    const y = levels[i]!
    if (y < bbox.top || y > floor || (small && !limit.stops)) return
    ctx.fillStyle = limit.stops ? paper.stop : paper.soft
    ctx.strokeStyle = ctx.fillStyle
    const width = ctx.measureText(limit.label).width
    const at = room.placeOnLine({ width, height: line }, y, {
      left: bbox.left + 4 * ratio,
      right: right - 6 * ratio,
      others: levels,
    })
    strip(limit.label, at.x, at.y + line - 3 * ratio, width)
    if (!at.away) return
    const from = at.y > y ? at.y + 2 * ratio : at.y + line
    stroke([
      [at.x + width + 2 * ratio, from],
      [at.x + width + 2 * ratio, y],
    ])
  })
  ctx.lineWidth = 2 * ratio
  windows.forEach((w, row) => {
    const x0 = Math.max(bbox.left, u.valToPos(w.fromMinute, 'x', true))
    const x1 = Math.min(right, u.valToPos(w.toMinute, 'x', true))
    if (x1 <= x0) return
    const y = floor - (14 + row * 18) * ratio
    ctx.strokeStyle = w.verdict === 'fail' ? paper.stop : paper.ink
    ctx.fillStyle = ctx.strokeStyle
    stroke([
      [x0, y - 4 * ratio],
      [x0, y + 4 * ratio],
      [x0, y],
      [x1, y],
      [x1, y - 4 * ratio],
      [x1, y + 4 * ratio],
    ])
    if (small) return
    // Near the right edge the words stand to the left of the bar.
    const width = ctx.measureText(w.label).width
    words(
      w.label,
      x0 + width + 8 * ratio > right ? Math.max(bbox.left, x0 - width - 6 * ratio) : x0 + 4 * ratio,
      y - 5 * ratio,
    )
  })
  ctx.restore()
}
