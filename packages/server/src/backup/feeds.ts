import { existsSync } from 'node:fs'
import { copyFile, mkdir, open, readdir, readFile, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'

/** Where the open feeds of a record lie, and where those of a backup: a folder beside it, of its name. */
const feedsOf = (recordFile: string): string => join(dirname(recordFile), 'feed')
export const feedsBeside = (backup: string): string => `${backup.replace(/\.db$/, '')}.feed`

const openIn = async (folder: string): Promise<string[]> =>
  existsSync(folder) ? (await readdir(folder)).filter((name) => name.endsWith('.jsonl')).sort() : []

async function kept(from: string, to: string): Promise<void> {
  await copyFile(from, to)
  const file = await open(to, 'r')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}

/**
 * Copy the open feeds of a record beside the backup that is about to be made. Readings come into the record when their feed is closed, so
 * until then they are in no copy of it. The feeds go first: one that is closed meanwhile is in the record's copy too, and closing it once
 * more after a restore records nothing twice. @throws Error where a copy is not the beginning of what is there
 */
export async function copyFeeds(recordFile: string, backup: string): Promise<string[]> {
  const [from, to] = [feedsOf(recordFile), feedsBeside(backup)]
  const copied: string[] = []
  for (const name of await openIn(from)) {
    await mkdir(to, { recursive: true })
    try {
      await kept(join(from, name), join(to, name))
      // A feed only grows: what was copied is how it begins now.
      const [copy, now] = [await readFile(join(to, name)), await readFile(join(from, name))]
      if (!now.subarray(0, copy.byteLength).equals(copy))
        throw new Error(`${join(to, name)}: the copy of the open feed is not what the feed holds`)
      copied.push(name.slice(0, -'.jsonl'.length))
    } catch (error) {
      // Closed while it was copied: it is in the record now.
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
      await rm(join(to, name), { force: true })
    }
  }
  return copied
}

/** Put the feeds of a backup back beside a restored record; one that is there already stays as it is, and is named. */
export async function restoreFeeds(
  backup: string,
  recordFile: string,
): Promise<{ readonly restored: string[]; readonly left: string[] }> {
  const [from, to] = [feedsBeside(backup), feedsOf(recordFile)]
  const [restored, left]: [string[], string[]] = [[], []]
  for (const name of await openIn(from)) {
    await mkdir(to, { recursive: true })
    const batch = name.slice(0, -'.jsonl'.length)
    if (existsSync(join(to, name))) left.push(batch)
    else {
      await kept(join(from, name), join(to, name))
      restored.push(batch)
    }
  }
  return { restored, left }
}
