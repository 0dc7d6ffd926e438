import type { Store } from '../dialect/store.ts'
import { kilograms } from '../views/project.ts'
import { batchesNamed, type BatchFacts } from './batches.ts'
import { follow, type Step } from './follow.ts'
import { lotsNamed, type LotFacts } from './lots.ts'
import { massBalance } from './mass-balance.ts'
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
  readonly kg: {
    /** As it came in at the door, was split off, or came back as rework. */
    readonly received: number
    readonly used: number
    readonly adjusted: number
    /** Split off into lots of their own. */
    readonly splitOff: number
    readonly left: number
  }
  /** Further steps: parts split off, rework, and what those went into. */
  readonly beyond: readonly Step[]
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
  const totalOf = (kind: string, sign: 1 | -1) =>
    kilograms(sums.reduce((mg, s) => (s.kind === kind && s.mg * sign > 0 ? mg + s.mg : mg), 0))
  const total = (kind: string) => kilograms(sums.reduce((mg, s) => (s.kind === kind ? mg + s.mg : mg), 0))
  const { steps } = await follow(store, 'forward', { lots: [lot] })
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
      received: total('lot.receive') + totalOf('lot.split', 1) + total('lot.rework'),
      used: -total('batch.weigh') + 0,
      adjusted: total('lot.adjust'),
      splitOff: -totalOf('lot.split', -1) + 0,
      left: facts.balanceKg,
    },
    beyond: steps.filter((s) => !(s.from.type === 'lot' && s.from.id === lot && s.to.type === 'batch')),
  }
}

/** Where a pack came from: its batch, the lots in it with how much of each, and who sold them. */
export type PackTrace = {
  readonly pack: PackFacts
  readonly batch: BatchFacts
  readonly lots: readonly (LotFacts & { readonly kgInBatch: number })[]
  readonly suppliers: readonly string[]
  /** Lots and batches further back, through splits and rework, each with how many steps away; and the steps. */
  readonly behind: {
    readonly lots: readonly (LotFacts & { readonly level: number })[]
    readonly batches: readonly (BatchFacts & { readonly level: number })[]
    readonly steps: readonly Step[]
  }
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
  const back = await follow(store, 'back', { batches: [batch.batch] })
  const direct = new Set(lots.map((l) => l.lot))
  const further = await lotsNamed(
    store,
    [...back.lots.keys()].filter((l) => !direct.has(l)),
  )
  const others = await batchesNamed(
    store,
    [...back.batches.keys()].filter((b) => b !== batch.batch),
  )
  return {
    pack: facts,
    batch,
    lots: lots.map((l) => ({ ...l, kgInBatch: kilograms(-(sums.find((s) => s.lot === l.lot)?.mg ?? 0)) })),
    suppliers: [...new Set([...lots, ...further].flatMap((l) => l.supplier ?? []))].sort(),
    behind: {
      lots: further.map((l) => ({ ...l, level: back.lots.get(l.lot) ?? 0 })),
      batches: others.map((b) => ({ ...b, level: back.batches.get(b.batch) ?? 0 })),
      steps: back.steps,
    },
    withoutLot:
      balance?.lines
        .filter((l) => l.lots.length === 0 && l.kg > 0)
        .map(({ line, material, kg }) => ({ line, material, kg })) ?? [],
  }
}
