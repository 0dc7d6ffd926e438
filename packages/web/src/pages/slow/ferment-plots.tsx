import type { FermentView, PhReading } from '@forcemeat/server/slow/ferment-view'
import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import { humidityAxis } from '../../plot/humidity-axis.ts'
import type { PlotMark, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { instant, number, percent, temperature } from '../../ui/figures.ts'
import { degreeUnit, onOneAxis, shownC, type Line, type Point } from './lines.ts'
import { PlotTable } from './plot-table.tsx'

const HEIGHT = 280

/** Instant of minute 0 of the plots: the first reading of chamber or pH. */
function origin({ from, humidity, readings }: FermentView): number | undefined {
  const all = [from, humidity[0]?.at, ...readings.map((r) => r.taken)].flatMap((t) =>
    t === undefined ? [] : [Date.parse(t)],
  )
  return all.length === 0 ? undefined : Math.min(...all)
}

const endedAt = (view: FermentView, zero: number): PlotMark[] => {
  const s = view.systems.find((x) => x.hoursToTarget !== undefined)
  return s && view.from
    ? [
        {
          label: `pH ${number(view.countedToPh, 3)} measured`,
          minute: (Date.parse(view.from) - zero) / 60_000 + 60 * s.hoursToTarget!,
          strong: true,
        },
      ]
    : []
}

/** The humidity as a line, and what of it stands alone as points, which a line would not show. */
function humidityLines({ humidity }: FermentView, zero: number): Line[] {
  const points = humidity.map(({ at, rhPct }): Point => ({ minute: (Date.parse(at) - zero) / 60_000, value: rhPct }))
  const read = (i: number): boolean => typeof points[i]?.value === 'number'
  const alone = points.filter((_, i) => read(i) && !read(i - 1) && !read(i + 1))
  const joined = points.some((_, i) => read(i) && read(i + 1))
  const right = { right: true as const }
  return [
    ...(joined ? [{ name: 'Humidity', kind: 'house' as const, ...right, points }] : []),
    ...(alone.length > 0
      ? [{ name: joined ? 'Humidity, single readings' : 'Humidity', kind: 'points' as const, ...right, points: alone }]
      : []),
  ]
}

function chamberPicture(view: FermentView, zero: number): PlotPicture {
  const begin = ((view.from === undefined ? zero : Date.parse(view.from)) - zero) / 60_000
  const temps = view.minutes.map((m, i): Point => {
    const v = view.tempC[i]
    return { minute: m + begin, value: v === null || v === undefined ? null : shownC(v) }
  })
  const planned: Line[] = []
  if (view.stages.length > 0) {
    let at = begin
    const points = view.stages.flatMap((s) => {
      const from = at
      at += s.hours * 60
      return [
        { minute: from + 0.01, value: shownC(s.tempC) },
        { minute: at, value: shownC(s.tempC) },
      ]
    })
    planned.push({ name: 'Planned', kind: 'before', points })
  }
  return {
    title: `Chamber of batch ${view.batch}`,
    temperatureUnit: degreeUnit(),
    ...onOneAxis([
      ...(temps.length > 0 ? [{ name: 'Chamber', kind: 'core' as const, points: temps }] : []),
      ...planned,
      ...humidityLines(view, zero),
    ]),
    limits: [{ label: `count begins above ${temperature(15.6)}`, value: shownC(15.6), stops: false }],
    windows: [],
    marks: endedAt(view, zero),
    rightAxis: humidityAxis(view.humidity.map((h) => h.rhPct)),
  }
}

function phPicture(view: FermentView, zero: number): PlotPicture {
  const at = (taken: string): number => (Date.parse(taken) - zero) / 60_000
  const good = view.readings.filter((r) => r.calibrated)
  const poor = view.readings.filter((r) => !r.calibrated)
  const points = (of: readonly PhReading[]) => of.map((r) => ({ minute: at(r.taken), value: r.ph }))
  const lines: Line[] = [
    { name: 'Course', kind: 'surface', points: points(view.readings) },
    { name: 'pH, meter calibrated', kind: 'points', points: points(good) },
    ...(poor.length > 0
      ? [{ name: 'pH, meter not calibrated that day', kind: 'points' as const, points: points(poor) }]
      : []),
    // Both plots run over the same hours.
    ...(view.from && view.to
      ? [
          {
            name: 'Log',
            kind: 'before' as const,
            points: [at(view.from), at(view.to)].map((minute) => ({ minute, value: null })),
          },
        ]
      : []),
  ]
  const { minutes, series } = onOneAxis(lines)
  return {
    title: `pH of batch ${view.batch}`,
    temperatureUnit: 'pH',
    minutes,
    series: series.filter((s) => s.name !== 'Log'),
    limits: [
      ...(view.targetPh === view.countedToPh
        ? []
        : [{ label: `recipe: pH ${number(view.targetPh, 3)}`, value: view.targetPh, stops: false }]),
      { label: `count ends at pH ${number(view.countedToPh, 3)}`, value: view.countedToPh, stops: true },
    ],
    windows: [],
    marks: endedAt(view, zero),
    digits: 2,
    leastSpan: 1,
  }
}

/** The chamber and the pH over the same hours, each with its table. */
export function FermentPlots({ view }: { view: FermentView }) {
  const us = system.value
  const zero = origin(view)
  const drawn = view.minutes.length > 1 || view.humidity.length > 1
  const chamber = useMemo(() => (drawn ? chamberPicture(view, zero!) : undefined), [view, us])
  const moist = view.humidity.findLast((h) => h.rhPct !== null)
  const ph = useMemo(() => (zero !== undefined && view.readings.length > 0 ? phPicture(view, zero) : undefined), [view])
  return (
    <>
      <h2>pH</h2>
      {ph ? (
        <>
          <CurvePlot {...ph} height={HEIGHT} />
          <PlotTable picture={ph} what="pH" />
        </>
      ) : (
        <p class="empty">No pH is recorded yet. The first one is taken at stuffing.</p>
      )}
      <h2>Chamber</h2>
      {moist && (
        <p class="quiet">
          Humidity last read: {percent(moist.rhPct)} on {instant(moist.at)}.
          {view.minutes.length === 0 && ' No temperature of the air is logged, so no degree-hours are counted.'}
        </p>
      )}
      {chamber ? (
        <>
          <CurvePlot {...chamber} height={HEIGHT} />
          <PlotTable picture={chamber} what="Chamber" />
        </>
      ) : (
        <p class="empty">
          No log of the chamber yet, so no degree-hours are counted.{' '}
          <a href={`/curves?batch=${encodeURIComponent(view.batch)}`}>Add the logger’s file</a> as fermentation, or{' '}
          <a href={`/curves/live/${encodeURIComponent(view.batch)}`}>follow it live</a> with a channel named “chamber”.
        </p>
      )}
    </>
  )
}
