import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import type { CurveSeries, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { temperature } from '../../ui/figures.ts'
import { humidityAxis } from '../../plot/humidity-axis.ts'
import { PlotTable } from '../slow/plot-table.tsx'
import { shownIn } from './cook-form.ts'
import type { FeedView } from './feed-state.ts'
import { pointsOf, type LiveShown, type Point, type ProbeRole } from './live-state.ts'

/** Most points drawn of a channel. */
const MOST = 1500
/** Of what is ahead, no more is drawn than this share of what was, and never under two hours. */
const AHEAD_SHARE = 1
const LEAST_AHEAD_MINUTES = 120

const thin = <T,>(points: readonly T[]): readonly T[] => {
  const every = Math.ceil(points.length / MOST)
  return every <= 1 ? points : points.filter((_, i) => i % every === 0 || i === points.length - 1)
}

/** In °C, and in % where it is read on the right. */
type Value = { readonly minute: number; readonly value: number }
type Line = Omit<CurveSeries, 'values'> & { readonly points: readonly Value[] }
const inDegrees = (points: readonly Point[]): Value[] =>
  points.map((p) => ({ minute: p.minute, value: shownIn(p.tempC) }))

/** Lines on one axis of minutes, empty where a line has no point. */
function onOneAxis(lines: readonly Line[]): Pick<PlotPicture, 'minutes' | 'series'> {
  const minutes = [...new Set(lines.flatMap((l) => l.points.map((p) => p.minute)))].toSorted((a, b) => a - b)
  return {
    minutes,
    series: lines.map(({ points, ...head }) => {
      let i = 0
      return {
        ...head,
        values: minutes.map((m) => {
          while (i < points.length - 1 && points[i + 1]!.minute <= m) i++
          const [a, b] = [points[i], points[i + 1]]
          if (!a || m < a.minute || (!b && m > a.minute)) return null
          return !b || m === a.minute
            ? a.value
            : a.value + ((b.value - a.value) * (m - a.minute)) / (b.minute - a.minute)
        }),
      }
    }),
  }
}

/** The humidity of a channel in time order, %. */
const humidityOf = ({ readings }: FeedView, channel: string): Value[] =>
  readings
    .flatMap(({ minute, rhPct, channel: c }) =>
      c === channel && rhPct !== undefined ? [{ minute, value: rhPct }] : [],
    )
    .toSorted((a, b) => a.minute - b.minute)

function linesOf(
  feed: FeedView,
  roles: Readonly<Record<string, ProbeRole>>,
  start: number,
  shown: LiveShown | undefined,
): Line[] {
  const read = feed.channels
    .filter((c) => roles[c] !== 'ignore')
    .map((c): Line => ({
      name: c,
      kind: roles[c] === 'core' ? 'core' : roles[c] === 'humidity' ? 'surface' : 'house',
      ...(roles[c] === 'humidity'
        ? { right: true as const, points: thin(humidityOf(feed, c)) }
        : { points: inDegrees(thin(pointsOf(feed.readings, c))) }),
    }))
  if (!shown) return read
  const { model, ahead, poorAhead, nowMinute } = shown.result
  const until = nowMinute + Math.max(LEAST_AHEAD_MINUTES, AHEAD_SHARE * nowMinute)
  const line = (points: readonly { minute: number; coreC: number }[]): Value[] =>
    inDegrees(points.filter((p) => p.minute <= until).map((p) => ({ minute: p.minute + start, tempC: p.coreC })))
  return [
    ...read,
    { name: 'Fitted', kind: 'model', points: line(model) },
    { name: 'Ahead, likely', kind: 'ahead', points: line(ahead) },
    { name: 'Ahead, poor', kind: 'poor', points: line(poorAhead) },
  ]
}

/** Readings, the fit through them, and what is ahead. */
export function LivePlot({
  feed,
  roles,
  start,
  shown,
  batch,
}: {
  feed: FeedView
  roles: Readonly<Record<string, ProbeRole>>
  start: number
  shown: LiveShown | undefined
  batch: string
}) {
  const us = system.value === 'us'
  const picture = useMemo((): PlotPicture => {
    const target = shown?.request.targetCoreC
    const drawn = onOneAxis(linesOf(feed, roles, start, shown))
    return {
      title: `Batch ${batch} while it runs`,
      temperatureUnit: us ? '°F' : '°C',
      ...drawn,
      rightAxis: humidityAxis(drawn.series.flatMap((s) => (s.right ? s.values : []))),
      limits:
        target === undefined || shown?.result.cooling
          ? []
          : [{ label: `core to reach ${temperature(target)}`, value: shownIn(target), stops: false }],
      windows: [],
      marks: shown ? [{ label: 'now', minute: shown.result.nowMinute + start, strong: true }] : [],
    }
  }, [feed, roles, start, shown, us, batch])
  if (picture.minutes.length < 2) return <p class="empty">The plot begins with the second reading.</p>
  return (
    <>
      <CurvePlot {...picture} height={matchMedia('(max-width: 1100px)').matches ? 300 : 400} />
      <PlotTable picture={picture} what="Readings" />
    </>
  )
}
