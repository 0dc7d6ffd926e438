import { accessSync, constants, existsSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import type BetterSqlite3 from 'better-sqlite3'
import { Kysely, SqliteDialect } from 'kysely'
import { requireNode } from '../node-version.ts'
import { RecordError } from '../record-error.ts'
import type { Tables } from '../tables.ts'
import type { Sql, Store, Value } from './store.ts'

const types = { int: 'integer', text: 'text', blob: 'blob', table: 'strict', keyed: 'strict, without rowid' } as const

const neverChanged = (table: string): string[] =>
  ['update', 'delete'].map(
    (verb) =>
      `create trigger ${table}_never_${verb}d before ${verb} on ${table}
       begin select raise(abort, 'the record only grows: a row of ${table} is never ${verb}d'); end`,
  )

/** Whether a file and the folder it lies in can be written; a log is kept beside it. */
function writable(file: string): boolean {
  try {
    for (const path of [file, dirname(file)]) accessSync(path, constants.W_OK)
    return true
  } catch {
    return false
  }
}

/** Say in the record's terms what the driver reports by code; anything else passes through. */
export function namedProblem(error: unknown, file: string): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const say = (problem: ConstructorParameters<typeof RecordError>[0], text: string) =>
    new RecordError(problem, `${file}: ${text}`, { cause: error })
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB' || code === 'SQLITE_IOERR_SHORT_READ')
    return say('damaged', `the file is damaged (${(error as Error).message}). Nothing was repaired; restore a backup.`)
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return say('busy', 'another program is writing to this record and did not finish in time; try again.')
  if (code === 'SQLITE_FULL') return say('disk-full', 'the disk is full; nothing of this write was kept.')
  if (code.startsWith('SQLITE_READONLY')) return say('read-only', 'the file or its folder cannot be written.')
  if (code.startsWith('SQLITE_CANTOPEN') && existsSync(file) && !writable(file))
    return say('read-only', 'the file or its folder cannot be written.')
  if (code.startsWith('SQLITE_CANTOPEN'))
    return say('not-found', 'the file cannot be opened; is its folder there and yours?')
  if (code.startsWith('SQLITE_IOERR'))
    return say('disk-full', `the disk did not take the write (${(error as Error).message}).`)
  return error
}

const statements = (db: BetterSqlite3.Database, file: string): Sql => {
  const prepared = new Map<string, BetterSqlite3.Statement>()
  const prepare = (text: string) => {
    let statement = prepared.get(text)
    if (!statement) prepared.set(text, (statement = db.prepare(text)))
    return statement
  }
  return {
    run: async (text: string, values: readonly Value[] = []) => {
      try {
        prepare(text).run(...values)
      } catch (error) {
        throw namedProblem(error, file)
      }
    },
    all: async <T>(text: string, values: readonly Value[] = []) => {
      try {
        return prepare(text).all(...values) as T[]
      } catch (error) {
        throw namedProblem(error, file)
      }
    },
  }
}

/** Writers of one program take turns by file: a lock waited for inside the program would stop the one that holds it. */
const turns = new Map<string, Promise<unknown>>()

export type SqliteOptions = {
  readonly file: string
  /** Open what is there and never write, as for looking into a backup. */
  readonly readOnly?: boolean
  /** How long a write waits for another program's, ms. */
  readonly waitMs?: number
}

/** Make one plain file of a database with its log, so that it can be copied, or read from a disk that cannot be written. */
export async function settle(file: string): Promise<void> {
  requireNode()
  const { default: Database } = await import('better-sqlite3')
  let db: BetterSqlite3.Database | undefined
  try {
    db = new Database(file, { timeout: 200 })
    // Leaving WAL asks for the file alone, so this fails while any other program has it open.
    db.pragma('journal_mode = DELETE')
  } catch (error) {
    throw namedProblem(error, file)
  } finally {
    db?.close()
  }
}

/** Open a file as a store: one connection that writes, one that reads only what is committed. @throws RecordError */
export async function openSqlite({ file, readOnly = false, waitMs = 10_000 }: SqliteOptions): Promise<Store> {
  requireNode()
  if (readOnly && !existsSync(file)) throw new RecordError('not-found', `${file}: there is no such file.`)
  const { default: Database } = await import('better-sqlite3')
  const connect = (readonly: boolean): BetterSqlite3.Database => {
    let db: BetterSqlite3.Database | undefined
    try {
      db = new Database(file, { readonly, timeout: waitMs })
      // WAL lets readers go on while one writes; FULL makes a commit wait for the disk.
      if (!readonly) db.pragma('journal_mode = WAL')
      db.pragma('synchronous = FULL')
      // A hash falls anywhere in its index: the longer the log, the more commits share a page that is carried over.
      db.pragma('wal_autocheckpoint = 8000')
      db.pragma('foreign_keys = ON')
      db.pragma('cache_size = -65536')
      db.prepare('select count(*) from sqlite_schema').get()
      return db
    } catch (error) {
      db?.close()
      throw namedProblem(error, file)
    }
  }
  const writer = connect(readOnly)
  const reader = connect(true)
  const [write, sql] = [statements(writer, file), statements(reader, file)]
  const read = new Kysely<Tables>({ dialect: new SqliteDialect({ database: reader }) })

  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = (turns.get(file) ?? Promise.resolve()).then(work)
    turns.set(
      file,
      mine.catch(() => undefined),
    )
    return mine
  }

  return {
    types,
    read,
    sql,
    transaction: (work) =>
      inTurn(async () => {
        // Immediate: the write lock is taken before the chain's head is read, so two programs never both follow the same entry.
        await write.run('begin immediate')
        try {
          const result = await work(write)
          await write.run('commit')
          return result
        } catch (error) {
          if (writer.inTransaction) await write.run('rollback')
          throw error
        }
      }),
    guards: [...neverChanged('entry'), ...neverChanged('file')],
    tableNames: async () =>
      (await sql.all<{ name: string }>(`select name from sqlite_schema where type = 'table' order by name`)).map(
        (r) => r.name,
      ),
    schema: async () =>
      (await sql.all<{ sql: string }>('select sql from sqlite_schema where sql is not null order by type, name')).map(
        (r) => r.sql.replaceAll(/\s+/g, ' '),
      ),
    damage: async (depth) => {
      try {
        const found = reader.pragma(depth === 'quick' ? 'quick_check(20)' : 'integrity_check(20)') as Record<
          string,
          string
        >[]
        return found.flatMap((row) => Object.values(row)).filter((text) => text !== 'ok')
      } catch (error) {
        return [error instanceof Error ? error.message : String(error)]
      }
    },
    copyTo: async (target, progress) => {
      try {
        await writer.backup(target, {
          progress: ({ totalPages, remainingPages }) => {
            progress?.(totalPages - remainingPages, totalPages)
            return 4096
          },
        })
        await settle(target)
      } catch (error) {
        throw namedProblem(error, target)
      }
    },
    size: () => (existsSync(file) ? statSync(file).size : 0),
    close: async () => {
      await turns.get(file)
      await read.destroy()
      if (reader.open) reader.close()
      if (writer.open) writer.close()
    },
  }
}
