import { materials } from '@forcemeat/craft/materials/materials'
import type { Price } from '../../state/recipe-bench.ts'
import type { LotView } from '../../state/views.ts'
import { today } from '../../ui/figures.ts'

type Listed = { readonly material: string; readonly costPerKg: number; readonly from: string }
export type PricesListed = { readonly prices: readonly Listed[]; readonly sellingPrices: readonly Selling[] }

/** Newest price of each material in stock, else the newest a price list gives from today or before; water from the tap is taken at none. */
export const pricesOf = (lots: readonly LotView[] | undefined, listed: readonly Listed[] = []): Price[] => {
  const newest = new Map<string, Price>(
    materials.filter((m) => m.category === 'water').map((m) => [m.id, { material: m.id, costPerKg: 0 }]),
  )
  for (const p of listed)
    if (p.from <= today()) newest.set(p.material, { material: p.material, costPerKg: p.costPerKg })
  for (const l of (lots ?? []).toSorted((a, b) => (a.on < b.on ? -1 : 1)))
    if (l.costPerKg !== undefined) newest.set(l.material, { material: l.material, costPerKg: l.costPerKg })
  return [...newest.values()]
}

export type Selling = {
  readonly seq: number
  readonly recipe: string
  readonly pricePerKg: number
  readonly from: string
}

/** The price a recipe sells at on a day: the newest in force then; none where none is, or the recipe has no code yet. */
export function sellingPriceOf(
  listed: readonly Selling[],
  recipe: string | undefined,
  on: string = today(),
): Selling | undefined {
  let found: Selling | undefined
  for (const p of listed)
    if (p.recipe === recipe && p.from <= on && (found === undefined || found.from <= p.from)) found = p
  return found
}
