import type { Run } from './simulate.ts'

/** Two-sided 95 % of a normal spread. */
export const Z95 = 1.96

export type Target = {
  readonly targetC: number | undefined
  readonly heating: boolean
  readonly lastC: number
  readonly lastS: number
}
/** What a fit knows: unknowns as logarithms of factors, their spread, and the covariance of the ones the log speaks of. */
export type Fitted = {
  readonly x: readonly number[]
  readonly sd: readonly number[]
  /** Where each unknown may lie, 95 %. */
  readonly ends: readonly { readonly low: number; readonly high: number }[]
  readonly covariance: readonly (readonly number[])[]
  readonly active: readonly number[]
}
export type TargetTime = {
  targetC: number
  state: 'already-met' | 'predicted' | 'not-in-this-schedule'
  early?: number
  likely?: number
  late?: number
}

/** Minutes after `afterS` at which a run's core first meets a temperature. */
function meeting({ points }: Run, targetC: number, rising: boolean, afterS: number): number | undefined {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    if (b.s <= afterS) continue
    // A stage that ends by this very temperature ends within a hair of it.
    if (rising ? b.coreC < targetC - 1e-5 : b.coreC > targetC + 1e-5) continue
    const u = a.coreC === b.coreC ? 1 : Math.min(1, Math.max(0, (targetC - a.coreC) / (b.coreC - a.coreC)))
    return Math.max(0, (a.s + u * (b.s - a.s) - afterS) / 60)
  }
  return undefined
}

/**
 * When the core meets its target, minutes after the last reading, with a 95 % band: the fit's spread carried in a straight line, and films
 * the log has not met run at both their ends.
 */
export function timeToTarget(
  target: Target,
  run: (x: readonly number[]) => Run,
  { x, sd, ends, covariance, active }: Fitted,
): TargetTime | undefined {
  const { targetC, heating, lastC, lastS } = target
  if (targetC === undefined) return undefined
  if (heating ? lastC >= targetC : lastC <= targetC) return { targetC, state: 'already-met' }
  const rising = lastC < targetC
  const when = (y: readonly number[]) => meeting(run(y), targetC, rising, lastS)
  const likely = when(x)
  if (likely === undefined) return { targetC, state: 'not-in-this-schedule' }
  const shifted = (k: number, by: number) => when(x.map((w, i) => (i === k ? w + by : w)))
  const gradient = active.map((k) => {
    const step = Math.min(0.05, Math.max(0.005, sd[k]!))
    const moved = shifted(k, step)
    return moved === undefined ? 0 : (moved - likely) / step
  })
  const seen = gradient.reduce((s, g, i) => s + gradient.reduce((r, f, j) => r + g * f * covariance[i]![j]!, 0), 0)
  let early = Z95 ** 2 * Math.max(0, seen)
  let late = early
  for (const k of x.keys()) {
    if (active.includes(k)) continue
    // A poor film costs more time than a good one saves, so no straight line here.
    for (const end of [ends[k]!.low, ends[k]!.high]) {
      const off = (shifted(k, end - x[k]!) ?? Infinity) - likely
      if (off < 0) early += off ** 2
      else late += off ** 2
    }
  }
  const band = { targetC, state: 'predicted' as const, early: Math.max(0, likely - Math.sqrt(early)), likely }
  return late === Infinity ? band : { ...band, late: likely + Math.sqrt(late) }
}
