import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import type { PlotMark, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { number, temperature } from '../../ui/figures.ts'
import { degreeUnit, onOneAxis, shownC, type Line } from './lines.ts'
import { PlotTable } from './plot-table.tsx'
import type { FermentView, PhReading } from './slow-views.ts'

const HEIGHT = 280

/** Instant of minute 0 of the plots: the first reading of chamber or pH. */
function origin({ from, readings }: FermentView): number | undefined {
  const all = [...(from ? [Date.parse(from)] : []), ...readings.map((r) => Date.parse(r.taken))]
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

function chamberPicture(view: FermentView, zero: number): PlotPicture {
  const begin = (Date.parse(view.from!) - zero) / 60_000
  const line = (values: readonly (number | null)[], to: (v: number) => number) =>
    view.minutes.map((m, i) => {
      const v = values[i]
      return { minute: m + begin, value: v === null || v === undefined ? null : to(v) }
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
  const moist = view.rhPct.some((v) => v !== null)
  return {
    title: `Chamber of batch ${view.batch}`,
    temperatureUnit: degreeUnit(),
    ...onOneAxis([
      { name: 'Chamber', kind: 'core', points: line(view.tempC, shownC) },
      ...planned,
      ...(moist
        ? [{ name: 'Humidity', kind: 'house' as const, right: true as const, points: line(view.rhPct, (v) => v) }]
        : []),
    ]),
    limits: [{ label: `count begins above ${temperature(15.6)}`, value: shownC(15.6), stops: false }],
    windows: [],
    marks: endedAt(view, zero),
    rightAxis: { label: 'relative humidity, %', unit: '% RH', range: [40, 100], digits: 0 },
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
  const chamber = useMemo(() => (view.minutes.length > 1 ? chamberPicture(view, zero!) : undefined), [view, us])
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
