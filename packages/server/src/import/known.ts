import type { Ledger } from '@forcemeat/ledger'
import type { ImportKind } from './fields.ts'

type Body = Readonly<Record<string, unknown>>

/** What the record has already, and what a file may name. */
export type Known = {
  /** What is told twice when it is in a row that is not new; absent where rows of one thing belong together. */
  readonly keyOf: (body: Body) => string
  /** Entries of the record by the same key, each as the fields a row of it would have. */
  readonly recorded: ReadonlyMap<string, readonly Body[]>
  /** Codes a product may be named by, in lower case. */
  readonly products?: ReadonlyMap<string, string>
}

/** Products by their code and by their name. */
async function products(ledger: Ledger): Promise<Map<string, string>> {
  const named = new Map<string, string>()
  const recipes = await ledger.recipes()
  for (const r of recipes) named.set(r.body.name.toLowerCase(), r.recipe)
  for (const r of recipes) named.set(r.recipe.toLowerCase(), r.recipe)
  return named
}

const said = (v: unknown): string => (typeof v === 'string' ? v : '')

export async function knownOf(ledger: Ledger, kind: ImportKind, codes: readonly string[]): Promise<Known> {
  switch (kind) {
    case 'businesses': {
      const all = await ledger.businesses()
      return { keyOf: (b) => said(b['business']), recorded: new Map(all.map((b) => [b.business, [b]])) }
    }
    case 'lots': {
      const recorded = new Map<string, Body[]>()
      for (const code of new Set(codes)) {
        const lot = await ledger.lot(code)
        if (lot) recorded.set(code, [lot])
      }
      return { keyOf: (b) => said(b['lot']), recorded }
    }
    case 'orders': {
      const all = await ledger.orders()
      return {
        keyOf: (b) => said(b['order']),
        recorded: new Map(
          all.map((o) => [
            o.order,
            o.lines.map((l) => ({ order: o.order, customer: o.customer, on: o.on, due: o.due, ...l })),
          ]),
        ),
        products: await products(ledger),
      }
    }
    case 'prices': {
      const all = await ledger.prices()
      const keyOf = (b: Body): string => [said(b['material']), said(b['from']), said(b['supplier'])].join('\n')
      return { keyOf, recorded: new Map(all.map((p) => [keyOf(p), [p]])) }
    }
    case 'selling-prices': {
      const all = await ledger.sellingPrices()
      const keyOf = (b: Body): string => [said(b['recipe']), said(b['from'])].join('\n')
      return { keyOf, recorded: new Map(all.map((p) => [keyOf(p), [p]])), products: await products(ledger) }
    }
  }
}
