import { sql as fragment } from 'kysely'
import type { Store } from '../dialect/store.ts'
import { fromText, readHead } from '../entry.ts'
import type { Entry, FactKind } from '../facts.ts'

/** An entry, and whether it still stands. */
export type ListedEntry = Entry & {
  readonly standing: 'stands' | 'corrected' | 'withdrawn'
  readonly supersededBy?: number
  /** What it speaks of, as `type:id`. */
  readonly about: readonly string[]
}

export type EntriesQuery = {
  /** Only entries past this number in the order asked for. */
  readonly after?: number
  /** 1 to 1000; 100 unless told. */
  readonly limit?: number
  readonly kind?: FactKind | readonly FactKind[]
  /** What the entries speak of: `lot:BEEF-1`, `person:anna`, or a bare code of any type. */
  readonly about?: string
  /** Text anywhere in the entry, whatever the case. */
  readonly q?: string
  readonly order?: 'asc' | 'desc'
}

export const within = (limit: number | undefined, usual: number, most = 1000): number =>
  Math.min(most, Math.max(1, Math.trunc(limit ?? usual) || usual))

/** `like` pattern that finds the text itself. */
export const containing = (q: string): string => `%${q.toLowerCase().replaceAll(/[\\%_]/g, (c) => `\\${c}`)}%`

export async function listEntries(store: Store, query: EntriesQuery = {}): Promise<ListedEntry[]> {
  const { after, kind, about, q, order = 'asc' } = query
  let rows = store.read
    .selectFrom('entry as e')
    .leftJoin('superseded as s', 's.seq', 'e.seq')
    .select(['e.seq', 'e.text', 'e.hash', 's.by_seq', 's.how'])
    .orderBy('e.seq', order)
    .limit(within(query.limit, 100))
  if (after !== undefined) rows = rows.where('e.seq', order === 'asc' ? '>' : '<', after)
  if (kind !== undefined) rows = rows.where('e.kind', 'in', typeof kind === 'string' ? [kind] : kind)
  if (about !== undefined) {
    const [type, ...rest] = about.includes(':') ? about.split(':') : [undefined, about]
    const id = rest.join(':')
    const [way, cut] = [order === 'asc' ? ('>' as const) : ('<' as const), kind === undefined && !q]
    // Where nothing else is asked, as many mentions as entries are enough; an entry has one for each type of thing a code may name.
    const spoken = store.read
      .selectFrom('about as a')
      .select('a.seq')
      .where('a.id', '=', id)
      .$if(type !== undefined, (s) => s.where('a.type', '=', type!))
      .$if(after !== undefined, (s) => s.where('a.seq', way, after!))
      .$if(cut, (s) => s.orderBy('a.seq', order).limit(within(query.limit, 100) * 16))
    const written = store.read
      .selectFrom('entry as w')
      .select('w.seq')
      .where('w.author', '=', id)
      .$if(after !== undefined, (s) => s.where('w.seq', way, after!))
      .$if(cut, (s) => s.orderBy('w.seq', order).limit(within(query.limit, 100)))
    const byHand = type === undefined || type === 'person'
    rows = rows.where((e) =>
      e.or([
        e('e.seq', 'in', store.read.selectFrom(spoken.as('m')).select('m.seq')),
        ...(byHand ? [e('e.seq', 'in', store.read.selectFrom(written.as('h')).select('h.seq'))] : []),
      ]),
    )
  }
  if (q !== undefined && q !== '') rows = rows.where(fragment<boolean>`lower(e.text) like ${containing(q)} escape '\\'`)
  const found = await rows.execute()
  const subjects = new Map<number, string[]>()
  if (found.length > 0) {
    const spoken = await store.read
      .selectFrom('about')
      .selectAll()
      .where(
        'seq',
        'in',
        found.map((r) => r.seq),
      )
      .execute()
    for (const { seq, type, id } of spoken) subjects.set(seq, [...(subjects.get(seq) ?? []), `${type}:${id}`])
  }
  return found.map((row) => ({
    ...fromText(row.text, row.hash),
    standing: row.how ?? 'stands',
    ...(row.by_seq === null ? {} : { supersededBy: row.by_seq }),
    about: subjects.get(row.seq) ?? [],
  }))
}

export async function oneEntry(store: Store, seq: number): Promise<ListedEntry | undefined> {
  const [found] = await listEntries(store, { after: seq - 1, limit: 1 })
  return found?.seq === seq ? found : undefined
}

/** How far the record goes: its number of entries and the hash that pins them all. */
export type HeadOfRecord = { readonly entries: number; readonly head: string | null; readonly at: string | null }

export async function headOf(store: Store): Promise<HeadOfRecord> {
  const head = await readHead(store.sql)
  return { entries: head?.seq ?? 0, head: head?.hash ?? null, at: head?.at ?? null }
}
