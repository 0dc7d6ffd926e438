import type { Store } from '../dialect/store.ts'
import type { Fact } from '../facts.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

/** An order, and how it was closed where it is. */
export type OrderFacts = RecordedFact<'order.take'> & { readonly closed?: RecordedFact<'order.close'> }
export type PriceFacts = RecordedFact<'price.set'>
export type SellingPrice = RecordedFact<'price.sell'>
export type ResourceFacts = RecordedFact<'plan.resource'>

/** Orders, those due first on top. */
export async function ordersOf(store: Store): Promise<OrderFacts[]> {
  const closed = new Map((await factsOf(store, 'order.close')).map((c) => [c.order, c]))
  return (await factsOf(store, 'order.take'))
    .map((order) => {
      const end = closed.get(order.order)
      return end ? { ...order, closed: end } : order
    })
    .toSorted((a, b) => a.due.localeCompare(b.due) || a.root - b.root)
}

/** Prices in the order they came to hold, so that the last one of a thing is the one in force. */
export const pricesOf = async (store: Store): Promise<PriceFacts[]> =>
  (await factsOf(store, 'price.set')).toSorted((a, b) => a.from.localeCompare(b.from) || a.root - b.root)

export const sellingPricesOf = async (store: Store): Promise<SellingPrice[]> =>
  (await factsOf(store, 'price.sell')).toSorted((a, b) => a.from.localeCompare(b.from) || a.root - b.root)

export const resourcesOf = (store: Store): Promise<ResourceFacts[]> => factsOf(store, 'plan.resource')

/** Packs that are here: whose they are, how much is left of them. */
export type PackHere = {
  readonly pack: string
  readonly batch: string
  readonly recipe: string
  readonly kg: number
  readonly count: number
  readonly useBy?: string
  readonly decision?: 'release' | 'hold'
}

export async function packsHereOf(store: Store): Promise<PackHere[]> {
  const rows = await store.read
    .selectFrom('pack as p')
    .innerJoin('batch as b', 'b.batch', 'p.batch')
    .innerJoin('entry as e', 'e.seq', 'p.seq')
    .select(['p.pack', 'p.batch', 'b.recipe', 'b.decision', 'p.count', 'p.shipped', 'p.mg', 'e.text'])
    .whereRef('p.shipped', '<', 'p.count')
    .orderBy('p.root')
    .execute()
  return rows.map((r) => {
    const { useBy } = (JSON.parse(r.text) as { body: Fact<'batch.pack'> }).body
    const here = r.count - r.shipped
    return {
      pack: r.pack,
      batch: r.batch,
      recipe: r.recipe,
      kg: (r.mg / 1e6) * (here / r.count),
      count: here,
      ...(useBy === undefined ? {} : { useBy }),
      ...(r.decision === null ? {} : { decision: r.decision }),
    }
  })
}
