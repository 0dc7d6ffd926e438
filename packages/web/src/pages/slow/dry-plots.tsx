import { useMemo } from 'preact/hooks'
import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import type { CourseOutput, DryingPiece, DryingStage } from '@forcemeat/craft/dry/course-schema'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import type { PlotMark, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { number, percent } from '../../ui/figures.ts'
import { deciding } from './deciding.ts'
import { dateOf } from './dry-ready.tsx'
import { degreeUnit, onOneAxis, shownC, type Line, type Point } from './lines.ts'
import { PlotTable } from './plot-table.tsx'

const DAY_MIN = 1440
const HEIGHT = 290

export type DryDrawn = {
  readonly title: string
  /** Day 0, ms. */
  readonly start: number
  readonly course: CourseOutput
  readonly changed?: CourseOutput
  readonly target: DryingPiece['target']
  /** Targets not met by what was measured, where the course runs to those alone. */
  readonly left?: DryingPiece['target']
  readonly nowDay?: number
  readonly losses: readonly { readonly day: number; readonly weightLossPct: number }[]
  readonly aws: readonly { readonly day: number; readonly value: number }[]
}

type Row = CourseOutput['series'][number]
const along = (course: CourseOutput, of: (r: Row) => number): Point[] =>
  course.series.map((r) => ({ minute: r.day * DAY_MIN, value: of(r) }))
const taken = (rows: readonly { readonly day: number }[], of: (i: number) => number): Point[] =>
  rows.map((r, i) => ({ minute: r.day * DAY_MIN, value: of(i) }))

/** The mark says which of several targets it waits for: the curve of another may have crossed its line long before. */
const readyLabel = (course: CourseOutput, target: DryingPiece['target']): string => {
  const last = deciding(course, target)
  return last ? `likely ready: ${last.name}` : 'likely ready'
}

const marksOf = ({ nowDay, course, target, left }: DryDrawn): PlotMark[] => [
  ...(nowDay === undefined ? [] : [{ label: 'now', minute: nowDay * DAY_MIN, strong: true }]),
  ...(course.readyDay ? [{ label: readyLabel(course, left ?? target), minute: course.readyDay.likely * DAY_MIN }] : []),
]

function lossPicture(drawn: DryDrawn): PlotPicture {
  const { title, course, changed, target, losses, start } = drawn
  const ready = course.readyDay
  const end = Math.max(course.series.at(-1)?.day ?? 1, ready?.late ?? ready?.likely ?? 0)
  const { minutes, series } = onOneAxis([
    { name: 'Course', kind: 'core', points: along(course, (r) => r.weightLossPct) },
    ...(changed
      ? [{ name: 'With the change', kind: 'ahead' as const, points: along(changed, (r) => r.weightLossPct) }]
      : []),
    ...(losses.length > 0
      ? [{ name: 'Weighed', kind: 'points' as const, points: taken(losses, (i) => losses[i]!.weightLossPct) }]
      : []),
    { name: '', kind: 'before', points: [{ minute: end * DAY_MIN, value: null }] },
  ])
  const limit = target.weightLossPct
  return {
    title: `Weight loss, ${title}`,
    temperatureUnit: '%',
    leftLabel: 'weight loss, %',
    minutes,
    series: series.filter((s) => s.name !== ''),
    limits: limit === undefined ? [] : [{ label: `target ${percent(limit)}`, value: limit, stops: false }],
    windows: ready
      ? [
          {
            label: `ready ${dateOf(start, ready.early)} to ${ready.late === undefined ? 'not known' : dateOf(start, ready.late)}`,
            fromMinute: ready.early * DAY_MIN,
            toMinute: (ready.late ?? end) * DAY_MIN,
            verdict: 'cannot-tell',
          },
        ]
      : [],
    marks: marksOf(drawn),
    inDays: true,
    leastSpan: 10,
  }
}

function awPicture(drawn: DryDrawn): PlotPicture {
  const { title, course, changed, target, aws } = drawn
  const lines: Line[] = [
    { name: 'Whole', kind: 'core', points: along(course, (r) => r.aw) },
    { name: 'Core', kind: 'model', points: along(course, (r) => r.coreAw) },
    { name: 'Rim', kind: 'house', points: along(course, (r) => r.rimAw) },
    ...(changed
      ? [
          { name: 'Whole, with the change', kind: 'ahead' as const, points: along(changed, (r) => r.aw) },
          { name: 'Rim, with the change', kind: 'poor' as const, points: along(changed, (r) => r.rimAw) },
        ]
      : []),
    ...(aws.length > 0
      ? [{ name: 'Measured', kind: 'points' as const, points: taken(aws, (i) => aws[i]!.value) }]
      : []),
  ]
  return {
    title: `Water activity, ${title}`,
    temperatureUnit: '',
    leftLabel: 'water activity',
    ...onOneAxis(lines),
    limits:
      target.aw === undefined ? [] : [{ label: `target ${number(target.aw, 3)}`, value: target.aw, stops: false }],
    windows: [],
    marks: marksOf(drawn),
    inDays: true,
    digits: 3,
    leastSpan: 0.06,
  }
}

/** Loss and water activity of a drying, with the change that is tried beside it. */
export function DryPlots({ drawn }: { drawn: DryDrawn }) {
  const [loss, aw] = useMemo(() => [lossPicture(drawn), awPicture(drawn)], [drawn])
  return (
    <>
      <CurvePlot {...loss} height={HEIGHT} />
      <PlotTable picture={loss} what="Weight loss" />
      <h2>Water activity, computed</h2>
      <CurvePlot {...aw} height={HEIGHT} />
      <PlotTable picture={aw} what="Water activity" />
    </>
  )
}

/** The air the course was reckoned with, and what was logged of it. */
export function RoomPlot({
  title,
  log,
  stages,
  nowDay,
}: {
  title: string
  log: readonly AirReading[]
  stages: readonly DryingStage[]
  nowDay?: number
}) {
  const us = system.value
  const picture = useMemo((): PlotPicture => {
    let at = 0
    const steps = (of: (s: DryingStage) => number): Point[] => {
      at = 0
      return stages.flatMap((s) => {
        const from = at
        at += s.days
        return [
          { minute: from * DAY_MIN + 0.01, value: of(s) },
          { minute: at * DAY_MIN, value: of(s) },
        ]
      })
    }
    const logged = (of: (r: AirReading) => number | null): Point[] =>
      log.map((r) => ({ minute: r.day * DAY_MIN, value: of(r) }))
    const lines: Line[] = [
      { name: 'Temperature, reckoned with', kind: 'ahead', points: steps((s) => shownC(s.tempC)) },
      { name: 'Humidity, reckoned with', kind: 'poor', right: true, points: steps((s) => s.rhPct) },
      ...(log.length > 1
        ? [
            {
              name: 'Temperature, logged',
              kind: 'surface' as const,
              points: logged((r) => (r.tempC === null ? null : shownC(r.tempC))),
            },
            { name: 'Humidity, logged', kind: 'other' as const, right: true as const, points: logged((r) => r.rhPct) },
          ]
        : []),
    ]
    return {
      title: `Air of the room, ${title}`,
      temperatureUnit: degreeUnit(),
      ...onOneAxis(lines),
      limits: [],
      windows: [],
      marks: nowDay === undefined ? [] : [{ label: 'now', minute: nowDay * DAY_MIN, strong: true }],
      inDays: true,
      leastSpan: 8,
      rightAxis: { label: 'relative humidity, %', unit: '% RH', range: [50, 100], digits: 0 },
    }
  }, [log, stages, nowDay, us])
  return (
    <>
      <h2>Air of the room</h2>
      <CurvePlot {...picture} height={240} />
      <PlotTable picture={picture} what="Air" />
    </>
  )
}
