import { useEffect, useRef } from 'preact/hooks'
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import { seriesStyle, type CurveSeries, type PlotLimit, type PlotWindow } from './model.ts'

type Props = {
  title: string
  /** Minutes from the first reading, ascending. */
  minutes: readonly number[]
  series: readonly CurveSeries[]
  limits: readonly PlotLimit[]
  windows: readonly PlotWindow[]
  temperatureUnit: '°C' | '°F'
  height?: number
  onReady?: (plot: uPlot) => void
}

/** Top of the log axis: far past every published target; what goes over it runs along the top. */
const LOG_TOP = 12

const INK = '#1d1a16'
const SOFT = '#5d564c'
const HAIR = '#d9d1c3'
const STOP = '#8f1d1d'

const clock = (minute: number): string => {
  const sign = minute < 0 ? '−' : ''
  const m = Math.abs(Math.round(minute))
  return `${sign}${Math.floor(m / 60)}:${String(m % 60).padStart(2, '0')}`
}

/** Limits as dashed lines with their words on them; windows as bars under the curve, named. */
function drawMarks(u: uPlot, limits: readonly PlotLimit[], windows: readonly PlotWindow[]): void {
  const { ctx, bbox } = u
  const ratio = devicePixelRatio || 1
  ctx.save()
  ctx.font = `${13 * ratio}px "Source Sans 3", sans-serif`
  for (const limit of limits) {
    const y = u.valToPos(limit.value, 't', true)
    if (y < bbox.top || y > bbox.top + bbox.height) continue
    ctx.strokeStyle = limit.stops ? STOP : SOFT
    ctx.fillStyle = ctx.strokeStyle
    ctx.lineWidth = ratio
    ctx.setLineDash([6 * ratio, 5 * ratio])
    ctx.beginPath()
    ctx.moveTo(bbox.left, y)
    ctx.lineTo(bbox.left + bbox.width, y)
    ctx.stroke()
    ctx.fillText(limit.label, bbox.left + 6 * ratio, y - 5 * ratio)
  }
  ctx.setLineDash([])
  windows.forEach((w, row) => {
    const x0 = Math.max(bbox.left, u.valToPos(w.fromMinute, 'x', true))
    const x1 = Math.min(bbox.left + bbox.width, u.valToPos(w.toMinute, 'x', true))
    if (x1 <= x0) return
    const y = bbox.top + bbox.height - (14 + row * 18) * ratio
    ctx.strokeStyle = w.verdict === 'fail' ? STOP : INK
    ctx.fillStyle = ctx.strokeStyle
    ctx.lineWidth = 2 * ratio
    ctx.beginPath()
    ctx.moveTo(x0, y - 4 * ratio)
    ctx.lineTo(x0, y + 4 * ratio)
    ctx.moveTo(x0, y)
    ctx.lineTo(x1, y)
    ctx.moveTo(x1, y - 4 * ratio)
    ctx.lineTo(x1, y + 4 * ratio)
    ctx.stroke()
    ctx.fillText(w.label, x0 + 4 * ratio, y - 5 * ratio)
  })
  ctx.restore()
}

/** A plot of temperatures over time with limits and chill windows drawn in and lethality on its own axis. */
export function CurvePlot({ title, minutes, series, limits, windows, temperatureUnit, height = 380, onReady }: Props) {
  const holder = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const box = holder.current
    if (!box || minutes.length === 0) return
    const hasLog = series.some((s) => s.kind === 'lethality')
    const plot = new uPlot(
      {
        width: Math.max(280, box.clientWidth),
        height,
        scales: { x: { time: false }, t: {}, log: { range: [0, LOG_TOP] } },
        cursor: { drag: { x: true, y: false, uni: 20 } },
        axes: [
          {
            label: 'hours : minutes',
            values: (_u, ticks) => ticks.map(clock),
            stroke: INK,
            grid: { stroke: HAIR, width: 1 },
          },
          { scale: 't', label: temperatureUnit, stroke: INK, grid: { stroke: HAIR, width: 1 } },
          ...(hasLog
            ? [{ scale: 'log', side: 1 as const, label: 'log reduction', stroke: INK, grid: { show: false } }]
            : []),
        ],
        series: [
          { label: 'time', value: (_u, v) => (v === null ? '–' : clock(v)) },
          ...series.map((s) => seriesStyle(s, temperatureUnit)),
        ],
        hooks: { draw: [(u) => drawMarks(u, limits, windows)] },
      },
      [[...minutes], ...series.map((s) => [...s.values])],
      box,
    )
    onReady?.(plot)
    const watch = new ResizeObserver(() => plot.setSize({ width: Math.max(280, box.clientWidth), height }))
    watch.observe(box)
    return () => {
      watch.disconnect()
      plot.destroy()
    }
  }, [minutes, series, limits, windows, temperatureUnit, height])
  return <div class="plot" ref={holder} role="img" aria-label={`${title}; the readings stand in the table below`} />
}
