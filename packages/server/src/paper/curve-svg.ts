import { formatNumber } from '@forcemeat/craft/quantity/format'
import { ink, line, quiet, stop } from './frame.ts'
import type { System } from './amounts.ts'
import { escape, niceStep, pathOf, type Scale } from './svg-axes.ts'

export type PaperCurve = {
  readonly label: string
  readonly role: 'core' | 'house' | 'surface' | 'other'
  /** Minute and °C; null is a gap, drawn as one. */
  readonly points: readonly (readonly [number, number | null])[]
}
export type PaperLimit = { readonly label: string; readonly c: number }
export type PaperPlot = {
  readonly curves: readonly PaperCurve[]
  readonly limits: readonly PaperLimit[]
  /** Minute at which the chill begins. */
  readonly chillStart?: number
}

const minuteSteps = [1, 2, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440, 2880]
const minuteStep = (span: number, most: number): number =>
  minuteSteps.find((s) => span / s <= most) ?? niceStep(span / 1440, most) * 1440

const clock = (minute: number): string => {
  const h = Math.floor(minute / 60)
  const m = Math.round(minute % 60)
  return `${h}:${String(m).padStart(2, '0')}`
}

/** Told apart by weight and dash as well, so that a copy in grey still reads. */
const strokes: Readonly<Record<PaperCurve['role'], string>> = {
  core: `stroke="${ink}" stroke-width="1.8"`,
  surface: `stroke="${quiet}" stroke-width="1.2"`,
  house: `stroke="${quiet}" stroke-width="1" stroke-dasharray="6 3"`,
  other: `stroke="${line}" stroke-width="1"`,
}

/** Temperatures over time, with axes, the limits drawn in and a key; colours are spelled out, for the PDF. */
export function curveSvg(
  { curves, limits, chillStart }: PaperPlot,
  system: System,
  width: number,
  height: number,
): string {
  const shown = (c: number): number => (system === 'us' ? c * 1.8 + 32 : c)
  const all = curves.flatMap((k) => k.points.flatMap(([m, c]) => (c === null ? [] : [[m, shown(c)] as const])))
  if (all.length === 0) return ''
  const [left, right, top, bottom] = [40, 8, 8, 44]
  let [minC, maxC, minM, maxM] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const [m, c] of all) {
    if (c < minC) minC = c
    if (c > maxC) maxC = c
    if (m < minM) minM = m
    if (m > maxM) maxM = m
  }
  for (const l of limits) [minC, maxC] = [Math.min(minC, shown(l.c)), Math.max(maxC, shown(l.c))]
  if (maxM === minM) maxM = minM + 1
  const stepC = niceStep(Math.max(maxC - minC, 1), 8)
  const lowC = Math.floor(minC / stepC) * stepC
  // A flat curve still stands on an axis with some height.
  const highC = Math.max(Math.ceil(maxC / stepC) * stepC, lowC + stepC)
  const x: Scale = (m) => left + ((m - minM) / (maxM - minM)) * (width - left - right)
  const y: Scale = (c) => height - bottom - ((c - lowC) / (highC - lowC)) * (height - top - bottom)
  const out: string[] = []
  const text = (px: number, py: number, words: string, more = '', fill = quiet) =>
    out.push(
      `<text x="${px.toFixed(1)}" y="${py.toFixed(1)}" font-family="SourceSans" font-size="8.5" fill="${fill}" ${more}>${escape(words)}</text>`,
    )
  for (let c = lowC; c <= highC + 1e-9; c += stepC) {
    out.push(`<path d="M${left} ${y(c).toFixed(1)}H${width - right}" stroke="#ddd5c8" stroke-width="0.5" fill="none"/>`)
    text(left - 4, y(c) + 3, formatNumber(Number(c.toFixed(6))), 'text-anchor="end"')
  }
  const stepM = minuteStep(maxM - minM, 10)
  for (let m = Math.ceil(minM / stepM) * stepM; m <= maxM; m += stepM) {
    out.push(`<path d="M${x(m).toFixed(1)} ${height - bottom}v4" stroke="${ink}" stroke-width="0.6" fill="none"/>`)
    text(x(m), height - bottom + 13, clock(m), 'text-anchor="middle"')
  }
  out.push(
    `<path d="M${left} ${top}V${height - bottom}H${width - right}" stroke="${ink}" stroke-width="0.8" fill="none"/>`,
  )
  text(2, top + 4, system === 'us' ? '°F' : '°C')
  text(width - right, height - bottom + 24, 'hours:minutes from the start of the log', 'text-anchor="end"')
  if (chillStart !== undefined && chillStart >= minM && chillStart <= maxM) {
    out.push(
      `<path d="M${x(chillStart).toFixed(1)} ${top}V${height - bottom}" stroke="${quiet}" stroke-width="0.8" stroke-dasharray="1 2" fill="none"/>`,
    )
    text(x(chillStart) + 3, top + 8, 'chill begins')
  }
  for (const k of curves.toSorted((a, b) => (a.role === 'core' ? 1 : 0) - (b.role === 'core' ? 1 : 0)))
    out.push(`<path d="${pathOf(k.points, x, y)}" ${strokes[k.role]} fill="none" stroke-linejoin="round"/>`)
  for (const l of limits.toSorted((a, b) => a.c - b.c)) {
    const ly = y(shown(l.c))
    out.push(
      `<path d="M${left} ${ly.toFixed(1)}H${width - right}" stroke="${stop}" stroke-width="0.9" stroke-dasharray="4 2" fill="none"/>`,
    )
    text(width - right - 2, ly - 3, l.label, 'text-anchor="end"', stop)
  }
  let kx = left
  for (const k of curves) {
    out.push(`<path d="M${kx} ${height - 8}h22" ${strokes[k.role]} fill="none"/>`)
    text(kx + 26, height - 5, k.label)
    kx += 26 + k.label.length * 4.6 + 18
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${out.join('')}</svg>`
}
