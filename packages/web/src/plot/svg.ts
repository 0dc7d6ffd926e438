import { isRight, looksOf, paper, rightAxisOf, tickOf, timeLabel, type CurveSeries, type PlotPicture } from './model.ts'
import { createRoom } from './room.ts'

/** Mean width of a letter and height of a line at 13 px, px. */
const LETTER = 6.4
const LINE = 15

type Range = readonly [number, number]
export type SvgSize = { readonly width: number; readonly height: number; readonly from?: number; readonly to?: number }

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')
const at = (x: number): string => Number(x.toFixed(2)).toString()

/** A step of 1, 2 or 5 times a power of ten that gives at most `most` ticks. */
function niceStep(span: number, most: number): number {
  const ten = 10 ** Math.floor(Math.log10(span / most))
  return ten * ([1, 2, 5, 10].find((k) => k * ten >= span / most) ?? 10)
}
const minuteSteps = [1, 2, 5, 10, 15, 30, 60, 120, 240, 360, 720, 1440, 2880, 7200, 14_400, 28_800, 72_000]
const ticks = ([low, high]: Range, step: number): number[] =>
  Array.from({ length: Math.floor(high / step + 1e-9) - Math.ceil(low / step - 1e-9) + 1 }, (_, i) =>
    Number(((Math.ceil(low / step - 1e-9) + i) * step).toFixed(6)),
  )

function leftRange({ minutes, series, limits, leastSpan = 1 }: PlotPicture, [from, to]: Range): Range {
  const seen = series
    .filter((s) => !isRight(s))
    .flatMap((s) => s.values.filter((v, i): v is number => v !== null && minutes[i]! >= from && minutes[i]! <= to))
    .concat(limits.map((l) => l.value))
  const low = seen.reduce((m, v) => Math.min(m, v), Infinity)
  const high = seen.reduce((m, v) => Math.max(m, v), -Infinity)
  if (low > high) return [0, 100]
  const step = niceStep(Math.max(leastSpan, high - low), 8)
  return [Math.floor(low / step) * step, Math.max(Math.ceil(high / step) * step, Math.floor(low / step) * step + step)]
}

function path(
  minutes: readonly number[],
  values: CurveSeries['values'],
  x: (m: number) => number,
  y: (v: number) => number,
): string {
  let pen = 'M'
  let d = ''
  for (const [i, v] of values.entries()) {
    if (v === null) pen = 'M'
    else {
      d += `${pen}${at(x(minutes[i]!))} ${at(y(v))}`
      pen = 'L'
    }
  }
  return d
}

const dot = (x: number, y: number): string => `M${at(x - 4)} ${at(y)}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0`

function dots(
  minutes: readonly number[],
  values: CurveSeries['values'],
  x: (m: number) => number,
  y: (v: number) => number,
): string[] {
  return values.flatMap((v, i) => (v === null ? [] : [dot(x(minutes[i]!), y(v))]))
}

/** The plot as a picture that stands by itself: title, axes with their units, limits, windows, marks and key. Nothing in it is loaded. */
export function plotSvg(picture: PlotPicture, { width, height, from, to }: SvgSize): string {
  const { title, minutes, series, limits, windows, marks = [], temperatureUnit } = picture
  const time: Range = [from ?? minutes[0] ?? 0, Math.max(to ?? minutes.at(-1) ?? 1, (from ?? minutes[0] ?? 0) + 1)]
  const temp = leftRange(picture, time)
  const hasRight = series.some(isRight)
  const perRow = Math.max(1, Math.floor((width - 80) / 200))
  const keyHeight = 22 * Math.ceil(series.length / perRow)
  const [left, right, top, bottom] = [62, hasRight ? 62 : 20, 44, 58 + keyHeight]
  const x = (m: number) => left + ((m - time[0]) / (time[1] - time[0])) * (width - left - right)
  const y = (v: number) => height - bottom - ((v - temp[0]) / (temp[1] - temp[0])) * (height - top - bottom)
  const rightAxis = rightAxisOf(picture)
  const [rightLow, rightHigh] = rightAxis.range
  const yRight = (v: number) =>
    height - bottom - ((Math.min(v, rightHigh) - rightLow) / (rightHigh - rightLow)) * (height - top - bottom)
  const [floor, end] = [height - bottom, width - right]
  const out: string[] = []
  const words = (
    px: number,
    py: number,
    text: string,
    {
      fill = paper.soft,
      anchor = 'start',
      size = 13,
      more = '',
    }: { fill?: string; anchor?: string; size?: number; more?: string } = {},
  ) =>
    out.push(
      `<text x="${at(px)}" y="${at(py)}" font-size="${size}" fill="${fill}" text-anchor="${anchor}"${more}>${escape(text)}</text>`,
    )
  const room = createRoom(top, floor)
  const looks = looksOf(series)
  /** Words on the plot itself, moved to the nearest free line; their width is reckoned, for nothing here can measure it. */
  const onPlot = (from: number, py: number, text: string, fill: string) => {
    const wide = text.length * LETTER
    const px = Math.max(left, Math.min(from, end - wide))
    words(px, room.place({ x: px, y: py - LINE, width: wide, height: LINE }) + LINE, text, { fill })
  }
  const line = (d: string, stroke: string, strokeWidth = 1, dash = '') =>
    out.push(
      `<path d="${d}" fill="none" stroke="${stroke}" stroke-width="${strokeWidth}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`,
    )

  words(left, 26, title, { fill: paper.ink, size: 17 })
  for (const v of ticks(temp, niceStep(temp[1] - temp[0], 8))) {
    line(`M${left} ${at(y(v))}H${end}`, paper.hair)
    words(left - 8, y(v) + 4, String(v).replace('-', '−'), { anchor: 'end' })
  }
  const minuteStep = minuteSteps.find((s) => (time[1] - time[0]) / s <= 10) ?? 144_000
  for (const m of ticks(time, minuteStep)) {
    line(`M${at(x(m))} ${floor}v5`, paper.ink)
    words(x(m), floor + 20, tickOf(picture, m), { anchor: 'middle' })
  }
  line(`M${left} ${top}V${floor}H${end}`, paper.ink)
  words(left - 8, top - 6, temperatureUnit, { anchor: 'end', fill: paper.ink })
  words(end, floor + 38, timeLabel(picture), { anchor: 'end', fill: paper.ink })
  if (hasRight) {
    line(`M${end} ${top}V${floor}`, paper.ink)
    for (const v of ticks([rightLow, rightHigh], niceStep(rightHigh - rightLow, 6)))
      words(end + 8, yRight(v) + 4, String(v))
    words(end + 8, top - 6, rightAxis.unit, { fill: paper.ink })
  }
  out.push(
    `<clipPath id="inside"><rect x="${left}" y="${top}" width="${at(end - left)}" height="${at(floor - top)}"/></clipPath><g clip-path="url(#inside)">`,
  )
  for (const mark of marks) {
    line(`M${at(x(mark.minute))} ${top}V${floor}`, mark.strong ? paper.ink : paper.hair, mark.strong ? 1.4 : 1)
    onPlot(x(mark.minute) + 4, top + LINE, mark.label, mark.strong ? paper.ink : paper.soft)
  }
  series.forEach((s, i) => {
    const { stroke, width: w, dash } = looks[i]!
    const ys = isRight(s) ? yRight : y
    if (s.kind === 'points') for (const d of dots(minutes, s.values, x, ys)) line(d, stroke, w)
    else line(path(minutes, s.values, x, ys), stroke, w, dash?.join(' ') ?? '')
  })
  for (const l of limits) {
    line(`M${left} ${at(y(l.value))}H${end}`, l.stops ? paper.stop : paper.soft, 1, '6 5')
    const wide = l.label.length * LETTER
    const place = room.placeOnLine({ width: wide, height: LINE }, y(l.value), {
      left: left + 4,
      right: end - 6,
      others: limits.map((o) => y(o.value)),
    })
    const ink = l.stops ? paper.stop : paper.soft
    words(place.x, place.y + LINE - 3, l.label, { fill: ink })
    if (place.away)
      line(`M${at(place.x + wide)} ${at(place.y > y(l.value) ? place.y + 2 : place.y + LINE)}V${at(y(l.value))}`, ink)
  }
  windows.forEach((w, row) => {
    const [x0, x1, py] = [x(w.fromMinute), x(w.toMinute), floor - 14 - row * 20]
    line(`M${at(x0)} ${py - 4}v8m0 -4H${at(x1)}m0 -4v8`, w.verdict === 'fail' ? paper.stop : paper.ink, 2)
    onPlot(Math.max(left, x0) + 4, py - 6, w.label, w.verdict === 'fail' ? paper.stop : paper.ink)
  })
  out.push('</g>')
  series.forEach((s, i) => {
    const [kx, ky] = [left + (i % perRow) * 200, height - keyHeight + 22 * Math.floor(i / perRow) + 4]
    const { stroke, width: w, dash } = looks[i]!
    line(s.kind === 'points' ? dot(kx + 15, ky - 4) : `M${kx} ${ky - 4}h30`, stroke, w, dash?.join(' ') ?? '')
    words(kx + 38, ky, isRight(s) ? `${s.name}, ${rightAxis.unit}` : s.name, { fill: paper.ink })
  })
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="'Source Sans 3', 'Source Sans Pro', sans-serif"><title>${escape(title)}</title><rect width="${width}" height="${height}" fill="${paper.ground}"/>${out.join('')}</svg>`
}
