import type { Store } from '../dialect/store.ts'
import { kilograms } from '../views/project.ts'
import { batchesNamed, type BatchFacts } from './batches.ts'
import { ofKind } from './facts-of.ts'
import { inParts } from './in-parts.ts'
import { packsOf, type PackFacts } from './packs.ts'

/** What went into a batch and what came out. The difference is loss in cooking and drying, trim, and error: it is shown, not judged. */
export type MassBalance = {
  readonly batch: string
  readonly plannedKg: number
  readonly inKg: number
  readonly packedKg: number
  readonly shippedKg: number
  /** Taken out of the batch as lots of rework. */
  readonly reworkKg: number
  /** In, less packed and rework. */
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

type Weighed = { readonly line: string | null; readonly lot: string | null; readonly mg: number }

const weighings = (store: Store, batches: readonly string[]) =>
  store.read
    .selectFrom('fact as f')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .leftJoin('movement as m', 'm.seq', 'f.seq')
    .select(['f.subject', 'f.root', 'f.part', 'e.text', 'm.lot'])
    .where('f.subject', 'in', batches)
    .where(ofKind('batch.weigh'))
    .orderBy('f.root')
    .execute()

const reworked = (store: Store, batches: readonly string[]) =>
  store.read.selectFrom('origin').select(['from_batch', 'mg']).where('from_batch', 'in', batches).execute()

const sum = (list: readonly { readonly mg: number }[]): number => kilograms(list.reduce((mg, w) => mg + w.mg, 0))

function balanceOf(
  facts: BatchFacts,
  weighed: readonly Weighed[],
  packs: readonly PackFacts[],
  rework: readonly { readonly mg: number }[],
): MassBalance {
  const packedKg = kilograms(packs.reduce((mg, p) => mg + Math.round(p.totalKg * 1e6), 0))
  const [inKg, reworkKg] = [sum(weighed), sum(rework)]
  return {
    batch: facts.batch,
    plannedKg: kilograms(facts.lines.reduce((mg, l) => mg + Math.round(l.targetKg * 1e6), 0)),
    inKg,
    packedKg,
    shippedKg: kilograms(packs.reduce((mg, p) => mg + Math.round((p.totalKg * 1e6 * p.shippedCount) / p.count), 0)),
    reworkKg,
    differenceKg: kilograms(Math.round((inKg - packedKg - reworkKg) * 1e6)),
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

/** The balances of batches read before, by their codes: a recall asks for hundreds at once. */
export async function massBalances(
  store: Store,
  batches: readonly BatchFacts[],
  packs: readonly PackFacts[],
): Promise<Map<string, MassBalance>> {
  const codes = batches.map((b) => b.batch)
  const rows = await inParts(codes, (part) => weighings(store, part))
  const weighed = Map.groupBy(
    rows.map((r) => ({
      batch: r.subject,
      line: r.part,
      lot: r.lot,
      mg: Math.round((JSON.parse(r.text) as { body: { kg: number } }).body.kg * 1e6),
    })),
    (w) => w.batch,
  )
  const rework = Map.groupBy(await inParts(codes, (part) => reworked(store, part)), (r) => r.from_batch)
  const packed = Map.groupBy(packs, (p) => p.batch)
  return new Map(
    batches.map((b) => [
      b.batch,
      balanceOf(b, weighed.get(b.batch) ?? [], packed.get(b.batch) ?? [], rework.get(b.batch) ?? []),
    ]),
  )
}

export async function massBalance(store: Store, batch: string): Promise<MassBalance | undefined> {
  const facts = await batchesNamed(store, [batch])
  return (await massBalances(store, facts, await packsOf(store, [batch]))).get(batch)
}
