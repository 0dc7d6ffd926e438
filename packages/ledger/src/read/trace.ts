import type { Store } from '../dialect/store.ts'
import { kilograms } from '../views/project.ts'
import { batchesNamed, type BatchFacts } from './batches.ts'
import { lotsNamed, type LotFacts } from './lots.ts'
import { packOf, packsOf, type PackFacts, type Shipment } from './packs.ts'

/** A batch a lot went into: how much of the lot, and the packs that came out. */
export type BatchTraced = BatchFacts & { readonly kgOfLot: number; readonly packs: readonly PackFacts[] }

/** Where a lot went: batches, packs, customers; and how its weight is accounted for. */
export type LotTrace = {
  readonly lot: LotFacts
  readonly batches: readonly BatchTraced[]
  readonly packs: readonly PackFacts[]
  readonly shipments: readonly Shipment[]
  readonly customers: readonly string[]
  readonly kg: { readonly received: number; readonly used: number; readonly adjusted: number; readonly left: number }
}

type Sum = { batch: string | null; lot: string; kind: string; mg: number }

const movementSums = (store: Store, by: 'lot' | 'batch', id: string): Promise<Sum[]> =>
  store.read
    .selectFrom('movement as m')
    .innerJoin('fact as f', 'f.seq', 'm.seq')
    .select((e) => ['m.batch', 'm.lot', 'f.kind', e.fn.sum<number>('m.mg').as('mg')])
    .where(by === 'lot' ? 'm.lot' : 'm.batch', '=', id)
    .groupBy(['m.batch', 'm.lot', 'f.kind'])
    .execute()

export async function traceLot(store: Store, lot: string): Promise<LotTrace | undefined> {
  const [facts] = await lotsNamed(store, [lot])
  if (!facts) return undefined
  const sums = await movementSums(store, 'lot', lot)
  const total = (kind: string) => kilograms(sums.reduce((mg, s) => (s.kind === kind ? mg + s.mg : mg), 0))
  const codes = sums.flatMap((s) => s.batch ?? [])
  const [batches, packs] = [await batchesNamed(store, codes), await packsOf(store, codes)]
  const shipments = packs.flatMap((p) => p.shipments)
  return {
    lot: facts,
    batches: batches.map((b) => ({
      ...b,
      kgOfLot: kilograms(-sums.reduce((mg, s) => (s.batch === b.batch ? mg + s.mg : mg), 0)),
      packs: packs.filter((p) => p.batch === b.batch),
    })),
    packs,
    shipments,
    customers: [...new Set(shipments.map((s) => s.to))].sort(),
    kg: {
      received: total('lot.receive'),
      used: -total('batch.weigh') + 0,
      adjusted: total('lot.adjust'),
      left: facts.balanceKg,
    },
  }
}

/** Where a pack came from: its batch, the lots in it with how much of each, and who sold them. */
export type PackTrace = {
  readonly pack: PackFacts
  readonly batch: BatchFacts
  readonly lots: readonly (LotFacts & { readonly kgInBatch: number })[]
  readonly suppliers: readonly string[]
  /** Lines weighed in without a lot: what the trace cannot follow. */
  readonly withoutLot: readonly { readonly line: string; readonly material: string; readonly kg: number }[]
}

export async function tracePack(store: Store, pack: string): Promise<PackTrace | undefined> {
  const facts = await packOf(store, pack)
  const [batch] = facts ? await batchesNamed(store, [facts.batch]) : []
  if (!facts || !batch) return undefined
  const balance = await massBalance(store, batch.batch)
  const sums = await movementSums(store, 'batch', batch.batch)
  const lots = await lotsNamed(
    store,
    sums.map((s) => s.lot),
  )
  return {
    pack: facts,
    batch,
    lots: lots.map((l) => ({ ...l, kgInBatch: kilograms(-(sums.find((s) => s.lot === l.lot)?.mg ?? 0)) })),
    suppliers: [...new Set(lots.flatMap((l) => l.supplier ?? []))].sort(),
    withoutLot:
      balance?.lines
        .filter((l) => l.lots.length === 0 && l.kg > 0)
        .map(({ line, material, kg }) => ({ line, material, kg })) ?? [],
  }
}

/** What went into a batch and what came out. The difference is loss in cooking and drying, trim, and error: it is shown, not judged. */
export type MassBalance = {
  readonly batch: string
  readonly plannedKg: number
  readonly inKg: number
  readonly packedKg: number
  readonly shippedKg: number
  readonly differenceKg: number
  /** Packed as percent of what went in; absent where nothing was weighed or packed. */
  readonly yieldPct?: number
  readonly lines: readonly {
    readonly line: string
    readonly material: string
    readonly targetKg: number
    readonly kg: number
    readonly lots: readonly { readonly lot: string; readonly kg: number }[]
  }[]
}

export async function massBalance(store: Store, batch: string): Promise<MassBalance | undefined> {
  const [facts] = await batchesNamed(store, [batch])
  if (!facts) return undefined
  const rows = await store.read
    .selectFrom('fact as f')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .leftJoin('movement as m', 'm.seq', 'f.seq')
    .select(['f.part', 'e.text', 'm.lot'])
    .where('f.subject', '=', batch)
    .where('f.kind', '=', 'batch.weigh')
    .orderBy('f.root')
    .execute()
  const weighed = rows.map((r) => ({
    line: r.part,
    lot: r.lot,
    mg: Math.round((JSON.parse(r.text) as { body: { kg: number } }).body.kg * 1e6),
  }))
  const sum = (list: readonly { mg: number }[]) => kilograms(list.reduce((mg, w) => mg + w.mg, 0))
  const packs = await packsOf(store, [batch])
  const packedKg = kilograms(packs.reduce((mg, p) => mg + Math.round(p.totalKg * 1e6), 0))
  const inKg = sum(weighed)
  return {
    batch,
    plannedKg: kilograms(facts.lines.reduce((mg, l) => mg + Math.round(l.targetKg * 1e6), 0)),
    inKg,
    packedKg,
    shippedKg: kilograms(packs.reduce((mg, p) => mg + Math.round((p.totalKg * 1e6 * p.shippedCount) / p.count), 0)),
    differenceKg: kilograms(Math.round((inKg - packedKg) * 1e6)),
    ...(inKg > 0 && packedKg > 0 ? { yieldPct: (100 * packedKg) / inKg } : {}),
    lines: facts.lines.map(({ line, material, targetKg }) => {
      const mine = weighed.filter((w) => w.line === line)
      const lots = Map.groupBy(
        mine.filter((w) => w.lot !== null),
        (w) => w.lot!,
      )
      return { line, material, targetKg, kg: sum(mine), lots: [...lots].map(([lot, list]) => ({ lot, kg: sum(list) })) }
    }),
  }
}
