import type { Verdict } from '@forcemeat/craft/finding'

export type CurveKind = 'core' | 'house' | 'surface' | 'other' | 'lethality' | 'model' | 'ahead' | 'poor' | 'before'

export type CurveSeries = {
  readonly name: string
  readonly kind: CurveKind
  readonly values: readonly (number | null)[]
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
  readonly temperatureUnit: '°C' | '°F'
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

export const isLog = (s: Pick<CurveSeries, 'kind'>): boolean => s.kind === 'lethality'

/** Minutes as hours:minutes, with a sign before the start. */
export const clock = (minute: number): string => {
  const m = Math.abs(Math.round(minute))
  return `${minute < 0 && m > 0 ? '−' : ''}${Math.floor(m / 60)}:${String(m % 60).padStart(2, '0')}`
}
