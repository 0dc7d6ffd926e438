import { findMaterial } from '@forcemeat/craft/materials/materials'
import { dayAfter } from '@forcemeat/craft/plan/day'
import type { Plan, PlanInput } from '@forcemeat/craft/plan/schema'
import { scaleRecipe } from '@forcemeat/craft/recipe/scale'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { OrderFacts, PackHere } from '@forcemeat/ledger'
import { failsOf } from './failing.ts'
import type { Reckoner } from './reckoner.ts'
import { capacityOf, dryingRooms, resourcesFor, usesOf } from './resources.ts'
import type { Kitchen } from './slow.ts'
import { leadOf, underWay, yieldOf, type Lead, type UnderWay } from './under-way.ts'

/** Most the plan takes at once; the solver's own limits. */
const most = { orders: 300, lots: 300, products: 40 }

export type WeekQuery = {
  readonly from: string
  readonly days: number
  /** First day bought goods can be here. */
  readonly buyFrom: string
  /** Days of the week on which nothing is begun, 0 = Sunday. */
  readonly closedWeekdays: readonly number[]
  /** Smallest and largest batch, kg of mix. */
  readonly smallestKg: number
  readonly largestKg: number
}

type Line = {
  readonly id: string
  readonly order: string
  readonly customer: string
  readonly recipe: string
  readonly kg: number
  readonly due: string
}

export type PlannedProduct = {
  readonly recipe: string
  readonly version: number
  readonly name: string
  readonly yieldPct: number
  readonly lead: Lead
  readonly stockKg: number
  readonly comingKg: number
  readonly meatPerMix: number
}

export type Week = {
  readonly from: string
  readonly days: number
  readonly closed: readonly string[]
  readonly products: readonly PlannedProduct[]
  /** Lines of open orders the plan serves, and what becomes of each. */
  readonly lines: readonly (Line & Plan['orders'][number])[]
  /** Lines that need not be begun yet. */
  readonly later: readonly (Line & { readonly startBy: string })[]
  readonly underWay: readonly Omit<UnderWay, 'record' | 'lead'>[]
  readonly resources: readonly { readonly id: string; readonly name: string; readonly unit: string }[]
  readonly notes: readonly string[]
  /** Absent where there is nothing to plan. */
  readonly plan?: Plan
}

/** Lines of open orders, each with a code of its own. */
const linesOfOrders = (orders: readonly OrderFacts[]): Line[] =>
  orders
    .filter((o) => o.closed === undefined)
    .flatMap((o) =>
      o.lines.map((l, i) => ({
        id: o.lines.length === 1 ? o.order : `${o.order} line ${i + 1}`,
        order: o.order,
        customer: o.customer,
        recipe: l.recipe,
        kg: l.kg,
        due: o.due,
      })),
    )

/** Released packs of some recipes here that are in date, those of batches that fail a limit by now left out and told. */
async function finishedHere(
  { ledger }: Kitchen,
  packs: readonly PackHere[],
  recipes: ReadonlySet<string>,
  on: string,
): Promise<{ kgOf: (recipe: string) => number; failing: ReadonlyMap<string, readonly string[]> }> {
  const good = packs.filter(
    (p) => recipes.has(p.recipe) && p.decision === 'release' && (p.useBy === undefined || p.useBy >= on),
  )
  const failing = new Map<string, readonly string[]>()
  for (const batch of new Set(good.map((p) => p.batch))) {
    const record = await ledger.batch(batch)
    const fails = record ? await failsOf(ledger, record) : []
    if (fails.length > 0) failing.set(batch, fails)
  }
  return {
    kgOf: (recipe) => good.reduce((s, p) => (p.recipe === recipe && !failing.has(p.batch) ? s + p.kg : s), 0),
    failing,
  }
}

/** What the mix needs, as shares; water and ice are had from the tap. */
function needsOf(recipe: Recipe): PlanInput['products'][number]['needs'] {
  const { lines, mixKg } = scaleRecipe({ recipe, to: { meatKg: 100 } })
  const sums = new Map<string, number>()
  for (const l of lines)
    if (l.kg > 0 && findMaterial(l.material)?.category !== 'water')
      sums.set(l.material, (sums.get(l.material) ?? 0) + (100 * l.kg) / mixKg)
  return [...sums].map(([material, pctOfMix]) => ({ material, pctOfMix }))
}

/** Kg of each lot that batches planned but not weighed yet are to take. */
function reserved(batches: readonly UnderWay[]): Map<string, number> {
  const kg = new Map<string, number>()
  for (const { record } of batches) {
    const weighed = new Set(record.weighings.map((w) => w.line))
    for (const l of record.lines)
      if (l.lot !== undefined && !weighed.has(l.line)) kg.set(l.lot, (kg.get(l.lot) ?? 0) + l.targetKg)
  }
  return kg
}

/** The plan; where whole batches are too much to search through, one without a smallest batch, and that is told. */
async function planned(reckoner: Reckoner, input: PlanInput, notes: string[]): Promise<Plan> {
  const plan = await reckoner.run<Plan>('plan.production', input)
  if (plan.status === 'optimal') return plan
  const loose = input.products.map((p) => (p.batch ? { ...p, batch: { maxKg: p.batch.maxKg } } : p))
  const second = await reckoner.run<Plan>('plan.production', { ...input, products: loose })
  if (second.status !== 'optimal') return plan
  notes.push(
    'There is too much to search for the best whole batches: no smallest batch is held to. Fewer days may help.',
  )
  return second
}

const closedDays = ({ from, days, closedWeekdays }: WeekQuery): string[] =>
  Array.from({ length: days }, (_, i) => dayAfter(from, i)).filter((d) =>
    closedWeekdays.includes(new Date(`${d}T00:00:00Z`).getUTCDay()),
  )

/** Batches by day for the open orders, from what is here, under way and in stock. */
export async function weekPlan(kitchen: Kitchen, query: WeekQuery): Promise<Week> {
  const { ledger, reckoner } = kitchen
  const { from, days, buyFrom } = query
  const [orders, recipes, packs, rooms, resources, lots, batches] = await Promise.all([
    ledger.orders(),
    ledger.recipes(),
    ledger.packsHere(),
    ledger.rooms(),
    ledger.resources(),
    ledger.lots({ withBalanceOnly: true, limit: 1000 }),
    underWay(kitchen),
  ])
  const notes: string[] = []
  const recipeOf = new Map(recipes.map((r) => [r.recipe, r]))
  const leads = new Map<string, Lead>()
  const soon: Line[] = []
  const later: (Line & { startBy: string })[] = []
  const end = dayAfter(from, days - 1)
  for (const line of linesOfOrders(orders)) {
    const recipe = recipeOf.get(line.recipe)
    if (!recipe) {
      notes.push(`Order ${line.order} asks for ${line.recipe}, which is no recipe any more: it is left out.`)
      continue
    }
    const lead = leads.get(line.recipe) ?? (await leadOf(reckoner, recipe.body))
    leads.set(line.recipe, lead)
    const startBy = dayAfter(line.due, -lead.days)
    if (startBy > end) later.push({ ...line, startBy })
    else soon.push(line)
  }
  if (soon.length > most.orders)
    notes.push(`Only the ${most.orders} order lines due first are planned; ${soon.length - most.orders} are not.`)
  const asked = soon.slice(0, most.orders)
  const codes = [...new Set(asked.map((l) => l.recipe))]
  if (codes.length > most.products)
    notes.push(`Only ${most.products} products are planned at once; ${codes.length - most.products} are not.`)
  const wanted = codes.slice(0, most.products)
  const standing = resources.filter((r) => !r.retired)
  const stock = await finishedHere(kitchen, packs, new Set(wanted), from)
  const made = wanted.map((code) => {
    const recipe = recipeOf.get(code)!
    const lead = leads.get(code)!
    const kept = yieldOf(recipe.body)
    if (!kept.stated) notes.push(`${recipe.body.name} states no loss in cooking: none is counted.`)
    if (lead.because.startsWith('taken as')) notes.push(`${recipe.body.name}: ${lead.because}.`)
    const coming = batches
      .filter((b) => b.recipe === code && b.finishedKg > 0)
      .map((b) => ({ kg: b.finishedKg, on: b.ready }))
    const stockKg = stock.kgOf(code)
    const { mixKg } = scaleRecipe({ recipe: recipe.body, to: { meatKg: 100 } })
    const shown: PlannedProduct = {
      recipe: code,
      version: recipe.version,
      name: recipe.body.name,
      yieldPct: kept.pct,
      lead,
      stockKg,
      comingKg: coming.reduce((s, c) => s + c.kg, 0),
      meatPerMix: 100 / mixKg,
    }
    return {
      shown,
      product: {
        id: code,
        yieldPct: kept.pct,
        leadDays: lead.days,
        needs: needsOf(recipe.body),
        uses: usesOf(code, recipe.body, lead, standing, rooms),
        stockKg,
        batch: { minKg: query.smallestKg, maxKg: query.largestKg },
        ...(coming.length > 0 ? { coming } : {}),
      },
    }
  })
  if (rooms.some((r) => r.purpose === 'dry' && !r.retired) && capacityOf(rooms) === undefined)
    notes.push('A drying room says no capacity, so the plan does not hold the rooms to what they can take.')
  const held = batches.filter((b) => b.state === 'held')
  if (held.length > 0) notes.push(`On hold and not counted on: ${held.map((b) => b.batch).join(', ')}.`)
  const failing = new Map([
    ...batches.flatMap((b) => (b.state !== 'held' && b.fails ? [[b.batch, b.fails] as const] : [])),
    ...stock.failing,
  ])
  if (failing.size > 0)
    notes.push(
      `Fails a limit and not counted on: ${[...failing].map(([b, fails]) => `${b} (${fails.join('; ')})`).join(', ')}.`,
    )
  const horizon = days + Math.max(0, ...made.map((m) => m.product.leadDays))
  const resourceList = resourcesFor(from, horizon, standing, rooms, batches)
  const closed = closedDays(query)
  const shared = {
    from,
    days,
    closed,
    products: made.map((m) => m.shown),
    later,
    underWay: batches.map(({ record: _record, lead: _lead, ...b }) => b),
    resources: [
      ...standing.map((r) => ({ id: r.resource, name: r.name, unit: r.unit })),
      ...(capacityOf(rooms) === undefined ? [] : [{ id: dryingRooms, name: 'Drying rooms', unit: 'kg' }]),
    ],
  }
  if (made.length === 0) return { ...shared, lines: [], notes }
  const needed = new Set(made.flatMap((m) => m.product.needs.map((n) => n.material)))
  const less = reserved(batches)
  const usable = lots
    .map((l) => ({ ...l, kg: Math.max(0, l.balanceKg - (less.get(l.lot) ?? 0)) }))
    .filter((l) => l.kg > 0 && needed.has(l.material) && (l.useBy === undefined || l.useBy >= from))
    .toSorted((a, b) => (a.useBy ?? '9999').localeCompare(b.useBy ?? '9999') || a.on.localeCompare(b.on))
  if (usable.length > most.lots)
    notes.push(`Only the ${most.lots} lots that expire first are counted; ${usable.length - most.lots} more are not.`)
  const lines = asked.filter((l) => wanted.includes(l.recipe))
  const input: PlanInput = {
    from,
    days,
    ...(closed.length > 0 ? { closed } : {}),
    buyFrom: buyFrom < from ? from : buyFrom,
    products: made.map((m) => m.product),
    orders: lines.map((l) => ({ id: l.id, product: l.recipe, kg: l.kg, due: l.due < from ? from : l.due })),
    resources: resourceList,
    lots: usable.slice(0, most.lots).map((l) => ({
      lot: l.lot,
      material: l.material,
      kg: l.kg,
      ...(l.useBy === undefined ? {} : { useBy: l.useBy }),
      ...(l.on > from ? { from: l.on } : {}),
    })),
  }
  const plan = await planned(reckoner, input, notes)
  const told = new Map(plan.orders.map((o) => [o.id, o]))
  return {
    ...shared,
    lines: lines.map((l) => {
      const o = told.get(l.id)
      const none = { id: l.id, kg: l.kg, due: l.due, onTimeKg: 0, lateKg: 0, shortKg: l.kg }
      const served = { ...l, ...(o ?? none), due: l.due }
      // What was due before today is late, whatever of it is done today.
      return l.due < from ? { ...served, onTimeKg: 0, lateKg: served.onTimeKg + served.lateKg } : served
    }),
    notes,
    plan,
  }
}
