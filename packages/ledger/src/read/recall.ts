import type { Store } from '../dialect/store.ts'
import { kilograms } from '../views/project.ts'
import { batchesNamed, type BatchFacts } from './batches.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'
import { follow, type Step } from './follow.ts'
import { lotsNamed, type LotFacts } from './lots.ts'
import { massBalances, type MassBalance } from './mass-balance.ts'
import { packOf, packsOf, type PackFacts } from './packs.ts'

export type RecallSubject = { readonly type: 'lot' | 'pack' | 'batch'; readonly id: string }
export type Business = RecordedFact<'business.add'>
export type Drill = RecordedFact<'recall.drill'>

/** One consignment that left: what, how much, to whom, when. */
export type Consignment = {
  readonly seq: number
  readonly pack: string
  readonly batch: string
  readonly recipe: string
  readonly to: string
  /** The customer as the kitchen keeps it, where the name or code is known. */
  readonly customer?: Business
  readonly on: string
  readonly count: number
  readonly kg: number
  readonly useBy?: string
}

/** What a recall has to find: everything a lot, a pack or a batch went into, and how much of it is accounted for. */
export type Recall = {
  readonly subject: RecallSubject
  readonly level: {
    readonly lots: Readonly<Record<string, number>>
    readonly batches: Readonly<Record<string, number>>
  }
  readonly lots: readonly LotFacts[]
  readonly batches: readonly (BatchFacts & { readonly balance: MassBalance })[]
  readonly packs: readonly PackFacts[]
  readonly consignments: readonly Consignment[]
  readonly customers: readonly {
    readonly name: string
    readonly count: number
    readonly kg: number
    readonly customer?: Business
  }[]
  readonly steps: readonly Step[]
  /** What the subject itself was made of, back to the door: where the cause may lie. */
  readonly behind: {
    readonly lots: readonly LotFacts[]
    readonly batches: readonly string[]
    readonly steps: readonly Step[]
  }
  readonly suppliers: readonly { readonly name: string; readonly supplier?: Business }[]
  readonly quantity: {
    readonly packs: number
    readonly shipped: number
    readonly here: number
    readonly packedKg: number
    readonly shippedKg: number
    readonly hereKg: number
    /** Of the lots affected: left in stock, as weight. */
    readonly stockKg: number
    /** Of the batches affected: weighed in, and neither packed nor taken as rework. At most so much is there unpacked, for losses are in it. */
    readonly notPackedKg: number
    /** Packs that left more than once or more than there were: what the record cannot account for. */
    readonly unaccountedPacks: number
  }
}

const listOf = (known: ReadonlyMap<string, number>): Record<string, number> => Object.fromEntries(known)

async function startOf(
  store: Store,
  { type, id }: RecallSubject,
): Promise<{ lots?: string[]; batches?: string[] } | undefined> {
  if (type === 'lot') return (await lotsNamed(store, [id])).length > 0 ? { lots: [id] } : undefined
  if (type === 'batch') return (await batchesNamed(store, [id])).length > 0 ? { batches: [id] } : undefined
  const pack = await packOf(store, id)
  return pack && { batches: [pack.batch] }
}

const finder = (businesses: readonly Business[]) => {
  const by = new Map(
    businesses.flatMap(
      (b) =>
        [
          [b.business.toLowerCase(), b],
          [b.name.trim().toLowerCase(), b],
        ] as const,
    ),
  )
  return (name: string): Business | undefined => by.get(name.trim().toLowerCase())
}

const packKg = (p: PackFacts, count: number): number => kilograms(Math.round((p.totalKg * 1e6 * count) / p.count))

/** Follow a lot, a pack or a batch to everything it is in, and account for it. `undefined` where the record has no such thing. */
export async function recall(store: Store, subject: RecallSubject): Promise<Recall | undefined> {
  const start = await startOf(store, subject)
  if (!start) return undefined
  const [ahead, back] = [await follow(store, 'forward', start), await follow(store, 'back', start)]
  const batchCodes = [...ahead.batches.keys()]
  const lots = await lotsNamed(store, [...ahead.lots.keys()])
  const packs = await packsOf(store, batchCodes)
  const facts = await batchesNamed(store, batchCodes)
  const balances = await massBalances(store, facts, packs)
  const batches = facts.map((b) => ({ ...b, balance: balances.get(b.batch)! }))
  const businessOf = finder(await factsOf(store, 'business.add'))
  const recipes = new Map(facts.map((b) => [b.batch, b.recipeName]))
  const consignments = packs
    .flatMap((p) =>
      p.shipments.map((s): Consignment => {
        const customer = businessOf(s.to)
        return {
          seq: s.seq,
          pack: p.pack,
          batch: p.batch,
          recipe: recipes.get(p.batch) ?? p.batch,
          to: customer?.name ?? s.to,
          ...(customer ? { customer } : {}),
          on: s.on,
          count: s.count,
          kg: packKg(p, s.count),
          ...(p.useBy === undefined ? {} : { useBy: p.useBy }),
        }
      }),
    )
    .toSorted((a, b) => a.to.localeCompare(b.to) || a.on.localeCompare(b.on) || a.seq - b.seq)
  const customers = [...Map.groupBy(consignments, (c) => c.to)].map(([name, all]) => ({
    name,
    count: all.reduce((n, c) => n + c.count, 0),
    kg: Number(all.reduce((kg, c) => kg + c.kg, 0).toFixed(6)),
    ...(all[0]!.customer ? { customer: all[0]!.customer } : {}),
  }))
  const behind = await lotsNamed(store, [...back.lots.keys()])
  const sum = (f: (p: PackFacts) => number) => packs.reduce((s, p) => s + f(p), 0)
  const kg = (f: (p: PackFacts) => number) => Number(sum(f).toFixed(6))
  return {
    subject,
    level: { lots: listOf(ahead.lots), batches: listOf(ahead.batches) },
    lots,
    batches,
    packs,
    consignments,
    customers,
    steps: ahead.steps,
    behind: { lots: behind, batches: [...back.batches.keys()], steps: back.steps },
    suppliers: [...new Set(behind.flatMap((l) => l.supplier ?? []))].sort().map((name) => {
      const supplier = businessOf(name)
      return { name: supplier?.name ?? name, ...(supplier ? { supplier } : {}) }
    }),
    quantity: {
      packs: sum((p) => p.count),
      shipped: sum((p) => p.shippedCount),
      here: sum((p) => Math.max(0, p.hereCount)),
      packedKg: kg((p) => p.totalKg),
      shippedKg: kg((p) => packKg(p, p.shippedCount)),
      hereKg: kg((p) => packKg(p, Math.max(0, p.hereCount))),
      stockKg: Number(lots.reduce((s, l) => s + Math.max(0, l.balanceKg), 0).toFixed(6)),
      notPackedKg: Number(batches.reduce((s, b) => s + Math.max(0, b.balance.differenceKg), 0).toFixed(6)),
      unaccountedPacks: sum((p) => Math.max(0, -p.hereCount)),
    },
  }
}
