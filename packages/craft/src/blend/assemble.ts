import { type Cone, type Program, type Row } from './program.ts'
import type { Batch, Requirement } from './requirement.ts'

/** A whole problem: batches that share lots. */
export type Problem = {
  readonly batches: readonly Batch[]
  readonly requirements: readonly Requirement[]
  /** Share of its mass a batch may come out away from its target. */
  readonly tolerance: number
}

/** A column of the program: one material in one batch, as a share of the batch, or in whole boxes. */
export type Column = { readonly batch: number; readonly material: number; readonly shareOfOne: number }

export type Assembled = {
  readonly program: Program
  readonly columns: readonly Column[]
  /** Requirement behind each row and cone, and each bound of a column; −1 where it is none's (the mass of a batch). */
  readonly rowOwner: readonly number[]
  readonly coneOwner: readonly number[]
  readonly lowerOwner: readonly number[]
  readonly upperOwner: readonly number[]
  readonly integerOwner: readonly number[]
  /** Column of a requirement's slack, in points, where it is elastic. */
  readonly slack: ReadonlyMap<number, number>
}

/** Shares of one batch by material, from a solution's columns. */
export function sharesOf(problem: Problem, a: Assembled, x: readonly number[], batch: number): number[] {
  const shares = problem.batches[batch]!.materials.map(() => 0)
  a.columns.forEach((c, j) => {
    if (c.batch === batch) shares[c.material] = x[j]! * c.shareOfOne
  })
  return shares
}

type How = {
  /** Requirements held; without it, all. */
  readonly held?: ReadonlySet<number>
  /** Requirements that may be broken, at one unit of cost a point; blends themselves then cost nothing. */
  readonly elastic?: ReadonlySet<number>
}

const everything = (p: Problem): ReadonlySet<number> => new Set(p.requirements.keys())

/** Put a problem before the solver: only what is `held`, and `elastic` parts with a slack in place of their bound. */
export function assemble(problem: Problem, { held = everything(problem), elastic = new Set() }: How = {}): Assembled {
  const { batches, requirements, tolerance } = problem
  const totalKg = batches.reduce((s, b) => s + b.kg, 0)
  const wholeOf = (batch: number, material: number): number =>
    requirements.findIndex((r) => r.side === 'whole' && r.batch === batch && r.bound?.material === material)
  const columns: Column[] = []
  const first: number[] = []
  const integerOwner: number[] = []
  batches.forEach((b, k) => {
    first.push(columns.length)
    const boxed = b.materials.some((m) => m.wholeUnitsKg !== undefined)
    b.materials.forEach((_, i) => {
      const whole = boxed ? wholeOf(k, i) : -1
      columns.push({ batch: k, material: i, shareOfOne: whole < 0 ? 1 : requirements[whole]!.bound!.share })
      integerOwner.push(whole)
    })
  })
  const columnsOf = new Map<string, number[]>()
  columns.forEach((c, j) => {
    const { id } = batches[c.batch]!.materials[c.material]!
    const found = columnsOf.get(id)
    if (found) found.push(j)
    else columnsOf.set(id, [j])
  })
  const feasibilityOnly = elastic.size > 0
  const cost = columns.map((c) => {
    const b = batches[c.batch]!
    return feasibilityOnly ? 0 : (b.kg / totalKg) * b.materials[c.material]!.costPerKg * c.shareOfOne
  })
  const lower = columns.map(() => 0)
  const upper = columns.map(() => Infinity)
  const integer = integerOwner.map((o) => o >= 0 && held.has(o))
  const rows: Row[] = []
  const cones: Cone[] = []
  const rowOwner: number[] = []
  const coneOwner: number[] = []
  const lowerOwner = columns.map(() => -1)
  const upperOwner = columns.map(() => -1)
  const slack = new Map<number, number>()
  const extra = (price: number): number => {
    cost.push(price)
    lower.push(0)
    upper.push(Infinity)
    integer.push(false)
    return cost.length - 1
  }

  // Mass of each batch. A batch that may come out off its mass pays more for it than any saving, so it comes as near as it can.
  const dear = 2 * Math.max(...columns.map((_, j) => Math.abs(cost[j]! / columns[j]!.shareOfOne)), 0) + 1
  batches.forEach((b, k) => {
    const indices = b.materials.map((_, i) => first[k]! + i)
    const values = indices.map((j) => columns[j]!.shareOfOne)
    if (tolerance > 0)
      for (const sign of [1, -1]) {
        const j = extra(feasibilityOnly ? 0 : dear)
        upper[j] = tolerance
        indices.push(j)
        values.push(sign)
      }
    rows.push({ indices, values, lower: 1, upper: 1 })
    rowOwner.push(-1)
  })

  const addHalf = (
    indices: number[],
    values: number[],
    spread: readonly number[] | undefined,
    bound: number,
    owner: number,
    t: number | undefined,
  ) => {
    const all = t === undefined ? indices : [...indices, t]
    const weights = t === undefined ? values : [...values, -1]
    if (spread) {
      cones.push({ indices: all, linear: weights, spread: t === undefined ? spread : [...spread, 0], bound })
      coneOwner.push(owner)
    } else {
      rows.push({ indices: all, values: weights, lower: -Infinity, upper: bound })
      rowOwner.push(owner)
    }
  }

  requirements.forEach((r, n) => {
    if (!held.has(n) || r.side === 'whole') return
    const t = elastic.has(n) ? extra(1) : undefined
    if (t !== undefined) slack.set(n, t)
    if (r.side === 'available') return addAvailable(r, n, t)
    const start = first[r.batch!]!
    if (r.bound) {
      const j = start + r.bound.material
      const at = r.bound.share / columns[j]!.shareOfOne
      if (t !== undefined) {
        const sign = r.bound.which === 'upper' ? 100 : -100
        addHalf([j], [sign * columns[j]!.shareOfOne], undefined, sign * r.bound.share, n, t)
      } else if (r.bound.which === 'upper') tightenUpper(j, at, n)
      else {
        lower[j] = at
        lowerOwner[j] = n
      }
      return
    }
    for (const h of r.halves) {
      // Most rows touch few of many materials; plain loops keep this well under the solver's own time.
      const [indices, values]: [number[], number[]] = [[], []]
      const spread: number[] | undefined = h.spread && []
      for (let i = 0; i < h.coefficients.length; i++) {
        if (h.coefficients[i] === 0 && (h.spread?.[i] ?? 0) === 0) continue
        const { shareOfOne } = columns[start + i]!
        indices.push(start + i)
        values.push(h.coefficients[i]! * shareOfOne)
        spread?.push(h.spread![i]! * shareOfOne)
      }
      addHalf(indices, values, spread, h.bound, n, t)
    }
  })

  function tightenUpper(j: number, at: number, owner: number): void {
    if (at >= upper[j]!) return
    upper[j] = at
    upperOwner[j] = owner
  }

  function addAvailable(r: Requirement, n: number, t: number | undefined): void {
    const takers = columnsOf.get(r.of) ?? []
    if (takers.length === 1 && t === undefined) {
      const c = columns[takers[0]!]!
      return tightenUpper(takers[0]!, r.value / batches[c.batch]!.kg / c.shareOfOne, n)
    }
    const weights = takers.map((j) => ((100 * batches[columns[j]!.batch]!.kg) / totalKg) * columns[j]!.shareOfOne)
    addHalf(takers, weights, undefined, (100 * r.value) / totalKg, n, t)
  }

  const program: Program = { cost, lower, upper, integer, rows, cones }
  return { program, columns, rowOwner, coneOwner, lowerOwner, upperOwner, integerOwner, slack }
}
