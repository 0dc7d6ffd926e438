import { canonical, sha256 } from './canonical.ts'
import type { Sql } from './dialect/store.ts'
import type { Draft, Entry } from './facts.ts'
import type { EntryTable } from './tables.ts'

/** An entry before its hash is known. */
export type Unsealed = Draft & Pick<Entry, 'seq' | 'at' | 'prev' | 'clock'>

/** Canonical text of the entry without its hash, and the hash over it. */
export function seal(entry: Unsealed): { readonly text: string; readonly hash: string } {
  const text = canonical(entry)
  return { text, hash: sha256(text) }
}

export const fromText = (text: string, hash: string): Entry => ({ ...JSON.parse(text), hash }) as Entry

export type Head = { readonly seq: number; readonly hash: string; readonly at: string }

/** The last entry there is, or nothing in an empty record. */
export async function readHead(sql: Sql): Promise<Head | undefined> {
  const [row] = await sql.all<Head>('select seq, hash, at from entry order by seq desc limit 1')
  return row
}

export async function insertEntry(sql: Sql, entry: Entry, text: string): Promise<void> {
  await sql.run(
    'insert into entry (seq, at, author, kind, send_key, prev, hash, text) values (?, ?, ?, ?, ?, ?, ?, ?)',
    [entry.seq, entry.at, entry.by, entry.kind, entry.key ?? null, entry.prev, entry.hash, text],
  )
}

export type Standing = { readonly entry: Entry; readonly root: number | null }

/** One entry, with the root of its line where it still stands; `root` is null once corrected or withdrawn. */
export async function standing(sql: Sql, seq: number): Promise<Standing | undefined> {
  const [row] = await sql.all<Pick<EntryTable, 'text' | 'hash'> & { root: number | null }>(
    'select e.text, e.hash, f.root from entry e left join fact f on f.seq = e.seq where e.seq = ?',
    [seq],
  )
  return row && { entry: fromText(row.text, row.hash), root: row.root }
}

/** The body of the fact of `kind` that stands for `subject`: the first of its kind, such as the plan of a batch. */
export async function bodyOf<T>(sql: Sql, kind: Entry['kind'], subject: string): Promise<T | undefined> {
  const [row] = await sql.all<Pick<EntryTable, 'text'>>(
    'select e.text from fact f join entry e on e.seq = f.seq where f.subject = ? and f.kind = ? order by f.root limit 1',
    [subject, kind],
  )
  return row && (JSON.parse(row.text) as { body: T }).body
}
