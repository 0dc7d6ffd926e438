import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import { inParts } from './in-parts.ts'
import { factsOf, recorded, type RecordedFact } from './facts-of.ts'

export type Shipment = RecordedFact<'pack.ship'>
/** A packing of a batch, where its packs went, and how many are still here. */
export type PackFacts = RecordedFact<'batch.pack'> & {
  readonly shipments: readonly Shipment[]
  readonly shippedCount: number
  readonly hereCount: number
}

type Row = { text: string; hash: string; root: number; pack: string; shipped: number; count: number }

const selection = (store: Store) =>
  store.read
    .selectFrom('pack as p')
    .innerJoin('entry as e', 'e.seq', 'p.seq')
    .select(['e.text', 'e.hash', 'p.root', 'p.pack', 'p.shipped', 'p.count'])
    .orderBy('p.root')

async function withShipments(store: Store, rows: readonly Row[]): Promise<PackFacts[]> {
  const sent = Map.groupBy(
    await factsOf(
      store,
      'pack.ship',
      rows.map((r) => r.pack),
    ),
    (s) => s.pack,
  )
  return rows.map((row) => ({
    ...recorded<'batch.pack'>(fromText(row.text, row.hash), row.root),
    shipments: sent.get(row.pack) ?? [],
    shippedCount: row.shipped,
    hereCount: row.count - row.shipped,
  }))
}

export async function packsOf(store: Store, batches: readonly string[]): Promise<PackFacts[]> {
  const asked = (part: readonly string[]) => selection(store).where('p.batch', 'in', part).execute()
  return withShipments(store, await inParts(batches, asked, (row) => row.root))
}

export async function packOf(store: Store, pack: string): Promise<PackFacts | undefined> {
  return (await withShipments(store, await selection(store).where('p.pack', '=', pack).execute()))[0]
}
