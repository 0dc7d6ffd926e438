import type { Run, TracePoint } from './simulate.ts'

/** Slopes of the shape-keeping cubic through points (Fritsch & Carlson 1980): no overshoot between readings. */
function slopes(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length
  const d = Array.from({ length: n - 1 }, (_, i) => (y[i + 1]! - y[i]!) / (x[i + 1]! - x[i]!))
  return x.map((_, i) => {
    if (i === 0) return d[0] ?? 0
    if (i === n - 1) return d[n - 2] ?? 0
    const [a, b] = [d[i - 1]!, d[i]!]
    if (a * b <= 0) return 0
    const [ha, hb] = [x[i]! - x[i - 1]!, x[i + 1]! - x[i]!]
    const [wa, wb] = [2 * hb + ha, hb + 2 * ha]
    return (wa + wb) / (wa / a + wb / b)
  })
}

type Field = 'coreC' | 'surfaceC'

/** Reads a run between its steps, stage by stage, at ascending instants. */
export function createReader(
  run: Run,
): (s: number) => { houseC: number; coreC: number; surfaceC: number; lostKg: number } {
  const parts = run.stages.map((_, index) => {
    const points = run.points.filter((p) => p.stage === index)
    const kept = points.filter((p, i) => i === 0 || p.s > points[i - 1]!.s)
    const x = kept.map((p) => p.s)
    return {
      kept,
      coreC: slopes(
        x,
        kept.map((p) => p.coreC),
      ),
      surfaceC: slopes(
        x,
        kept.map((p) => p.surfaceC),
      ),
    }
  })
  let stage = 0
  let at = 0
  const cubic = (a: TracePoint, b: TracePoint, field: Field, da: number, db: number, u: number) => {
    const h = b.s - a.s
    return (
      (1 + 2 * u) * (1 - u) ** 2 * a[field] +
      u * (1 - u) ** 2 * h * da +
      u * u * (3 - 2 * u) * b[field] +
      u * u * (u - 1) * h * db
    )
  }
  return (s) => {
    while (stage < parts.length - 1 && s >= run.stages[stage]!.endS) {
      stage++
      at = 0
    }
    const { kept, coreC, surfaceC } = parts[stage]!
    while (at < kept.length - 2 && s >= kept[at + 1]!.s) at++
    const a = kept[at]!
    const b = kept[at + 1] ?? a
    if (a === b) return a
    const u = Math.min(1, Math.max(0, (s - a.s) / (b.s - a.s)))
    const straight = (from: number, to: number) => from + (to - from) * u
    return {
      houseC: straight(a.houseC, b.houseC),
      coreC: cubic(a, b, 'coreC', coreC[at]!, coreC[at + 1]!, u),
      surfaceC: cubic(a, b, 'surfaceC', surfaceC[at]!, surfaceC[at + 1]!, u),
      lostKg: straight(a.lostKg, b.lostKg),
    }
  }
}

/** Most points of a series, stage ends not counted. */
const MOST_POINTS = 1500

/** Instants of a series, s: even steps (a quarter of a minute up to an hour, a minute up to a day, then coarser) and every stage's end. */
export function seriesInstants(run: Run): number[] {
  const total = run.stages.at(-1)!.endS
  const step = total <= 3600 ? 15 : Math.max(60, 60 * Math.ceil(total / 60 / MOST_POINTS))
  const even = Array.from({ length: Math.floor(total / step) + 1 }, (_, i) => i * step)
  const all = [...even, ...run.stages.map((s) => s.endS)].sort((a, b) => a - b)
  return all.filter((s, i) => i === 0 || s - all[i - 1]! > 1e-6)
}

/** The highest core temperature a stage leads to: within it, or after its end while the core still rises. */
export function peakOf(run: Run, stage: number): { coreC: number; s: number } {
  let best = { coreC: -Infinity, s: 0 }
  const end = run.stages[stage]!.endS
  for (const p of run.points) {
    if (p.stage < stage) continue
    if (p.s > end && p.coreC < best.coreC - 1e-9) break
    if (p.coreC > best.coreC) best = { coreC: p.coreC, s: p.s }
  }
  return best
}
