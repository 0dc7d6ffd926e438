import { mkdtemp, readdir, rename, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { RecordError, restoreBackup, type BackupReport, type Ledger } from '@forcemeat/ledger'
import type { Log } from '../http/log.ts'
import { copyFeeds, feedsBeside } from './feeds.ts'

export type BackupPlan = {
  /** Folder the copies go to; another disk is best. */
  readonly folder: string
  readonly everyHours: number
  /** Copies kept; the oldest of this plan's own go when there are more. */
  readonly keep: number
}

/** A copy that was made, restored into a scratch record and found to end in the same entry. */
export type TriedCopy = {
  /** When the copy was begun. */
  readonly at: string
  /** When it had been restored and the two ends of the chain had been held against each other. */
  readonly tried: string
  readonly file: string
  readonly entries: number
  readonly head: string | null
  /** Batches whose open feed lies beside it. */
  readonly feeds: readonly string[]
}

export type BackupState = {
  readonly plan?: BackupPlan
  /** The last good copy by the clock. */
  readonly last?: TriedCopy
  /** The last good copy somebody asked for. */
  readonly byHand?: TriedCopy
  /** Why the last try failed, and when. */
  readonly trouble?: { readonly at: string; readonly why: string }
}

const ours = /^record-\d{4}-\d{2}-\d{2}T\d{6,9}Z\.db$/

/**
 * Copy the record and its open feeds while they are in use, restore the copy into a scratch record, and hold the two ends of the chain against each other.
 * @throws where the copy, the restore or the comparison fails; a copy that cannot be restored is left under a name no copy has
 */
export async function backupAndTry(
  ledger: Pick<Ledger, 'file' | 'backup'>,
  folder: string,
  now: () => Date,
): Promise<BackupReport & TriedCopy> {
  const at = now().toISOString()
  const target = join(folder, `record-${at.replaceAll(/[:.]/g, '')}.db`)
  const feeds = await copyFeeds(ledger.file, target)
  const report = await ledger.backup(target)
  const scratch = await mkdtemp(join(tmpdir(), 'forcemeat-restore-'))
  try {
    const restored = await restoreBackup({ folder: scratch, from: report.file })
    if (restored.head !== report.head || restored.entries !== report.entries)
      throw new RecordError(
        'damaged',
        `${report.file}: restored, it ends in entry ${restored.entries} (${restored.head}), and the record in ${report.entries} (${report.head})`,
      )
    return { ...report, at, tried: now().toISOString(), feeds }
  } catch (error) {
    if (error instanceof RecordError && error.problem === 'damaged')
      await rename(report.file, `${report.file}.failed`).catch(() => undefined)
    throw error
  } finally {
    await rm(scratch, { recursive: true, force: true })
  }
}

/** Copies of the plan beyond the number it keeps, the oldest first. Files of other names are never touched. */
async function thin(folder: string, keep: number): Promise<void> {
  const copies = (await readdir(folder)).filter((f) => ours.test(f)).sort()
  for (const old of copies.slice(0, Math.max(0, copies.length - keep))) {
    await rm(join(folder, old), { force: true })
    await rm(feedsBeside(join(folder, old)), { recursive: true, force: true })
  }
}

export type Backups = {
  readonly state: () => BackupState
  /** Make one of the plan's now. */
  readonly run: () => Promise<void>
  /** Make one beside the record, whatever the plan; asked for twice at once, one is made. @throws as `backupAndTry` */
  readonly byHand: () => Promise<BackupReport & TriedCopy>
  readonly stop: () => Promise<void>
}

/** Backups by the clock while the server runs. A copy is due at once where the newest in the folder is older than the plan. */
export function scheduleBackups(ledger: Ledger, plan: BackupPlan | undefined, now: () => Date, log: Log): Backups {
  let state: BackupState = plan ? { plan } : {}
  let running: Promise<void> | undefined
  let asked: Promise<BackupReport & TriedCopy> | undefined
  let due = 0
  const once = async (to: BackupPlan): Promise<void> => {
    const at = now().toISOString()
    due = now().getTime() + to.everyHours * 3_600_000
    try {
      const { files: _files, bytes: _bytes, ...last } = await backupAndTry(ledger, to.folder, now)
      const { trouble: _, ...rest } = state
      state = { ...rest, last: { ...last, file: basename(last.file) } }
      await thin(to.folder, to.keep)
    } catch (error) {
      const why = (error as Error).message
      state = { ...state, trouble: { at, why } }
      log({ at, level: 'error', backup: to.folder, error: why })
      // Not before a while, so that a full disk is not asked every minute.
      due = Math.min(due, now().getTime() + 900_000)
    }
  }
  const run = (): Promise<void> => {
    if (!plan) return Promise.resolve()
    running ??= once(plan).finally(() => (running = undefined))
    return running
  }
  const besideRecord = async (): Promise<BackupReport & TriedCopy> => {
    const made = await backupAndTry(ledger, join(dirname(ledger.file), 'backups'), now)
    const copy = { ...made, file: join('backups', basename(made.file)) }
    const { files: _files, bytes: _bytes, ...byHand } = copy
    state = { ...state, byHand }
    return copy
  }
  const tick = (): void => {
    if (plan && now().getTime() >= due) void run()
  }
  const timer = plan ? setInterval(tick, 30_000) : undefined
  timer?.unref()
  if (plan) setImmediate(tick)
  return {
    state: () => state,
    run,
    byHand: () => (asked ??= besideRecord().finally(() => (asked = undefined))),
    stop: async () => {
      clearInterval(timer)
      await Promise.allSettled([running, asked])
    },
  }
}
