import type { Kysely } from 'kysely'
import type { Tables } from '../tables.ts'

export type Value = string | number | null | Uint8Array

/** Statements with `?` for each value. The same text is prepared once. */
export type Sql = {
  readonly run: (text: string, values?: readonly Value[]) => Promise<void>
  readonly all: <T>(text: string, values?: readonly Value[]) => Promise<T[]>
}

/** The words in which databases differ when a table is made. */
export type ColumnTypes = {
  readonly int: string
  readonly text: string
  readonly blob: string
  /** After the closing bracket of a table, and of a table stored in the order of its key. */
  readonly table: string
  readonly keyed: string
}

/** What the ledger asks of a database. `dialect/sqlite.ts` is the one place that knows which it is. */
export type Store = {
  readonly types: ColumnTypes
  /** Committed rows only, by the query builder and by text. */
  readonly read: Kysely<Tables>
  readonly sql: Sql
  /** One at a time: begin, do the work, commit with the disk's word for it; roll back on any throw. Reads inside see its own writes. */
  readonly transaction: <T>(work: (sql: Sql) => Promise<T>) => Promise<T>
  /** Statements that make the database itself refuse to change or delete an entry or a file. */
  readonly guards: readonly string[]
  /** Names of tables, or none for a new file. */
  readonly tableNames: () => Promise<string[]>
  /** Definitions of every table and index, for the snapshot of the schema. */
  readonly schema: () => Promise<string[]>
  /** Damage the database finds in itself, as it words it; empty when sound. */
  readonly damage: (depth: 'quick' | 'full') => Promise<string[]>
  /** A consistent copy into a new file while others write. */
  readonly copyTo: (file: string, progress?: (done: number, total: number) => void) => Promise<void>
  /** Bytes on disk. */
  readonly size: () => number
  readonly close: () => Promise<void>
}
