import { formatNumber } from '@forcemeat/craft/quantity/format'
import { ink, quiet, stop } from './frame.ts'
import { escape, niceStep, pathOf, type Scale } from './svg-axes.ts'

export type DaysLine = {
  readonly label: string
  /** Day and value; null is a gap, drawn as one. */
  readonly points: readonly (readonly [number, number | null])[]
  /** Told apart in grey as well: a firm line, a broken one, or the readings alone. */
  readonly as: 'line' | 'dashed' | 'dots'
}
export type DaysPlot = {
  readonly lines: readonly DaysLine[]
  readonly limits: readonly { readonly label: string; readonly value: number }[]
  /** What is drawn upward, with its unit. */
  readonly upward: string
  /** What the days are counted from; hours are drawn where `span` is hours. */
  readonly along: string
  /** Where the axis begins, if not at the first point. */
  readonly from?: number
}

const dot = (x: number, y: number): string =>
  `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="2.4" fill="${ink}"/>`
const strokes = {
  line: `stroke="${ink}" stroke-width="1.4"`,
  dashed: `stroke="${quiet}" stroke-width="1" stroke-dasharray="5 3"`,
} as const

/** One quantity over time, with axes, its limits drawn in and a key; empty where nothing is to be drawn. */
export function daysSvg({ lines, limits, upward, along, from }: DaysPlot, width: number, height: number): string {
  const all = lines.flatMap((l) => l.points.flatMap(([t, v]) => (v === null ? [] : [[t, v] as const])))
  if (all.length === 0) return ''
  const [left, right, top, bottom] = [40, 8, 14, 42]
  // One after the other, not spread: a log of months has more points than a call takes arguments.
  const fold = (pick: 0 | 1, f: (a: number, b: number) => number): number =>
    all.reduce((sofar, p) => f(sofar, p[pick]), all[0]![pick])
  let [minT, maxT] = [Math.min(from ?? Infinity, fold(0, Math.min)), fold(0, Math.max)]
  if (maxT - minT < 1e-9) [minT, maxT] = [minT - 0.5, maxT + 0.5]
  const values = limits.map((l) => l.value)
  const [minV, maxV] = [Math.min(fold(1, Math.min), ...values), Math.max(fold(1, Math.max), ...values)]
  const stepV = niceStep(Math.max(maxV - minV, 1e-3), 6)
  const lowV = Math.floor(minV / stepV) * stepV
  const highV = Math.max(Math.ceil(maxV / stepV) * stepV, lowV + stepV)
  const x: Scale = (t) => left + ((t - minT) / (maxT - minT)) * (width - left - right)
  const y: Scale = (v) => height - bottom - ((v - lowV) / (highV - lowV)) * (height - top - bottom)
  const out: string[] = []
  const text = (px: number, py: number, words: string, more = '', fill = quiet) =>
    out.push(
      `<text x="${px.toFixed(1)}" y="${py.toFixed(1)}" font-family="SourceSans" font-size="8.5" fill="${fill}" ${more}>${escape(words)}</text>`,
    )
  for (let v = lowV; v <= highV + stepV / 1e6; v += stepV) {
    out.push(`<path d="M${left} ${y(v).toFixed(1)}H${width - right}" stroke="#ddd5c8" stroke-width="0.5" fill="none"/>`)
    text(left - 4, y(v) + 3, formatNumber(Number(v.toFixed(6))), 'text-anchor="end"')
  }
  const stepT = niceStep(maxT - minT, 10)
  for (let t = Math.ceil(minT / stepT) * stepT; t <= maxT + 1e-9; t += stepT) {
    out.push(`<path d="M${x(t).toFixed(1)} ${height - bottom}v4" stroke="${ink}" stroke-width="0.6" fill="none"/>`)
    text(x(t), height - bottom + 13, formatNumber(Number(t.toFixed(6))), 'text-anchor="middle"')
  }
  out.push(
    `<path d="M${left} ${top}V${height - bottom}H${width - right}" stroke="${ink}" stroke-width="0.8" fill="none"/>`,
  )
  text(2, 8, upward)
  text(width - right, height - bottom + 24, along, 'text-anchor="end"')
  for (const l of lines)
    if (l.as === 'dots') for (const [t, v] of l.points) out.push(v === null ? '' : dot(x(t), y(v)))
    else out.push(`<path d="${pathOf(l.points, x, y)}" ${strokes[l.as]} fill="none" stroke-linejoin="round"/>`)
  for (const l of limits.toSorted((a, b) => a.value - b.value)) {
    const ly = y(l.value)
    out.push(
      `<path d="M${left} ${ly.toFixed(1)}H${width - right}" stroke="${stop}" stroke-width="0.9" stroke-dasharray="4 2" fill="none"/>`,
    )
    text(width - right - 2, ly - 3, l.label, 'text-anchor="end"', stop)
  }
  let kx = left
  for (const l of lines) {
    out.push(
      l.as === 'dots' ? dot(kx + 11, height - 8) : `<path d="M${kx} ${height - 8}h22" ${strokes[l.as]} fill="none"/>`,
    )
    text(kx + 26, height - 5, l.label)
    kx += 26 + l.label.length * 4.6 + 18
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${out.join('')}</svg>`
}
