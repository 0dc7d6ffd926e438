import type { Entry } from '../facts.ts'
import { fromText } from '../entry.ts'
import type { Store } from '../dialect/store.ts'
import { daysOfCurve, daysOfMeasure, daysOfTreatment, type Span } from './days-of-use.ts'
import { zoneIn } from './slow.ts'
import { ofKind } from './facts-of.ts'
import { follow } from './follow.ts'
import { inParts } from './in-parts.ts'

/** Days an instrument is asked about; from the beginning where no `since` is given. */
export type Days = { readonly since?: string; readonly found: string }

const inDays = ({ since, found }: Days, { from, to }: Span): boolean =>
  (since === undefined || since <= to) && from <= found

/** How batches used an instrument in a span of days. */
export type Used = {
  /** Used on a day of the span: weighed, read or logged, however old the batch was. */
  readonly byUse: ReadonlySet<string>
  /** Made of meat that was treated by it in the span. */
  readonly byMeat: ReadonlySet<string>
}

/** What is done with an instrument on the day of the batch itself; readings and curves say their own days. */
const onItsDay = ['batch.weigh', 'batch.plan'] as const

/** Entries that name an instrument and stand, with what they are about. */
const naming = (store: Store, instrument: string) =>
  store.read
    .selectFrom('about as a')
    .innerJoin('fact as f', 'f.seq', 'a.seq')
    .where('a.type', '=', 'instrument')
    .where('a.id', '=', instrument)

/** The last entry recorded before a day: nothing is recorded before it is done, so what was done since then stands after it. */
async function lastBefore(store: Store, day: string | undefined): Promise<number> {
  if (day === undefined) return 0
  const row = await store.read
    .selectFrom('entry')
    .select('seq')
    .where('at', '<', day)
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row?.seq ?? 0
}

async function readAndLogged(store: Store, instrument: string, after: number): Promise<Entry[]> {
  const rows = await naming(store, instrument)
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .select(['e.text', 'e.hash'])
    .where('a.seq', '>', after)
    .where((e) => e.or([ofKind('batch.measure'), ofKind('batch.curve'), ofKind('lot.treat')]))
    .execute()
  return rows.map((r) => fromText(r.text, r.hash))
}

/**
 * Batches that used an instrument on some days. Weighings are of a batch's own day, so only the batches of those days are looked at for
 * them, for an instrument may be in every batch there is; a reading or a curve is of the day it was taken, and only what was recorded since
 * can be of one of those days.
 */
export async function usedInSpan(store: Store, instrument: string, days: Days): Promise<Used> {
  let own = store.read.selectFrom('batch').select('batch').where('day', '<=', days.found)
  if (days.since !== undefined) own = own.where('day', '>=', days.since)
  const rows = await inParts(
    (await own.execute()).map((r) => r.batch),
    (part) =>
      store.read
        .selectFrom('fact as f')
        .innerJoin('about as a', 'a.seq', 'f.seq')
        .select('f.subject')
        .distinct()
        .where('f.subject', 'in', part)
        .where('f.kind', 'in', onItsDay)
        .where('a.type', '=', 'instrument')
        .where('a.id', '=', instrument)
        .execute(),
  )
  const byUse = new Set(rows.map((r) => r.subject))
  const treated = new Set<string>()
  const entries = await readAndLogged(store, instrument, await lastBefore(store, days.since))
  const dayOf = await madeOn(
    store,
    entries.flatMap((e) => (e.kind === 'batch.curve' ? [e.body.batch] : [])),
  )
  const zone = await zoneIn(store)
  for (const e of entries) {
    if (e.kind === 'batch.measure' && inDays(days, daysOfMeasure(e.body, zone))) byUse.add(e.body.batch)
    if (e.kind === 'batch.curve' && inDays(days, daysOfCurve(dayOf.get(e.body.batch) ?? e.at.slice(0, 10), e)))
      byUse.add(e.body.batch)
    if (e.kind === 'lot.treat' && inDays(days, daysOfTreatment(e.body))) treated.add(e.body.lot)
  }
  const made = treated.size === 0 ? undefined : await follow(store, 'forward', { lots: [...treated] })
  return { byUse, byMeat: new Set(made?.batches.keys()) }
}

async function madeOn(store: Store, batches: readonly string[]): Promise<Map<string, string>> {
  const rows = await inParts(batches, (part) =>
    store.read.selectFrom('batch').select(['batch', 'day']).where('batch', 'in', part).execute(),
  )
  return new Map(rows.map((r) => [r.batch, r.day]))
}
