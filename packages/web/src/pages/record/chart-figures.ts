import { number } from '../../ui/figures.ts'
import { system } from '../../state/who.ts'

/** A control chart as the server gives it. */
export type Chart = {
  readonly name: string
  readonly title: string
  readonly unit: string
  readonly points: readonly { readonly batch: string; readonly on: string; readonly value: number }[]
  readonly chart?: {
    readonly centre: number
    readonly upper: number
    readonly lower: number
    readonly sigma: number
    readonly cpk?: number
    readonly capability?: {
      readonly low: number
      readonly high: number
      readonly verdict: 'capable' | 'not-capable' | 'cannot-tell'
      readonly because: string
    }
    readonly caution?: string
    readonly signals: readonly { readonly at: number; readonly rule: string; readonly because: string }[]
  }
  readonly limit?: ChartLimit
  /** Without a limit: what would let capability be told. */
  readonly settle?: string
  /** What the recipe aims at; nothing is judged by it. */
  readonly aim?: number
}
export type ChartLimit = {
  readonly rule?: string
  readonly own?: string
  readonly highest?: number
  readonly lowest?: number
  readonly unread?: true
}

const G_PER_OZ = 28.349523125

/** A chart in the units of this screen: a link is weighed in ounces where pounds are shown. Indices have no unit and stay. */
export function inScreenUnits(c: Chart): Chart {
  if (c.unit !== 'g' || system.value !== 'us') return c
  const turn = (x: number): number => x / G_PER_OZ
  const { chart, limit } = c
  return {
    ...c,
    unit: 'oz',
    points: c.points.map((p) => ({ ...p, value: turn(p.value) })),
    ...(chart
      ? {
          chart: {
            ...chart,
            centre: turn(chart.centre),
            upper: turn(chart.upper),
            lower: turn(chart.lower),
            sigma: turn(chart.sigma),
          },
        }
      : {}),
    ...(limit
      ? {
          limit: {
            ...limit,
            ...(limit.highest === undefined ? {} : { highest: turn(limit.highest) }),
            ...(limit.lowest === undefined ? {} : { lowest: turn(limit.lowest) }),
          },
        }
      : {}),
    ...(c.aim === undefined ? {} : { aim: turn(c.aim) }),
  }
}

/** A limit in words: at most, at least, or between. */
export function boundWords({ highest, lowest }: ChartLimit, unit: string): string {
  if (highest !== undefined && lowest !== undefined) return `${number(lowest)} to ${number(highest)} ${unit}`
  return highest === undefined ? `at least ${number(lowest)} ${unit}` : `at most ${number(highest)} ${unit}`
}

export type Line = {
  readonly value: number
  readonly mark: 'usual' | 'thread' | 'faint' | 'limit'
  readonly label: string
}

/** The lines across a chart: what is usual, what is aimed at, what is allowed; the extremes where there is no usual range yet. */
export function linesOf({ chart, limit, aim, points }: Chart): Line[] {
  const line = (value: number | undefined, mark: Line['mark'], name = ''): Line[] =>
    value === undefined ? [] : [{ value, mark, label: `${name}${number(value)}` }]
  const asked = [
    ...line(limit?.highest, 'limit', 'limit '),
    ...line(limit?.lowest, 'limit', 'limit '),
    ...line(aim, 'faint', 'aim '),
  ]
  const values = points.map((p) => p.value)
  const bare = [...new Set([Math.min(...values), Math.max(...values)])].filter((v) => asked.every((a) => a.value !== v))
  const usual = chart
    ? [...line(chart.upper, 'usual'), ...line(chart.centre, 'thread'), ...line(chart.lower, 'usual')]
    : bare.flatMap((v) => line(v, 'faint'))
  // All figures alike: the three lines of the usual range are one.
  return [...usual.filter((l, i) => usual.findIndex((o) => o.value === l.value) === i), ...asked]
}

/** Heights of labels that keep `apart` between them, each as near to its own as the rest let it, none under `low`. */
export function spread(heights: readonly number[], apart: number, low: number): number[] {
  const order = heights.map((_, i) => i).toSorted((a, b) => heights[a]! - heights[b]!)
  const at = [...heights]
  let from = -Infinity
  for (const i of order) from = at[i] = Math.max(heights[i]!, from + apart)
  let to = low
  for (const i of order.toReversed()) {
    const height = Math.min(at[i]!, to)
    at[i] = height
    to = height - apart
  }
  return at
}

/** A code no longer than there is room for. */
export const short = (code: string, most: number): string => (code.length > most ? `${code.slice(0, most - 1)}…` : code)
