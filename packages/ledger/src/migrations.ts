import type { ColumnTypes, Store } from './dialect/store.ts'
import { RecordError } from './record-error.ts'
import { neededToFill, viewDefinitions, viewTables, viewVersion } from './tables.ts'

type Step = { readonly id: string; readonly sql: (types: ColumnTypes) => readonly string[] }

/** Steps are only ever added at the end and only ever add; each runs once, in its own transaction. */
export const steps: readonly Step[] = [
  {
    id: '0001-entries',
    sql: ({ int, text, table }) => [
      `create table entry (seq ${int} primary key check (seq >= 1), at ${text} not null, author ${text} not null,
        kind ${text} not null, send_key ${text} unique, prev ${text} not null check (length(prev) = 64),
        hash ${text} not null unique check (length(hash) = 64), text ${text} not null) ${table}`,
      `create index entry_by_author on entry (author, seq)`,
      `create index entry_by_kind on entry (kind, seq)`,
    ],
  },
  {
    id: '0002-files',
    sql: ({ int, text, blob, table }) => [
      `create table file (sha256 ${text} primary key check (length(sha256) = 64), bytes ${int} not null check (bytes >= 0),
        data ${blob} not null, at ${text} not null) ${table}`,
      `create table view_version (version ${text} not null) ${table}`,
    ],
  },
]

export type MigrateOptions = {
  readonly at: string
  /** Called before the first step is taken on a record that already holds something, to copy it. */
  readonly beforeChange?: (lastStep: string) => Promise<void>
  readonly steps?: readonly Step[]
}

/** Bring the stored tables up to date. @throws RecordError `newer-file` when the file knows steps this program does not. */
export async function migrate(store: Store, options: MigrateOptions): Promise<void> {
  const wanted = options.steps ?? steps
  const fresh = !(await store.tableNames()).includes('migration')
  const done = fresh
    ? []
    : (await store.sql.all<{ id: string }>('select id from migration order by id')).map((r) => r.id)
  const unknown = done.filter((id) => !wanted.some((s) => s.id === id))
  if (unknown.length > 0)
    throw new RecordError(
      'newer-file',
      `this record was written by a newer version of the program (it holds ${unknown.join(', ')}); open it with that version or a later one. Nothing was changed.`,
    )
  const pending = wanted.filter((s) => !done.includes(s.id))
  if (pending.length === 0) return
  if (done.length > 0) await options.beforeChange?.(done.at(-1)!)
  const { text, table } = store.types
  if (fresh)
    await store.transaction((sql) =>
      sql.run(`create table if not exists migration (id ${text} primary key, at ${text} not null) ${table}`),
    )
  for (const step of pending)
    await store.transaction(async (sql) => {
      // Another program may have taken the step while this one waited for the lock.
      if ((await sql.all('select id from migration where id = ?', [step.id])).length > 0) return
      for (const statement of step.sql(store.types)) await sql.run(statement)
      if (step.id === '0002-files') for (const guard of store.guards) await sql.run(guard)
      await sql.run('insert into migration (id, at) values (?, ?)', [step.id, options.at])
    })
}

type Statements = Parameters<Parameters<Store['transaction']>[0]>[0]

const isLater = (statement: string): boolean =>
  statement.startsWith('create index') && !neededToFill.some((name) => statement.includes(` ${name} `))

/** Make the derived tables anew and empty; inside a transaction that fills them, and ends with `indexViews`. */
export async function remakeViews(store: Store, sql: Statements): Promise<void> {
  for (const name of viewTables.toReversed()) await sql.run(`drop table if exists ${name}`)
  for (const statement of viewDefinitions(store.types)) if (!isLater(statement)) await sql.run(statement)
  await sql.run('delete from view_version')
  await sql.run('insert into view_version (version) values (?)', [viewVersion])
}

/** The indexes that wait until the derived tables are full. */
export async function indexViews(store: Store, sql: Statements): Promise<void> {
  for (const statement of viewDefinitions(store.types)) if (isLater(statement)) await sql.run(statement)
}
