import type { CurveSeries, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { degrees, number, temperature } from '../../ui/figures.ts'

export type Point = { readonly minute: number; readonly value: number | null }
export type Line = Omit<CurveSeries, 'values'> & {
  readonly points: readonly Point[]
}

export const shownC = (c: number): number => (system.value === 'us' ? c * 1.8 + 32 : c)
export const degreeUnit = (): '°C' | '°F' => (system.value === 'us' ? '°F' : '°C')

/** A sentence of the server, which speaks in °C, in the degrees of this screen. */
export const inDegrees = (sentence: string): string =>
  system.value === 'us'
    ? sentence.replace(/(± ?)?((?<![\d\w])[-−])?(\d+(?:\.\d+)?) °C/g, (_, spread = '', minus = '', n: string) =>
        spread ? spread + degrees(Number(n)) : temperature(minus ? -Number(n) : Number(n)),
      )
    : sentence

const G_PER_OZ = 28.349523125

/** A piece's weight as it is read off a scale. */
export const pieceWeight = (g: number): string =>
  system.value === 'us' ? `${number(g / G_PER_OZ, 4)} oz` : `${number(g, 5)} g`

/** Lines and points on one axis of minutes: a line is read between its points, a point stands only where it was taken. */
export function onOneAxis(lines: readonly Line[]): Pick<PlotPicture, 'minutes' | 'series'> {
  const minutes = [...new Set(lines.flatMap((l) => l.points.map((p) => p.minute)))].toSorted((a, b) => a - b)
  return {
    minutes,
    series: lines.map(({ points, ...head }) => {
      const at = new Map(points.map((p) => [p.minute, p.value]))
      if (head.kind === 'points') return { ...head, values: minutes.map((m) => at.get(m) ?? null) }
      let i = 0
      return {
        ...head,
        values: minutes.map((m) => {
          while (i < points.length - 1 && points[i + 1]!.minute <= m) i++
          const [a, b] = [points[i], points[i + 1]]
          if (!a || a.value === null || m < a.minute) return null
          if (m === a.minute) return a.value
          if (!b || b.value === null) return null
          return a.value + ((b.value - a.value) * (m - a.minute)) / (b.minute - a.minute)
        }),
      }
    }),
  }
}
