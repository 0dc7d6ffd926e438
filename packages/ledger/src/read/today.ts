import type { Store } from '../dialect/store.ts'
import type { BatchState } from '../tables.ts'
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
  /** How many more batches are on the way, and on hold, than are listed; counted up to a thousand. */
  readonly more: { readonly batches: number; readonly holds: number }
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

const onTheWayStates = ['planned', 'weighing', 'made', 'released'] as const
/** Batches listed of each, and how many of the others are counted. */
const listed = 100
const counted = 1000

async function moreThanListed(store: Store, states: readonly BatchState[]): Promise<number> {
  const rows = await store.read
    .selectFrom('batch')
    .select('batch')
    .where('state', 'in', states)
    .limit(listed + counted)
    .execute()
  return Math.max(0, rows.length - listed)
}

export async function todayOf(store: Store, on: string): Promise<Today> {
  const onTheWay = await listBatches(store, { state: onTheWayStates, limit: listed })
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
    holds: await listBatches(store, { state: 'held', limit: listed }),
    more: { batches: await moreThanListed(store, onTheWayStates), holds: await moreThanListed(store, ['held']) },
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
