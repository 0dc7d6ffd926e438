import { existsSync } from 'node:fs'
import { copyFile, link, mkdir, rename, rm } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import { flush } from './backup.ts'
import { openSqlite, settle } from './dialect/sqlite.ts'
import { readHead, type Head } from './entry.ts'
import { fileOf, openLedger } from './open.ts'
import { RecordError } from './record-error.ts'
import { verifyRecord } from './verify.ts'

export type RestoreOptions = ({ readonly folder: string } | { readonly file: string }) & {
  /** The backup file. */
  readonly from: string
  /** Replace a record that holds entries the backup does not, or one that is damaged. The replaced file is kept aside. */
  readonly force?: boolean
  readonly now?: () => string
}

export type RestoreReport = {
  readonly file: string
  readonly entries: number
  readonly head: string | null
  /** Where the record that stood there before is kept. */
  readonly replaced?: string
}

const damaged = (error: unknown): boolean => error instanceof RecordError && error.problem === 'damaged'

/** The head of the record a restore would replace; `damaged` where it cannot be read. */
async function headThere(file: string): Promise<Head | 'damaged' | undefined> {
  try {
    const store = await openSqlite({ file, readOnly: true })
    try {
      const tables = await store.tableNames()
      return tables.includes('entry') ? await readHead(store.sql) : undefined
    } finally {
      await store.close()
    }
  } catch (error) {
    if (damaged(error)) return 'damaged'
    throw error
  }
}

/** Hold a backup against itself, and tell whether it has the entry a record ends in. */
async function readBackup(from: string, there: Head | undefined): Promise<{ entries: number; holdsThere: boolean }> {
  const backup = await openSqlite({ file: from, readOnly: true })
  try {
    if (!(await backup.tableNames()).includes('entry'))
      throw new RecordError('not-found', `${from}: this file is not a record.`)
    const report = await verifyRecord(backup)
    if (!report.ok) {
      const why = report.broken
        ? `entry ${report.broken.seq}: ${report.broken.because}`
        : [...report.damage, ...report.files.broken.map((f) => `file ${f.sha256} ${f.because}`)].join('; ')
      throw new RecordError('damaged', `${from}: the backup does not hold (${why}); nothing was replaced.`)
    }
    const same = there
      ? await backup.sql.all('select 1 from entry where seq = ? and hash = ?', [there.seq, there.hash])
      : [true]
    return { entries: report.entries, holdsThere: same.length > 0 }
  } finally {
    await backup.close()
  }
}

/**
 * Put a backup in the place of a record. The backup is verified first; a record that holds entries the backup does not is replaced
 * only when forced, and is kept aside; a record that a program has open is never replaced.
 */
export async function restoreBackup(options: RestoreOptions): Promise<RestoreReport> {
  const [file, from, force] = [fileOf(options), resolve(options.from), options.force === true]
  const now = options.now ?? (() => new Date().toISOString())
  if (file === from) throw new RecordError('not-empty', `${file}: the backup and the record are the same file.`)
  const occupied = existsSync(file)
  const there = occupied ? await headThere(file) : undefined
  const { entries, holdsThere } = await readBackup(from, there === 'damaged' ? undefined : there)
  if (!force && there === 'damaged')
    throw new RecordError(
      'would-lose',
      `${file}: the record there is damaged, and what the backup lacks of it is not known. Force the restore to replace it; it is kept aside.`,
    )
  if (!force && !holdsThere && there !== 'damaged')
    throw new RecordError(
      'would-lose',
      `${file}: the record there goes to entry ${there?.seq}, and the backup (${entries} entries) does not hold that entry. Force the restore to replace it; it is kept aside.`,
    )
  if (occupied && there !== 'damaged') await settle(file)
  await mkdir(dirname(file), { recursive: true })
  const part = `${file}.restoring`
  await rm(part, { force: true })
  await copyFile(from, part)
  await flush(part)
  const replaced = occupied ? `${file}.replaced-${now().replaceAll(':', '')}` : undefined
  if (replaced) await link(file, replaced)
  // A log left by the old file must not be read into the new one.
  for (const end of ['-wal', '-shm']) await rm(file + end, { force: true })
  await rename(part, file)
  await flush(dirname(file))
  const ledger = await openLedger({ file, now })
  try {
    return {
      file,
      ...(await ledger.head().then(({ entries, head }) => ({ entries, head }))),
      ...(replaced ? { replaced } : {}),
    }
  } finally {
    await ledger.close()
  }
}
