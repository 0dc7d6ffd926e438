import { sharesOf, type Assembled, type Problem } from './assemble.ts'
import type { Solved } from './program.ts'
import type { Price } from './schema.ts'

/** Below this a price is the solver's rounding. */
const LEAST_PRICE = 1e-9

/**
 * What each binding requirement costs, from the solver's duals: money per kg of a lot in short supply, money per point and kg of batch
 * for a limit, and what one more kg of each batch costs. Prices of zero are left out.
 */
export function pricesOf(problem: Problem, a: Assembled, solved: Solved): Price[] {
  const totalKg = problem.batches.reduce((s, b) => s + b.kg, 0)
  const kgOf = (batch: number) => problem.batches[batch]!.kg
  const nameOf = (batch: number | undefined) => {
    const id = batch === undefined ? undefined : problem.batches[batch]?.id
    return id === undefined ? {} : { batch: id }
  }
  const worth = new Map<number, number>()
  const add = (n: number, w: number) => worth.set(n, (worth.get(n) ?? 0) + w)
  const pointOf = (n: number, dual: number) => {
    const r = problem.requirements[n]!
    if (r.side === 'available') return -100 * dual
    const ratio = r.pointAt?.(sharesOf(problem, a, solved.x, r.batch!)) ?? 1
    return (-dual * totalKg * ratio) / kgOf(r.batch!)
  }
  solved.rowDual.forEach((d, i) => {
    const n = a.rowOwner[i]!
    if (n >= 0 && d !== 0) add(n, pointOf(n, d))
  })
  solved.coneDual.forEach((d, i) => {
    if (d !== 0) add(a.coneOwner[i]!, pointOf(a.coneOwner[i]!, d))
  })
  a.columns.forEach((c, j) => {
    const d = solved.columnDual[j] ?? 0
    if (d === 0 || a.program.integer[j]) return
    const owner = d > 0 ? a.lowerOwner[j]! : a.upperOwner[j]!
    if (owner < 0) return
    const perShare = (Math.abs(d) / c.shareOfOne) * (totalKg / kgOf(c.batch))
    add(owner, problem.requirements[owner]!.side === 'available' ? perShare : perShare / 100)
  })
  const prices = [...worth].flatMap(([n, w]): Price[] => {
    if (Math.abs(w) < LEAST_PRICE) return []
    const { of, side, batch, fixed } = problem.requirements[n]!
    if (side === 'whole' || fixed) return []
    const unit = side === 'available' ? 'money per kg of the lot' : 'money per point and kg of the batch'
    return [{ of, side, worthPerKg: w, unit, ...nameOf(batch) }]
  })
  const marginal = problem.batches.map((_, k): Price => ({
    of: 'batch',
    side: 'batch',
    worthPerKg: ((solved.rowDual[k] ?? 0) * totalKg) / kgOf(k),
    unit: 'money per kg of the batch',
    ...nameOf(k),
  }))
  return [...prices, ...marginal]
}
