import type { Verdict } from '@forcemeat/craft/finding'
import type uPlot from 'uplot'

export type CurveKind = 'core' | 'house' | 'surface' | 'other' | 'lethality'

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

const look: Readonly<Record<CurveKind, { stroke: string; width: number; dash?: number[] }>> = {
  core: { stroke: '#1d1a16', width: 2.5 },
  surface: { stroke: '#5d564c', width: 1.5 },
  house: { stroke: '#8a8172', width: 1.5, dash: [8, 4] },
  other: { stroke: '#8a8172', width: 1 },
  lethality: { stroke: '#2d4a63', width: 2, dash: [2, 4] },
}

/** Kinds differ by weight and dash, not by colour alone, so that a plot reads in grey and on paper. */
export function seriesStyle({ name, kind }: CurveSeries, temperatureUnit: string): uPlot.Series {
  const unit = kind === 'lethality' ? 'log' : temperatureUnit
  return {
    label: name,
    scale: kind === 'lethality' ? 'log' : 't',
    spanGaps: false,
    points: { show: false },
    value: (_u, v) => (v === null ? '–' : `${v.toFixed(1)} ${unit}`),
    ...look[kind],
  }
}
