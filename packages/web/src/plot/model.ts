import type { Verdict } from '@forcemeat/craft/finding'

export type CurveKind =
  | 'core'
  | 'house'
  | 'surface'
  | 'other'
  | 'lethality'
  | 'model'
  | 'ahead'
  | 'poor'
  | 'before'
  /** Read by hand now and then: points, not joined. */
  | 'points'

export type CurveSeries = {
  readonly name: string
  readonly kind: CurveKind
  readonly values: readonly (number | null)[]
  /** Read on the axis to the right. */
  readonly right?: true
}

/** The axis to the right, of what is not a temperature. */
export type RightAxis = {
  readonly label: string
  readonly unit: string
  readonly range: readonly [number, number]
  readonly digits?: number
}

/** A temperature drawn across the plot; `stops` where going past it stops the batch. */
export type PlotLimit = { readonly label: string; readonly value: number; readonly stops: boolean }

/** A stretch of time that a rule limits, drawn as a bar with its name. */
export type PlotWindow = {
  readonly label: string
  readonly fromMinute: number
  readonly toMinute: number
  readonly verdict: Verdict
}

/** An instant drawn from top to bottom: a stage begins, now, a target is met. */
export type PlotMark = { readonly label: string; readonly minute: number; readonly strong?: boolean }

/** All that a plot shows, on the page and in a picture of it. */
export type PlotPicture = {
  readonly title: string
  /** Minutes from the first reading, ascending. */
  readonly minutes: readonly number[]
  readonly series: readonly CurveSeries[]
  readonly limits: readonly PlotLimit[]
  readonly windows: readonly PlotWindow[]
  readonly marks?: readonly PlotMark[]
  /** Unit of the axis to the left: °C or °F, or that of another figure where no temperature is drawn. */
  readonly temperatureUnit: string
  /** Words of the left axis where they are more than its unit. */
  readonly leftLabel?: string
  /** Decimals its figures are read out with, and the least span it shows. */
  readonly digits?: number
  readonly leastSpan?: number
  readonly rightAxis?: RightAxis
  /** Time in days of 1440 minutes rather than hours and minutes. */
  readonly inDays?: true
}

/** Top of the log axis: far past every published target; what goes over it runs along the top. */
export const LOG_TOP = 12

export const paper = { ink: '#1d1a16', soft: '#5d564c', hair: '#d9d1c3', stop: '#8f1d1d', ground: '#fffdf9' } as const

/** Kinds differ by weight and dash, not by colour alone, so that a plot reads in grey and on paper. */
export const lookOf: Readonly<
  Record<CurveKind, { readonly stroke: string; readonly width: number; readonly dash?: readonly number[] }>
> = {
  core: { stroke: '#1d1a16', width: 2.5 },
  surface: { stroke: '#5d564c', width: 1.5 },
  house: { stroke: '#8a8172', width: 1.5, dash: [8, 4] },
  other: { stroke: '#8a8172', width: 1 },
  lethality: { stroke: '#2d4a63', width: 2, dash: [2, 4] },
  model: { stroke: '#2d4a63', width: 1.2 },
  ahead: { stroke: '#1d1a16', width: 2, dash: [6, 5] },
  poor: { stroke: '#5d564c', width: 1.2, dash: [2, 3] },
  before: { stroke: '#8a8172', width: 1 },
  points: { stroke: '#8f1d1d', width: 2 },
}

/** Dashes of the second, third … core probe: one black line is told from another on paper too. */
const coreDashes: readonly (readonly number[] | undefined)[] = [undefined, [12, 4], [4, 3], [12, 4, 3, 4]]

/** How each series is drawn, in their order. */
export function looksOf(series: readonly Pick<CurveSeries, 'kind'>[]) {
  let cores = 0
  return series.map(({ kind }) => {
    if (kind !== 'core') return lookOf[kind]
    const dash = coreDashes[cores++ % coreDashes.length]
    return { ...lookOf.core, ...(dash ? { dash } : {}) }
  })
}

/** Whether a series is read on the axis to the right: lethality always is. */
export const isRight = (s: Pick<CurveSeries, 'kind' | 'right'>): boolean => s.right === true || s.kind === 'lethality'

const logAxis: RightAxis = { label: 'log reduction', unit: 'log', range: [0, LOG_TOP] }
export const rightAxisOf = ({ rightAxis }: Pick<PlotPicture, 'rightAxis'>): RightAxis => rightAxis ?? logAxis

/** A figure of a series with its unit, as it is read out. */
export function readOutOf(picture: PlotPicture, s: CurveSeries, v: number): string {
  const right = rightAxisOf(picture)
  return isRight(s)
    ? `${v.toFixed(right.digits ?? 1)} ${right.unit}`.trim()
    : `${v.toFixed(picture.digits ?? 1)} ${picture.temperatureUnit}`.trim()
}

/** Unit of a series, for a table's head. */
export const unitOf = (picture: PlotPicture, s: CurveSeries): string =>
  isRight(s) ? rightAxisOf(picture).unit : picture.temperatureUnit

/** Minutes as hours:minutes, with a sign before the start. */
export const clock = (minute: number): string => {
  const m = Math.abs(Math.round(minute))
  return `${minute < 0 && m > 0 ? '−' : ''}${Math.floor(m / 60)}:${String(m % 60).padStart(2, '0')}`
}

/** An instant of a plot as it is read out, and as it stands under the axis. */
export const timeOf = ({ inDays }: Pick<PlotPicture, 'inDays'>, minute: number): string =>
  inDays ? `day ${(minute / 1440).toFixed(1)}` : clock(minute)
export const tickOf = ({ inDays }: Pick<PlotPicture, 'inDays'>, minute: number): string =>
  inDays ? String(Number((minute / 1440).toFixed(2))) : clock(minute)
export const timeLabel = ({ inDays }: Pick<PlotPicture, 'inDays'>): string =>
  inDays ? 'days after stuffing' : 'hours : minutes'
