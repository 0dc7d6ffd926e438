import type { Model } from 'highs'
import { solver } from './solver.ts'

/** A row of a linear program: lower ≤ Σ values·x[indices] ≤ upper. */
export type Row = {
  readonly indices: readonly number[]
  readonly values: readonly number[]
  readonly lower: number
  readonly upper: number
}

/**
 * A second-order cone row: Σ linear·x + √Σ (spread·x)² ≤ bound. `indices` are shared by both lists. With spreads of zero it is
 * a plain row.
 */
export type Cone = {
  readonly indices: readonly number[]
  readonly linear: readonly number[]
  readonly spread: readonly number[]
  readonly bound: number
}

/** Minimise Σ cost·x under rows, cones and bounds; columns marked in `integer` take whole values. */
export type Program = {
  readonly cost: readonly number[]
  readonly lower: readonly number[]
  readonly upper: readonly number[]
  readonly integer: readonly boolean[]
  readonly rows: readonly Row[]
  readonly cones: readonly Cone[]
}

export type Solved = {
  readonly status: 'optimal' | 'infeasible' | 'unsolved'
  readonly x: readonly number[]
  readonly cost: number
  /** Cost of the same program without the cones' spread, where there are cones. */
  readonly plainCost?: number
  /** Change of cost per unit of a row's bound, a cone's bound, and a column's bound. */
  readonly rowDual: readonly number[]
  readonly coneDual: readonly number[]
  readonly columnDual: readonly number[]
  /**
   * Cost less the dual's value, recomputed from the row prices alone: by weak duality no point costs less than cost − gap. Absent
   * with whole units, whose prices hold only at the units chosen.
   */
  readonly dualGap?: number
  /** Rows, cones and columns of an infeasible subsystem, as the solver names it; a candidate, not proved minimal. */
  readonly clash?: {
    readonly rows: readonly number[]
    readonly cones: readonly number[]
    readonly columns: readonly number[]
  }
}

/** Cones are held to this far inside their bound while cutting, so that the point returned lies on the safe side of it. */
const SAFE_SIDE = 1e-9
const MOST_CUTS = 200
/** An integer search that takes longer has no answer a maker can wait for; it ends `unsolved`, never with a guess. */
const SECONDS_FOR_WHOLE_UNITS = 10

const options = {
  output_flag: false,
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
} as const
const integerOptions = {
  mip_feasibility_tolerance: 1e-9,
  mip_abs_gap: 1e-9,
  time_limit: SECONDS_FOR_WHOLE_UNITS,
} as const

function load(p: Program, rows: readonly Row[], whole: boolean, model: Model): void {
  const starts = new Int32Array(rows.length + 1)
  rows.forEach((r, i) => (starts[i + 1] = starts[i]! + r.indices.length))
  const indices = new Int32Array(starts[rows.length]!)
  const values = new Float64Array(starts[rows.length]!)
  rows.forEach((r, i) => {
    indices.set(r.indices, starts[i])
    values.set(r.values, starts[i])
  })
  const data = {
    numCols: p.cost.length,
    numRows: rows.length,
    colCost: Float64Array.from(p.cost),
    colLower: Float64Array.from(p.lower),
    colUpper: Float64Array.from(p.upper),
    rowLower: Float64Array.from(rows, (r) => r.lower),
    rowUpper: Float64Array.from(rows, (r) => r.upper),
    matrix: { format: 'csr', numRows: rows.length, numCols: p.cost.length, starts, indices, values },
  } as const
  model.passModel(whole ? { ...data, integrality: Int32Array.from(p.integer, Number) } : data)
}

const spreadOf = (c: Cone, x: ArrayLike<number>): number =>
  Math.sqrt(c.indices.reduce((s, j, k) => s + (c.spread[k]! * x[j]!) ** 2, 0))

/** How far a point lies beyond a cone's bound; at most 0 where it holds. */
export const coneExcess = (c: Cone, x: ArrayLike<number>): number =>
  c.indices.reduce((s, j, k) => s + c.linear[k]! * x[j]!, 0) + spreadOf(c, x) - c.bound

/** Tangent plane of a cone at `x`: it never cuts off a point that holds the cone. */
function tangent(c: Cone, x: ArrayLike<number>): Row {
  const norm = spreadOf(c, x)
  const values = c.indices.map((j, k) => c.linear[k]! + (norm > 0 ? (c.spread[k]! ** 2 * x[j]!) / norm : 0))
  return { indices: c.indices, values, lower: -Infinity, upper: c.bound - SAFE_SIDE }
}

type Raw = Pick<Solved, 'status' | 'x' | 'cost' | 'clash'> & {
  readonly rowDual: Float64Array
  readonly columnDual: Float64Array
}

function clashOf(model: Model, rowCount: number, coneOfRow: readonly number[]): NonNullable<Solved['clash']> {
  const { rowIndex, colIndex } = model.getIis()
  const rows = [...rowIndex]
  return {
    rows: rows.filter((r) => r < rowCount),
    cones: [...new Set(rows.filter((r) => r >= rowCount).map((r) => coneOfRow[r - rowCount]!))],
    columns: [...colIndex],
  }
}

const statusOf = (model: Model): Solved['status'] => {
  const { modelStatus } = solver().constants
  const status = model.getModelStatus()
  if (status === modelStatus.optimal) return 'optimal'
  return status === modelStatus.infeasible ? 'infeasible' : 'unsolved'
}

type How = {
  /** Name the clashing rows and bounds of an infeasible program. */
  readonly findClash?: boolean
  /** How near the best a whole-unit answer must be proved to be, as a share of its cost; nothing without it. */
  readonly gap?: number
}

/** Solve, add the tangent planes of the cones the point breaks, and again, until every cone holds. */
function cutUntilHeld(
  p: Program,
  whole: boolean,
  seed: readonly { cone: number; row: Row }[],
  { findClash = false, gap = 0 }: How,
) {
  const cuts = [...seed]
  const model = solver().createModel()
  let plainCost: number | undefined
  try {
    model.options.set(whole ? { ...options, ...integerOptions, mip_rel_gap: gap } : options)
    if (findClash) model.options.set({ iis_strategy: 2 })
    const flat = p.cones.map((c): Row => ({ indices: c.indices, values: c.linear, lower: -Infinity, upper: c.bound }))
    load(p, [...p.rows, ...flat, ...cuts.map((c) => c.row)], whole, model)
    const coneOfRow = [...p.cones.keys(), ...cuts.map((c) => c.cone)]
    for (let round = 0; round <= MOST_CUTS; round++) {
      model.run()
      if (model.getModelStatus() === solver().constants.modelStatus.unboundedOrInfeasible) {
        // Presolve alone cannot say which of the two it is; the simplex can.
        model.options.set({ presolve: 'off' })
        model.run()
      }
      const status = statusOf(model)
      if (status !== 'optimal') {
        const clash = findClash && status === 'infeasible' ? clashOf(model, p.rows.length, coneOfRow) : undefined
        return { raw: empty(status, clash), cuts, coneOfRow, plainCost }
      }
      const { colValue, rowDual, colDual } = model.getSolution()
      const x = Array.from(colValue)
      const cost = x.reduce((s, v, j) => s + v * p.cost[j]!, 0)
      plainCost ??= cost
      const broken = p.cones.flatMap((c, k) => (coneExcess(c, x) > 0 ? [{ cone: k, row: tangent(c, x) }] : []))
      if (broken.length === 0) {
        const raw: Raw = { status: 'optimal', x, cost, rowDual, columnDual: colDual }
        return { raw, cuts, coneOfRow, plainCost }
      }
      for (const b of broken) {
        cuts.push(b)
        coneOfRow.push(b.cone)
        model.addRow(-Infinity, b.row.upper, { indices: b.row.indices.slice(), values: b.row.values.slice() })
      }
    }
    return { raw: empty('unsolved'), cuts, coneOfRow, plainCost }
  } finally {
    model.dispose()
  }
}

/** The solver alone on a program without cones or whole units: what a blend is timed against. Its least cost. */
export function bareSolve(p: Program): number {
  const model = solver().createModel()
  try {
    model.options.set(options)
    load(p, p.rows, false, model)
    model.run()
    return model.getSolution().colValue.reduce((s, v, j) => s + v * p.cost[j]!, 0)
  } finally {
    model.dispose()
  }
}

const empty = (status: Solved['status'], clash?: Solved['clash']): Raw => ({
  status,
  x: [],
  cost: Number.NaN,
  rowDual: new Float64Array(),
  columnDual: new Float64Array(),
  ...(clash === undefined ? {} : { clash }),
})

/**
 * Solve a program. Cones are met by outer approximation: the tangent planes never cut off a point that holds, so an
 * infeasible answer is true, and the loop ends only at a point where every cone holds exactly.
 * With whole units the integers are found first, then fixed, so that the prices are those of the rest at these units.
 */
export function solveProgram(p: Program, how: How = {}): Solved {
  const whole = p.integer.some(Boolean)
  const relaxed = cutUntilHeld(p, false, [], how)
  if (relaxed.raw.status !== 'optimal') return finish(p, relaxed)
  if (!whole) return { ...finish(p, relaxed), dualGap: dualGapOf(p, relaxed.raw, relaxed.cuts) }
  const integral = cutUntilHeld(p, true, relaxed.cuts, { gap: how.gap ?? 0 })
  if (integral.raw.status !== 'optimal') return finish(p, { ...integral, plainCost: relaxed.plainCost })
  const fix = (bound: readonly number[]) => bound.map((b, j) => (p.integer[j] ? Math.round(integral.raw.x[j]!) : b))
  const fixed: Program = { ...p, lower: fix(p.lower), upper: fix(p.upper), integer: p.integer.map(() => false) }
  const settled = cutUntilHeld(fixed, false, integral.cuts, {})
  // The integer search met the rows only within its tolerance: without an exact point there is no answer to give.
  if (settled.raw.status !== 'optimal') return finish(p, { ...settled, raw: empty('unsolved') })
  return finish(p, { ...settled, plainCost: relaxed.plainCost })
}

function finish(p: Program, { raw, coneOfRow, plainCost }: ReturnType<typeof cutUntilHeld>): Solved {
  const coneDual = p.cones.map(() => 0)
  raw.rowDual.forEach((d, r) => {
    const cone = coneOfRow[r - p.rows.length]
    if (cone !== undefined) coneDual[cone]! += d
  })
  return {
    status: raw.status,
    x: raw.x,
    cost: raw.cost,
    ...(p.cones.length > 0 && plainCost !== undefined ? { plainCost } : {}),
    rowDual: Array.from(raw.rowDual.subarray(0, p.rows.length)),
    coneDual,
    columnDual: Array.from(raw.columnDual),
    ...(raw.clash === undefined ? {} : { clash: raw.clash }),
  }
}

/** Weak duality by hand: reduced costs from the row prices, each row and column at the bound its price points to. */
function dualGapOf(p: Program, raw: Raw, cuts: readonly { readonly row: Row }[]): number {
  const flat = p.cones.map((c) => ({ indices: c.indices, values: c.linear, lower: -Infinity, upper: c.bound }))
  const reduced = [...p.cost]
  let value = 0
  ;[...p.rows, ...flat, ...cuts.map((c) => c.row)].forEach((row, r) => {
    const y = raw.rowDual[r]!
    if (Math.abs(y) < 1e-13) return
    value += y * (y > 0 ? row.lower : row.upper)
    row.indices.forEach((j, k) => (reduced[j]! -= y * row.values[k]!))
  })
  reduced.forEach((d, j) => {
    if (Math.abs(d) < 1e-9) return
    value += d * (d > 0 ? p.lower[j]! : p.upper[j]!)
  })
  return raw.cost - value
}
