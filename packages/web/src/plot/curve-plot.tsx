import { useEffect, useMemo, useRef } from 'preact/hooks'
import { signal } from '@preact/signals'
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { drawMarks, type Marks } from './draw-marks.ts'
import {
  isRight,
  looksOf,
  paper,
  readOutOf,
  rightAxisOf,
  tickOf,
  timeLabel,
  timeOf,
  type CurveSeries,
  type PlotPicture,
} from './model.ts'
import { savePng, saveSvg } from './picture.ts'
import { swatchOf } from './swatch.ts'

function styleOf(s: CurveSeries, look: ReturnType<typeof looksOf>[number], picture: PlotPicture): uPlot.Series {
  const { stroke, width, dash } = look
  const read = s.kind === 'points'
  return {
    label: s.name,
    scale: isRight(s) ? 'right' : 't',
    spanGaps: false,
    points: read ? { show: true, size: 9, width: 2, fill: paper.ground } : { show: false },
    value: (_u, v) => (v === null ? '–' : readOutOf(picture, s, v)),
    stroke,
    width: read ? 0 : width,
    ...(dash ? { dash: [...dash] } : {}),
  }
}

function build(box: HTMLElement, picture: PlotPicture, height: number, marks: () => Marks): uPlot {
  const hair = { stroke: paper.hair, width: 1 }
  const looks = looksOf(picture.series)
  const right = rightAxisOf(picture)
  const type = {
    font: '13px "Source Sans 3", sans-serif',
    labelFont: '14px "Source Sans 3", sans-serif',
    labelSize: 24,
  }
  return new uPlot(
    {
      width: Math.max(280, box.clientWidth),
      height,
      scales: {
        x: { time: false },
        t: { range: (_u, low, high) => around(low, high, marks().limits, picture.leastSpan) },
        right: { range: [...right.range] },
      },
      legend: {
        markers: { width: 0, fill: (_u, i) => swatchOf(looks[i - 1]!, picture.series[i - 1]!.kind === 'points') },
      },
      cursor: { drag: { x: true, y: false, uni: 20 } },
      axes: [
        {
          ...type,
          label: timeLabel(picture),
          values: (_u, ticks) => ticks.map((m) => tickOf(picture, m)),
          incrs: [1, 2, 5, 10, 15, 30, 60, 120, 240, 360, 720, 1440, 2880, 7200, 14_400, 28_800, 72_000, 144_000],
          stroke: paper.ink,
          grid: hair,
        },
        { ...type, scale: 't', label: picture.leftLabel ?? picture.temperatureUnit, stroke: paper.ink, grid: hair },
        // The library's side is an enum that only its types have.
        // oxlint-disable-next-line typescript/no-unsafe-enum-assignment
        ...(picture.series.some(isRight)
          ? [
              {
                ...type,
                scale: 'right',
                side: 1,
                label: right.label,
                stroke: paper.ink,
                grid: { show: false },
              },
            ]
          : []),
      ],
      series: [
        { label: 'time', value: (_u, v) => (v === null ? '–' : timeOf(picture, v)) },
        ...picture.series.map((s, i) => styleOf(s, looks[i]!, picture)),
      ],
      hooks: { draw: [(u) => drawMarks(u, marks())] },
    },
    dataOf(picture),
    box,
  )
}

/** Room above and below the curves, limits in sight. */
function around(low: number | null, high: number | null, limits: Marks['limits'], leastSpan = 4): [number, number] {
  const values = [low, high, ...limits.map((l) => l.value)].filter((v): v is number => v !== null && Number.isFinite(v))
  if (values.length === 0) return [0, 100]
  const [min, max] = [Math.min(...values), Math.max(...values)]
  const room = Math.max((leastSpan - (max - min)) / 2, leastSpan / 8, 0.06 * (max - min))
  // The words of the topmost line stand above it.
  return [min - room, max + (limits.length > 0 ? Math.max(room, 0.13 * (max - min)) : room)]
}

const dataOf = ({ minutes, series }: PlotPicture): uPlot.AlignedData => [
  [...minutes],
  ...series.map((s) => [...s.values]),
]

/** What decides whether a plot is drawn anew or only given new figures. */
const shapeOf = ({ series, temperatureUnit, leftLabel, inDays, rightAxis }: PlotPicture): string =>
  JSON.stringify([temperatureUnit, leftLabel, inDays, rightAxis, series.map((s) => [s.name, s.kind, s.right])])

/** Show a part of the time axis; the whole where the part reaches past it. */
function show(u: uPlot, from: number, to: number): void {
  const x = u.data[0]
  const [first, last] = [x[0]!, x.at(-1)!]
  const span = Math.max(2, Math.min(to - from, last - first))
  const start = Math.min(Math.max(from, first), last - span)
  u.setScale('x', { min: start, max: start + span })
}

const zoom = (u: uPlot, factor: number): void => {
  const { min, max } = u.scales['x']!
  const middle = u.cursor.left !== undefined && u.cursor.left >= 0 ? u.posToVal(u.cursor.left, 'x') : (min! + max!) / 2
  const span = (max! - min!) * factor
  const share = (middle - min!) / (max! - min!)
  show(u, middle - share * span, middle + (1 - share) * span)
}
const shift = (u: uPlot, share: number): void => {
  const { min, max } = u.scales['x']!
  const by = share * (max! - min!)
  show(u, min! + by, max! + by)
}

/** Put the cursor on the reading so many places on; the legend then reads it out. */
function step(u: uPlot, by: number): number {
  const x = u.data[0]
  const from = u.cursor.idx ?? (by > 0 ? -1 : x.length)
  const idx = Math.min(x.length - 1, Math.max(0, from + by))
  const { min, max } = u.scales['x']!
  if (x[idx]! < min! || x[idx]! > max!) shift(u, by > 0 ? 0.5 : -0.5)
  u.setCursor({ left: u.valToPos(x[idx]!, 'x'), top: u.bbox.height / 2 / (devicePixelRatio || 1) })
  return idx
}

const saved = { width: 1200, height: 620 }

/** A plot of temperatures over time: limits, windows and instants drawn in, lethality on its own axis, zoom by hand or by key, pictures of it. */
export function CurvePlot({ height = 380, ...picture }: PlotPicture & { height?: number }) {
  const holder = useRef<HTMLDivElement>(null)
  const plot = useRef<uPlot>(undefined)
  const marks = useRef<Marks>({ limits: [], windows: [], marks: [] })
  const said = useMemo(() => signal(''), [])
  const { minutes, series, limits, windows, title } = picture
  marks.current = { limits, windows, marks: picture.marks ?? [] }
  const shape = minutes.length === 0 ? '' : shapeOf(picture)

  useEffect(() => {
    const box = holder.current
    if (!box || shape === '') return
    const made = build(box, picture, height, () => marks.current)
    plot.current = made
    const watch = new ResizeObserver(() => made.setSize({ width: Math.max(280, box.clientWidth), height }))
    watch.observe(box)
    return () => {
      watch.disconnect()
      made.destroy()
      plot.current = undefined
    }
  }, [shape, height])
  useEffect(() => {
    const u = plot.current
    if (!u) return
    const { min, max } = u.scales['x'] ?? {}
    // A plot just made has no scale yet.
    const zoomed =
      typeof min === 'number' &&
      typeof max === 'number' &&
      (min > u.data[0][0]! + 1e-6 || max < u.data[0].at(-1)! - 1e-6)
    u.setData(dataOf(picture), !zoomed)
    // What was looked at closely stays in sight while the figures under it change.
    if (zoomed) show(u, min, max)
  }, [minutes, series, limits, windows, picture.marks])

  const with_ = (act: (u: uPlot) => void) => (): void => {
    if (plot.current) act(plot.current)
  }
  const all = (u: uPlot): void => show(u, u.data[0][0]!, u.data[0].at(-1)!)
  const readOut = (u: uPlot, by: number): void => {
    const i = step(u, by)
    const values = series.map((s) => {
      const v = s.values[i]
      return `${s.name} ${v === null || v === undefined ? 'none' : readOutOf(picture, s, v)}`
    })
    said.value = `${timeOf(picture, minutes[i]!)}: ${values.join(', ')}`
  }
  const onKey = (event: KeyboardEvent): void => {
    const u = plot.current
    if (!u) return
    const keys: Record<string, () => void> = {
      ArrowRight: () => (event.shiftKey ? shift(u, 0.25) : readOut(u, 1)),
      ArrowLeft: () => (event.shiftKey ? shift(u, -0.25) : readOut(u, -1)),
      PageDown: () => readOut(u, 10),
      PageUp: () => readOut(u, -10),
      '+': () => zoom(u, 0.5),
      '=': () => zoom(u, 0.5),
      '-': () => zoom(u, 2),
      '0': () => all(u),
    }
    const act = keys[event.key]
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return
    event.preventDefault()
    act()
  }
  const size = () => {
    const { min, max } = plot.current?.scales['x'] ?? {}
    return { ...saved, ...(typeof min === 'number' && typeof max === 'number' ? { from: min, to: max } : {}) }
  }
  return (
    <figure class="curve">
      <div
        class="plot"
        tabIndex={0}
        role="group"
        aria-label="Plot: arrow keys read it out, plus and minus look closer and wider, shift and arrows move, 0 shows all"
        onKeyDown={onKey}
      >
        <div ref={holder} role="img" aria-label={`${title}; the figures stand in the table below`} />
      </div>
      <p class="visually-hidden" role="status">
        {said.value}
      </p>
      <figcaption class="actions plot-tools">
        <button type="button" aria-label="Look closer" onClick={with_((u) => zoom(u, 0.5))}>
          +
        </button>
        <button type="button" aria-label="Look wider" onClick={with_((u) => zoom(u, 2))}>
          −
        </button>
        <button type="button" aria-label="Earlier" onClick={with_((u) => shift(u, -0.25))}>
          ←
        </button>
        <button type="button" aria-label="Later" onClick={with_((u) => shift(u, 0.25))}>
          →
        </button>
        <button type="button" onClick={with_(all)}>
          All
        </button>
        <span class="hint">Drag across to look closer.</span>
        <button type="button" class="plain" onClick={() => void savePng(picture, size())}>
          Save as PNG
        </button>
        <button type="button" class="plain" onClick={() => saveSvg(picture, size())}>
          Save as SVG
        </button>
      </figcaption>
    </figure>
  )
}
