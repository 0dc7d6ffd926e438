import { sql as fragment } from 'kysely'
import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import type { Entry, FactKind } from '../facts.ts'
import { kilograms } from '../views/project.ts'
import { containing, within } from './entries.ts'
import { inParts } from './in-parts.ts'
import { factsOf, recorded, type Recorded, type RecordedFact } from './facts-of.ts'

/** Where a lot came from where it did not come in at the door: a larger lot, or a batch as rework. */
export type LotOrigin = { readonly lot: string } | { readonly batch: string; readonly allergens?: readonly string[] }

/** A lot as it came to be, with what is left of it. A part of a larger lot has that lot's facts, with its own code, weight and day. */
export type LotFacts = RecordedFact<'lot.receive'> & {
  readonly balanceKg: number
  readonly origin?: LotOrigin
}

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

/** The facts of a row; a part of a lot takes the rest from the lot it was split off. */
function lotFacts(row: Row, whole?: LotFacts): LotFacts {
  const entry = fromText(row.text, row.hash)
  const balanceKg = kilograms(row.balance_mg)
  if (entry.kind === 'lot.split' && whole) {
    const { note: _, place: _was, ...shared } = whole
    const { from, ...own } = recorded<'lot.split'>(entry, row.root)
    return { ...shared, ...own, origin: { lot: from }, balanceKg }
  }
  if (entry.kind === 'lot.rework') {
    const { batch, allergens, ...own } = recorded<'lot.rework'>(entry, row.root)
    const { fatPct } = own
    return {
      ...own,
      ...(fatPct === undefined ? {} : { fatBasis: 'estimated' as const }),
      origin: { batch, ...(allergens === undefined ? {} : { allergens }) },
      balanceKg,
    }
  }
  return { ...recorded<'lot.receive'>(entry, row.root), balanceKg }
}

const wholeOf = (row: Row): string | undefined => {
  const { kind, body } = JSON.parse(row.text) as { kind: string; body: { from?: string } }
  return kind === 'lot.split' ? body.from : undefined
}

/** Rows as facts, in their order; lots they were split off are read with them, however deep. */
async function asFacts(store: Store, rows: readonly Row[]): Promise<LotFacts[]> {
  const wholes = [...new Set(rows.map(wholeOf))].filter((l) => l !== undefined)
  const known = new Map(wholes.length === 0 ? [] : (await lotsNamed(store, wholes)).map((l) => [l.lot, l]))
  const moved = await placesOf(store, rows)
  return rows.map((row) => {
    const facts = lotFacts(row, known.get(wholeOf(row) ?? ''))
    const place = moved.get(facts.lot)
    return place === undefined ? facts : { ...facts, place }
  })
}

/** Where lots were put last, by the moves recorded of them. */
async function placesOf(store: Store, rows: readonly Row[]): Promise<Map<string, string>> {
  const lots = rows.map((r) => (JSON.parse(r.text) as { body: { lot: string } }).body.lot)
  if (lots.length === 0) return new Map()
  return new Map((await factsOf(store, 'lot.move', lots)).map((m) => [m.lot, m.place]))
}

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
  return asFacts(store, await rows.execute())
}

/** Lots by code; those the record does not have are left out. */
export async function lotsNamed(store: Store, lots: readonly string[]): Promise<LotFacts[]> {
  const asked = (part: readonly string[]) => selection(store).where('l.lot', 'in', part).orderBy('l.root').execute()
  return asFacts(store, await inParts(lots, asked, (row) => row.root))
}

/** Lots with something left whose use-by date is on or before a day; the nearest first. */
export async function lotsToUseBy(store: Store, day: string, limit = 200): Promise<LotFacts[]> {
  const rows = selection(store)
    .where('l.balance_mg', '<>', 0)
    .where('l.use_by', '<=', day)
    .orderBy('l.use_by')
    .orderBy('l.root')
    .limit(limit)
  return asFacts(store, await rows.execute())
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
  /** Of a split: the lot taken from and the lot made. Of rework: the batch. */
  readonly from?: string
  readonly into?: string
  readonly note?: string
}

/** A lot with everything that moved, and how its meat was made safe: its own treatments and those of the lots it is a part of. */
export type LotRecord = LotFacts & {
  readonly movements: readonly Movement[]
  readonly treatments: readonly RecordedFact<'lot.treat'>[]
}

/** A lot and the larger lots it was taken off, the largest last. */
async function partsUpFrom(store: Store, found: LotFacts): Promise<string[]> {
  const up = [found.lot]
  let at: LotFacts | undefined = found
  while (at?.origin && 'lot' in at.origin && !up.includes(at.origin.lot)) {
    up.push(at.origin.lot)
    at = (await lotsNamed(store, [at.origin.lot]))[0]
  }
  return up
}

export async function lotOf(store: Store, lot: string): Promise<LotRecord | undefined> {
  const [found] = await lotsNamed(store, [lot])
  if (!found) return undefined
  const treatments = await factsOf(store, 'lot.treat', await partsUpFrom(store, found))
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
      ...(entry.kind === 'lot.split' ? { from: entry.body.from, into: entry.body.lot } : {}),
      ...(entry.kind === 'lot.rework' ? { from: entry.body.batch } : {}),
      ...('note' in entry.body && entry.body.note !== undefined ? { note: entry.body.note } : {}),
    }
  })
  return { ...found, movements, treatments }
}
