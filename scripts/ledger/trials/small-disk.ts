import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'

/** A disk of so many bytes in memory, where this machine lets one be mounted. */
export type SmallDisk = {
  readonly folder: string
  readonly remount: (options: string) => void
  readonly gone: () => void
}

const run = (program: string, ...args: string[]): boolean => spawnSync(program, args, { stdio: 'ignore' }).status === 0

/** Mount one under a folder; nothing where that is not permitted. */
export function smallDisk(under: string, bytes: number): SmallDisk | undefined {
  const folder = join(under, 'disk')
  mkdirSync(folder, { recursive: true })
  if (!run('mount', '-t', 'tmpfs', '-o', `size=${bytes}`, 'tmpfs', folder)) return undefined
  return {
    folder,
    remount: (options) => {
      if (!run('mount', '-o', `remount,${options}`, folder)) throw new Error(`cannot remount with ${options}`)
    },
    gone: () => {
      if (!run('umount', folder)) run('umount', '-l', folder)
    },
  }
}
