import { sql as fragment } from 'kysely'
import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import type { Entry, FactKind } from '../facts.ts'
import { kilograms } from '../views/project.ts'
import { containing, within } from './entries.ts'
import { recorded, type Recorded, type RecordedFact } from './facts-of.ts'

/** A lot as it was received, with what is left of it. */
export type LotFacts = RecordedFact<'lot.receive'> & { readonly balanceKg: number }

export type LotsQuery = {
  /** Text in the code, the material or the supplier. */
  readonly q?: string
  readonly limit?: number
  /** Code of the last lot of the page before. */
  readonly after?: string
  /** Leave out lots that are used up. */
  readonly withBalanceOnly?: boolean
  readonly material?: string
}

type Row = { text: string; hash: string; root: number; balance_mg: number }
export const lotFacts = (row: Row): LotFacts => ({
  ...recorded<'lot.receive'>(fromText(row.text, row.hash), row.root),
  balanceKg: kilograms(row.balance_mg),
})

const selection = (store: Store) =>
  store.read
    .selectFrom('lot as l')
    .innerJoin('entry as e', 'e.seq', 'l.seq')
    .select(['e.text', 'e.hash', 'l.root', 'l.balance_mg'])

/** Lots, the one received last first. */
export async function listLots(store: Store, query: LotsQuery = {}): Promise<LotFacts[]> {
  let rows = selection(store).orderBy('l.root', 'desc').limit(within(query.limit, 200))
  if (query.withBalanceOnly) rows = rows.where('l.balance_mg', '<>', 0)
  if (query.material !== undefined) rows = rows.where('l.material', '=', query.material)
  if (query.after !== undefined)
    rows = rows.where('l.root', '<', store.read.selectFrom('lot').select('root').where('lot', '=', query.after))
  if (query.q) {
    const pattern = containing(query.q)
    rows = rows.where(
      fragment<boolean>`(lower(l.lot) like ${pattern} escape '\\' or lower(l.material) like ${pattern} escape '\\' or lower(coalesce(l.supplier, '')) like ${pattern} escape '\\')`,
    )
  }
  return (await rows.execute()).map(lotFacts)
}

/** Lots by code; those the record does not have are left out. */
export async function lotsNamed(store: Store, lots: readonly string[]): Promise<LotFacts[]> {
  if (lots.length === 0) return []
  return (await selection(store).where('l.lot', 'in', lots).orderBy('l.root').execute()).map(lotFacts)
}

/** Lots with something left whose use-by date is on or before a day; the nearest first. */
export async function lotsToUseBy(store: Store, day: string, limit = 200): Promise<LotFacts[]> {
  const rows = selection(store)
    .where('l.balance_mg', '<>', 0)
    .where('l.use_by', '<=', day)
    .orderBy('l.use_by')
    .orderBy('l.root')
    .limit(limit)
  return (await rows.execute()).map(lotFacts)
}

/** One line of a lot's account: `kg` in (positive) or out, and what is left after it. */
export type Movement = Recorded & {
  readonly kind: FactKind
  readonly kg: number
  readonly balanceKg: number
  readonly on?: string
  readonly batch?: string
  readonly line?: string
  readonly reason?: string
  readonly note?: string
}

export async function lotOf(
  store: Store,
  lot: string,
): Promise<(LotFacts & { readonly movements: readonly Movement[] }) | undefined> {
  const [found] = await lotsNamed(store, [lot])
  if (!found) return undefined
  const rows = await store.read
    .selectFrom('movement as m')
    .innerJoin('entry as e', 'e.seq', 'm.seq')
    .select(['e.text', 'e.hash', 'm.root', 'm.mg', 'm.batch', 'm.day'])
    .where('m.lot', '=', lot)
    .orderBy('m.root')
    .execute()
  let left = 0
  const movements = rows.map((row): Movement => {
    const entry: Entry = fromText(row.text, row.hash)
    left += row.mg
    return {
      seq: entry.seq,
      root: row.root,
      at: entry.at,
      by: entry.by,
      kind: entry.kind,
      kg: kilograms(row.mg),
      balanceKg: kilograms(left),
      ...(row.day === null ? {} : { on: row.day }),
      ...(row.batch === null ? {} : { batch: row.batch }),
      ...(entry.kind === 'batch.weigh' ? { line: entry.body.line } : {}),
      ...(entry.kind === 'lot.adjust' ? { reason: entry.body.reason } : {}),
      ...('note' in entry.body && entry.body.note !== undefined ? { note: entry.body.note } : {}),
    }
  })
  return { ...found, movements }
}
