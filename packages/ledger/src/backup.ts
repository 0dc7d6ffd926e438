import { existsSync, statSync } from 'node:fs'
import { mkdir, open, rename, rm } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import type { Store } from './dialect/store.ts'
import { openSqlite } from './dialect/sqlite.ts'
import { RecordError } from './record-error.ts'
import { verifyRecord } from './verify.ts'

export type BackupReport = {
  readonly file: string
  readonly entries: number
  readonly head: string | null
  readonly files: number
  readonly bytes: number
}

/** Make the disk hold a file, or the names in a folder, before going on. */
export async function flush(path: string): Promise<void> {
  const handle = await open(path, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

/** Write beside the name it will have, and give it that name only when it is whole. */
export async function backupTo(
  store: Store,
  target: string,
  progress?: (done: number, total: number) => void,
): Promise<BackupReport> {
  const file = resolve(target)
  if (existsSync(file)) throw new RecordError('not-empty', `${file}: there is a file of this name; name a new one.`)
  await mkdir(dirname(file), { recursive: true })
  const part = `${file}.part`
  await rm(part, { force: true })
  try {
    await store.copyTo(part, progress)
    await flush(part)
    const copy = await openSqlite({ file: part, readOnly: true })
    try {
      const report = await verifyRecord(copy)
      if (!report.ok)
        throw new RecordError(
          'damaged',
          `${file}: the copy does not hold (${report.broken ? `entry ${report.broken.seq}: ${report.broken.because}` : [...report.damage, ...report.files.broken.map((b) => `file ${b.sha256} ${b.because}`)].join('; ')}). Verify the record itself.`,
        )
      const [same] =
        report.entries === 0
          ? [true]
          : await store.sql.all('select 1 from entry where seq = ? and hash = ?', [report.entries, report.head])
      if (!same) throw new RecordError('damaged', `${file}: the copy ends in an entry this record does not have.`)
      await copy.close()
      await rename(part, file)
      await flush(dirname(file))
      return { file, entries: report.entries, head: report.head, files: report.files.count, bytes: statSync(file).size }
    } finally {
      await copy.close()
    }
  } finally {
    for (const end of ['', '-wal', '-shm']) await rm(part + end, { force: true })
  }
}
