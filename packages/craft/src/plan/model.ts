import type { Program, Row } from '../blend/program.ts'
import { dayAfter, daysBetween } from './day.ts'
import type { PlanInput } from './schema.ts'

/** Weights of the objective: never made is worst, then late, then a batch more, then made early. */
const SHORT = 1000
const LATE = 10
const BATCH = 0.5
const EARLY = 0.01
/** A kilogram bought where a lot in hand would do. */
const BUY = 0.001

export type PlanModel = {
  readonly program: Program
  /** Column of the mix of a product started on a day, or −1 where the kitchen is closed. */
  readonly mix: (product: number, day: number) => number
  readonly horizon: number
}

/** Day of the plan an order is due; orders due beyond it must be ready by its end. */
export const dueDay = (input: PlanInput, due: string, horizon: number): number =>
  Math.min(daysBetween(input.from, due), horizon - 1)

/** Room of a resource on a day of the plan, less what was taken of it before. */
export function roomOn(input: PlanInput, resource: PlanInput['resources'][number], day: number): number {
  return Math.max(0, resource.perDay - takenOn(input, resource, day))
}

export function takenOn({ from }: PlanInput, { taken }: PlanInput['resources'][number], day: number): number {
  return (taken ?? []).reduce((s, t) => (daysBetween(from, t.day) === day ? s + t.amount : s), 0)
}

/** Finished kg of a product that is there or comes of itself, up to and on a day. */
const thereBy = ({ from }: PlanInput, { stockKg = 0, coming = [] }: PlanInput['products'][number], day: number) =>
  coming.reduce((s, c) => (daysBetween(from, c.on) <= day ? s + c.kg : s), stockKg)

/** Finished kg of a product ordered up to and on a day. */
function demandBy(input: PlanInput, product: string, day: number, horizon: number): number {
  return input.orders.reduce(
    (s, o) => (o.product === product && dueDay(input, o.due, horizon) <= day ? s + o.kg : s),
    0,
  )
}

/**
 * The plan as a mixed-integer program: kg of mix a product and start day, whole batches where a smallest one is set, kg of each lot
 * used a day, and for each product and day the kg ready early or owed.
 */
export function modelOf(input: PlanInput): PlanModel {
  const days = input.days
  const horizon = days + Math.max(...input.products.map((p) => p.leadDays))
  const closed = new Set((input.closed ?? []).map((d) => daysBetween(input.from, d)))
  const cost: number[] = []
  const lower: number[] = []
  const upper: number[] = []
  const integer: boolean[] = []
  const rows: Row[] = []
  const column = (price: number, most = Infinity, whole = false): number => {
    cost.push(price)
    lower.push(0)
    upper.push(most)
    integer.push(whole)
    return cost.length - 1
  }
  const row = (terms: readonly (readonly [number, number])[], low: number, high: number): void => {
    if (terms.length > 0)
      rows.push({ indices: terms.map((t) => t[0]), values: terms.map((t) => t[1]), lower: low, upper: high })
  }

  const mixColumns = input.products.map((p) => {
    const ordered = demandBy(input, p.id, horizon, horizon)
    return Array.from({ length: days }, (_, d) => {
      if (closed.has(d)) return -1
      const x = column(0)
      if (p.batch?.minKg) {
        // Enough batches for all that is ordered, and one more.
        const most = Math.ceil(ordered / (p.yieldPct / 100) / p.batch.minKg) + 1
        const n = column(BATCH, most, true)
        row(
          [
            [x, 1],
            [n, -p.batch.minKg],
          ],
          0,
          Infinity,
        )
        row(
          [
            [x, 1],
            [n, -p.batch.maxKg],
          ],
          -Infinity,
          0,
        )
      }
      return x
    })
  })
  const mix = (p: number, d: number): number => mixColumns[p]![d] ?? -1

  input.products.forEach((p, i) => {
    // From day to day: what is early or owed is that of the day before, and what is made ready and asked for.
    let before: { early: number; late: number; owed: number } | undefined
    for (let t = 0; t < horizon; t++) {
      const d = t - p.leadDays
      const made: [number, number][] = d >= 0 && d < days && mix(i, d) >= 0 ? [[mix(i, d), p.yieldPct / 100]] : []
      const owed = demandBy(input, p.id, t, horizon) - thereBy(input, p, t)
      const [early, late] = [column(EARLY), column(t === horizon - 1 ? SHORT : LATE)]
      const carried: [number, number][] = before
        ? [
            [before.early, 1],
            [before.late, -1],
          ]
        : []
      const asked = owed - (before?.owed ?? 0)
      row([...made, ...carried, [early, -1], [late, 1]], asked, asked)
      before = { early, late, owed }
    }
  })

  for (const r of input.resources)
    for (let t = 0; t < horizon; t++) {
      const terms: [number, number][] = []
      input.products.forEach((p, i) => {
        for (const u of p.uses) {
          if (u.resource !== r.id || u.perMixKg === 0) continue
          for (let d = 0; d < days; d++) {
            const offset = t - d - (u.fromDay ?? 0)
            if (mix(i, d) >= 0 && offset >= 0 && offset < (u.forDays ?? 1)) terms.push([mix(i, d), u.perMixKg])
          }
        }
      })
      row(merged(terms), -Infinity, roomOn(input, r, t))
    }

  const buyDay = input.noBuying === true ? undefined : daysBetween(input.from, input.buyFrom ?? input.from)
  const needed = input.products.flatMap((p) => p.needs.map((n) => n.material))
  for (const material of new Set([...input.lots.map((l) => l.material), ...needed])) {
    const lots = input.lots.filter((l) => l.material === material)
    const used = lots.map(() => [] as [number, number][])
    for (let d = 0; d < days; d++) {
      const terms: [number, number][] = []
      input.products.forEach((p, i) => {
        const share = p.needs.reduce((s, n) => (n.material === material ? s + n.pctOfMix / 100 : s), 0)
        if (share > 0 && mix(i, d) >= 0) terms.push([mix(i, d), share])
      })
      if (terms.length === 0) continue
      const day = dayAfter(input.from, d)
      lots.forEach((l, k) => {
        if ((l.useBy !== undefined && l.useBy < day) || (l.from !== undefined && l.from > day)) return
        const y = column(0)
        terms.push([y, -1])
        used[k]!.push([y, 1])
      })
      if (buyDay !== undefined && d >= buyDay) terms.push([column(BUY), -1])
      row(terms, 0, 0)
    }
    lots.forEach((l, k) => row(used[k]!, -Infinity, l.kg))
  }
  return { program: { cost, lower, upper, integer, rows, cones: [] }, mix, horizon }
}

/** Terms on one column added up: a row may name a column once. */
function merged(terms: readonly (readonly [number, number])[]): [number, number][] {
  const sums = new Map<number, number>()
  for (const [j, v] of terms) sums.set(j, (sums.get(j) ?? 0) + v)
  return [...sums]
}
