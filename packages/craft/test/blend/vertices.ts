/**
 * A second way to a small linear program, sharing nothing with the solver: every vertex of {Σx = 1, x ≥ 0, rows ≤ bound} is the
 * meeting of n − 1 of the inequalities with the mass, so all are tried, the feasible ones kept, and the cheapest is the answer.
 */
export type SmallProgram = {
  readonly cost: readonly number[]
  readonly rows: readonly { readonly a: readonly number[]; readonly bound: number }[]
}

function gauss(matrix: number[][], right: number[]): number[] | undefined {
  const n = right.length
  const m = matrix.map((row, i) => [...row, right[i]!])
  for (let c = 0; c < n; c++) {
    let pivot = c
    for (let r = c + 1; r < n; r++) if (Math.abs(m[r]![c]!) > Math.abs(m[pivot]![c]!)) pivot = r
    if (Math.abs(m[pivot]![c]!) < 1e-10) return undefined
    ;[m[c], m[pivot]] = [m[pivot]!, m[c]!]
    for (let r = 0; r < n; r++) {
      if (r === c) continue
      const f = m[r]![c]! / m[c]![c]!
      for (let k = c; k <= n; k++) m[r]![k]! -= f * m[c]![k]!
    }
  }
  return m.map((row, i) => row[n]! / row[i]!)
}

function* choose<T>(items: readonly T[], k: number, from = 0): Generator<T[]> {
  if (k === 0) return yield []
  for (let i = from; i <= items.length - k; i++)
    for (const rest of choose(items, k - 1, i + 1)) yield [items[i]!, ...rest]
}

export function cheapestVertex({ cost, rows }: SmallProgram): { x: number[]; cost: number } | undefined {
  const n = cost.length
  const unit = (j: number) => cost.map((_, k) => (k === j ? -1 : 0))
  const all = [...rows, ...cost.map((_, j) => ({ a: unit(j) as readonly number[], bound: 0 }))]
  const dot = (a: readonly number[], x: readonly number[]) => a.reduce((s, v, i) => s + v * x[i]!, 0)
  let best: { x: number[]; cost: number } | undefined
  for (const tight of choose(all, n - 1)) {
    const x = gauss([cost.map(() => 1), ...tight.map((r) => [...r.a])], [1, ...tight.map((r) => r.bound)])
    if (!x || x.some((v) => !Number.isFinite(v)) || all.some((r) => dot(r.a, x) > r.bound + 1e-9)) continue
    const c = dot(cost, x)
    if (!best || c < best.cost) best = { x, cost: c }
  }
  return best
}

/** A small seeded generator (mulberry32), so that a failing draw can be run again. */
export function seeded(seed: number): () => number {
  let s = seed >>> 0
  return () => {
    s = (s + 0x6d2b79f5) >>> 0
    let t = Math.imul(s ^ (s >>> 15), 1 | s)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Standard normal draws by Box and Muller. */
export const normalDraw = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
