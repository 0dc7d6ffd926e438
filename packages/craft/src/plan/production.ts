import { solveProgram } from '../blend/program.ts'
import { dayAfter, daysBetween } from './day.ts'
import { dueDay, modelOf, roomOn, takenOn } from './model.ts'
import type { Plan, PlanInput } from './schema.ts'

/** A plan within this share of the best cost there could be is good enough to work by. */
const GAP = 0.001

/** Weights below this are the solver's rounding of nothing, kg. */
const NOTHING_KG = 1e-6
/** Most a batch may lack of a material when its lots are drawn again, kg. */
const MOST_GAP_KG = 1e-4
const FULL = 0.999

type Start = { readonly product: PlanInput['products'][number]; readonly day: number; readonly mixKg: number }
type Stock = PlanInput['lots'][number] & { left: number }

/** Split a day's mix into equal batches no larger than the largest. */
function batchesOf({ product, day, mixKg }: Start): Start[] {
  const count = product.batch ? Math.max(1, Math.ceil(mixKg / product.batch.maxKg - 1e-9)) : 1
  return Array.from({ length: count }, () => ({ product, day, mixKg: mixKg / count }))
}

/** Lots for one batch, the first to expire first; a lot without a date last. What no lot covers is not listed. */
function draw(stock: Stock[], material: string, day: string, kg: number) {
  const usable = stock
    .filter((l) => l.material === material && l.left > NOTHING_KG && (l.useBy ?? day) >= day && (l.from ?? day) <= day)
    .toSorted((a, b) => ((a.useBy ?? '9999') < (b.useBy ?? '9999') ? -1 : 1))
  const taken: { lot: string; material: string; kg: number }[] = []
  let open = kg
  for (const l of usable) {
    if (open <= NOTHING_KG) break
    const take = Math.min(open, l.left)
    l.left -= take
    open -= take
    taken.push({ lot: l.lot, material, kg: take })
  }
  return taken
}

function ordersOf(input: PlanInput, starts: readonly Start[], horizon: number): Plan['orders'] {
  const made = new Map<string, { day: number; kg: number }[]>()
  for (const p of input.products) {
    const ready = starts
      .filter((s) => s.product.id === p.id)
      .map((s) => ({ day: s.day + p.leadDays, kg: (s.mixKg * p.yieldPct) / 100 }))
    made.set(
      p.id,
      [
        { day: 0, kg: p.stockKg ?? 0 },
        ...(p.coming ?? []).map((c) => ({ day: Math.max(0, daysBetween(input.from, c.on)), kg: c.kg })),
        ...ready,
      ].toSorted((a, b) => a.day - b.day),
    )
  }
  const byDue = input.orders.toSorted((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))
  const served = new Map(
    byDue.map((o) => {
      const due = dueDay(input, o.due, horizon)
      let [open, onTimeKg, lateKg] = [o.kg, 0, 0]
      let last: number | undefined
      for (const m of made.get(o.product)!) {
        const take = Math.min(open, m.kg)
        if (take <= 0) continue
        m.kg -= take
        open -= take
        if (take > NOTHING_KG) last = m.day
        if (m.day <= due) onTimeKg += take
        else lateKg += take
      }
      const shortKg = open > NOTHING_KG ? open : 0
      const done = shortKg === 0 && last !== undefined ? { done: dayAfter(input.from, last) } : {}
      return [
        o,
        { id: o.id, kg: o.kg, due: o.due, onTimeKg, lateKg: lateKg > NOTHING_KG ? lateKg : 0, shortKg, ...done },
      ] as const
    }),
  )
  return input.orders.map((o) => served.get(o)!)
}

function loadOf(input: PlanInput, starts: readonly Start[], horizon: number): Plan['load'] {
  return input.resources.flatMap((r) =>
    Array.from({ length: horizon }, (_, t) => {
      const own = starts.reduce((s, { product, day, mixKg }) => {
        const per = product.uses.reduce((q, u) => {
          const offset = t - day - (u.fromDay ?? 0)
          return u.resource === r.id && offset >= 0 && offset < (u.forDays ?? 1) ? q + u.perMixKg : q
        }, 0)
        return s + per * mixKg
      }, 0)
      const taken = takenOn(input, r, t)
      const used = own + taken
      return {
        day: dayAfter(input.from, t),
        resource: r.id,
        used,
        taken,
        perDay: r.perDay,
        pct: r.perDay > 0 ? (100 * used) / r.perDay : 0,
      }
    }).filter((l) => l.used > NOTHING_KG),
  )
}

/** What is wanting of each material to make what is short, the lots left taken off that are in date on some day of the plan. */
function lackingOf(input: PlanInput, orders: Plan['orders'], stock: readonly Stock[]): Plan['lacking'] {
  const wanted = new Map<string, number>()
  input.orders.forEach((o, i) => {
    const p = input.products.find((q) => q.id === o.product)!
    for (const { material, pctOfMix } of p.needs)
      wanted.set(material, (wanted.get(material) ?? 0) + (orders[i]!.shortKg / p.yieldPct) * pctOfMix)
  })
  const leftOf = (material: string) =>
    stock.reduce((s, l) => (l.material === material && (l.useBy ?? input.from) >= input.from ? s + l.left : s), 0)
  return [...wanted].flatMap(([material, kg]) => {
    const open = kg - leftOf(material)
    return open > MOST_GAP_KG ? [{ material, kg: open }] : []
  })
}

const unsolved = (because: string): Plan => ({
  status: 'unsolved',
  because,
  batches: [],
  orders: [],
  load: [],
  toBuy: [],
  lacking: [],
  expiring: [],
  tight: [],
})

/**
 * Batches a day for a set of orders, within the resources of each day and the lots in hand: as little as possible short, then late, then in
 * few batches, then as late as it can be made. Lots go out first to expire first.
 */
export function planProduction(input: PlanInput): Plan {
  const model = modelOf(input)
  const solved = solveProgram(model.program, { gap: GAP })
  if (solved.status !== 'optimal')
    return unsolved('the search ended without a plan that could be proved; try fewer days, or no smallest batch')
  const starts = Array.from({ length: input.days }, (_, day) =>
    input.products.flatMap((product, i): Start[] => {
      const j = model.mix(i, day)
      const mixKg = j < 0 ? 0 : solved.x[j]!
      return mixKg > NOTHING_KG ? batchesOf({ product, day, mixKg }) : []
    }),
  ).flat()
  const stock: Stock[] = input.lots.map((l) => ({ ...l, left: l.kg }))
  const toBuy = new Map<string, { material: string; kg: number; by: string }>()
  let uncoveredKg = 0
  const batches = starts.map(({ product, day, mixKg }) => {
    const start = dayAfter(input.from, day)
    const lots = product.needs.flatMap(({ material, pctOfMix }) => {
      const kg = (mixKg * pctOfMix) / 100
      const taken = draw(stock, material, start, kg)
      const open = kg - taken.reduce((s, l) => s + l.kg, 0)
      const bought = input.noBuying !== true && start >= (input.buyFrom ?? input.from)
      if (!bought) uncoveredKg = Math.max(uncoveredKg, open)
      else if (open > NOTHING_KG) {
        const entry = toBuy.get(material) ?? { material, kg: 0, by: start }
        toBuy.set(material, { ...entry, kg: entry.kg + open })
      }
      return taken
    })
    return {
      product: product.id,
      start,
      ready: dayAfter(start, product.leadDays),
      mixKg,
      finishedKg: (mixKg * product.yieldPct) / 100,
      lots,
    }
  })
  const end = dayAfter(input.from, input.days)
  const orders = ordersOf(input, starts, model.horizon)
  const load = loadOf(input, starts, model.horizon)
  const over = load.some((l) => {
    const resource = input.resources.find((r) => r.id === l.resource)!
    return l.used - l.taken > roomOn(input, resource, daysBetween(input.from, l.day)) * (1 + 1e-6) + NOTHING_KG
  })
  if (over || uncoveredKg > MOST_GAP_KG)
    return unsolved('the plan found breaks a limit when reckoned again from its batches')
  const lacking = input.noBuying === true ? lackingOf(input, orders, stock) : []
  const owed = orders.some((o) => o.lateKg > 0 || o.shortKg > 0)
  return {
    status: 'optimal',
    because: owed
      ? `not every order can be met in time: ${lacking.length > 0 ? `short of ${lacking.map((l) => `${Number(l.kg.toFixed(3))} kg of ${l.material}`).join(', ')}, and nothing may be bought` : 'see orders and tight'}`
      : 'every order is met in time',
    batches,
    orders,
    load,
    toBuy: [...toBuy.values()].filter((b) => b.kg > NOTHING_KG),
    lacking,
    expiring: stock.flatMap((l) =>
      l.useBy !== undefined && l.useBy < end && l.left > NOTHING_KG
        ? [{ lot: l.lot, material: l.material, kg: l.left, useBy: l.useBy }]
        : [],
    ),
    tight: owed ? load.filter((l) => l.used >= FULL * l.perDay).map((l) => `${l.resource} on ${l.day}`) : [],
  }
}
