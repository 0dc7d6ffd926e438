import type { Store } from '../dialect/store.ts'
import { batchOf, listBatches, type BatchFacts } from './batches.ts'
import { deviationsOf, type Deviation } from './deviations.ts'
import { touchedByDoubt, type Touched } from './doubt.ts'
import { daysAfter } from './facts-of.ts'
import { instrumentsOf, type InstrumentFacts } from './kitchen.ts'
import { lotsNamed, lotsToUseBy, type LotFacts } from './lots.ts'

/** Days ahead of its date from which a lot is shown. */
export const nearUseByDays = 3

/** What is in hand on a day. */
export type Today = {
  readonly on: string
  /** Batches on the way, each with what it waits for. */
  readonly batches: readonly (BatchFacts & { readonly waitsFor: readonly string[] })[]
  readonly holds: readonly BatchFacts[]
  /** Lots with something left, past their use-by date or within three days of it. */
  readonly lotsNearUseBy: readonly (LotFacts & { readonly daysLeft: number })[]
  /** Lots the record says are below nothing. */
  readonly lotsBelowZero: readonly LotFacts[]
  readonly instrumentsDue: readonly InstrumentFacts[]
  /** Deviations nobody has closed. */
  readonly deviations: readonly Deviation[]
  /** Instruments found out of tolerance, with the batches they touched before that nobody has dealt with. */
  readonly doubts: readonly Touched[]
}

export async function todayOf(store: Store, on: string): Promise<Today> {
  const onTheWay = await listBatches(store, { state: ['planned', 'weighing', 'made', 'released'], limit: 100 })
  const batches = []
  for (const b of onTheWay) batches.push({ ...b, waitsFor: (await batchOf(store, b.batch))?.waitsFor ?? [] })
  const near = await lotsToUseBy(store, daysAfter(on, nearUseByDays))
  const below = await store.read
    .selectFrom('lot')
    .select('lot')
    .where('balance_mg', '<', 0)
    .where('balance_mg', '<>', 0)
    .limit(100)
    .execute()
  return {
    on,
    batches,
    holds: await listBatches(store, { state: 'held', limit: 100 }),
    lotsNearUseBy: near.map((l) => ({
      ...l,
      daysLeft: Math.round((Date.parse(l.useBy!) - Date.parse(on)) / 86_400_000),
    })),
    lotsBelowZero: await lotsNamed(
      store,
      below.map((r) => r.lot),
    ),
    instrumentsDue: (await instrumentsOf(store, on)).filter(
      (i) => i.standing !== 'in-date' && i.standing !== 'retired',
    ),
    deviations: (await deviationsOf(store)).filter((d) => d.closed === undefined),
    doubts: (await touchedByDoubt(store))
      .map((d) => ({ ...d, batches: d.batches.filter((b) => b.settled === undefined) }))
      .filter((d) => d.batches.length > 0),
  }
}
