// A disk with no room left, a file that may grow no more, and a disk that cannot be written.
import { spawn } from 'node:child_process'
import { chmodSync, existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { openLedger, RecordError } from '@forcemeat/ledger'
import { inScratch } from './scratch.ts'
import { smallDisk } from './small-disk.ts'
import { examine, missing, record, refusedStart, told, type Outcome, type Trial } from './trial.ts'

const child = fileURLToPath(new URL('kill-child.ts', import.meta.url))

/** Fill a small disk; then there is room again, and the same stories are told on. */
const full: Trial = {
  name: 'disk full',
  run: (short) =>
    inScratch(async (under) => {
      const disk = smallDisk(under, short ? 1_500_000 : 12_000_000)
      if (!disk)
        return {
          said: 'left out: this machine lets no disk be mounted; see the file that may grow no more',
          faults: [],
        }
      const faults: string[] = []
      const kept = new Map<number, string>()
      try {
        const ledger = await openLedger({ folder: disk.folder })
        const refusal: unknown = await told(ledger, 0, 1e6, kept).catch((error: unknown) => error)
        if (!(refusal instanceof RecordError && refusal.problem === 'disk-full'))
          faults.push(`was told: ${String(refusal)}`)
        const full = kept.size
        faults.push(...(await missing(ledger, kept)))
        disk.remount('size=64000000')
        await told(ledger, 0, Math.ceil(full / 40) + 2, kept)
        await ledger.close()
        const again = await openLedger({ folder: disk.folder })
        faults.push(...(await missing(again, kept)))
        const report = await again.verify({ views: true })
        if (!report.ok) faults.push(`does not verify: ${JSON.stringify(report)}`)
        await again.close()
        return {
          said: `${full} entries acknowledged until it was full, ${kept.size} once there was room again`,
          faults,
        }
      } finally {
        disk.gone()
      }
    }),
}

/** The operating system's own bound on a file's size; the writer is told and ends, and nothing it had acknowledged is gone. */
const bounded: Trial = {
  name: 'a file that may grow no more',
  run: (short) =>
    inScratch(async (folder) => {
      const blocks = short ? 900 : 3000
      const { said, err } = await new Promise<{ said: string; err: string }>((resolve, reject) => {
        const shell = spawn('bash', [
          '-c',
          `trap '' XFSZ; ulimit -f ${blocks}; exec "$0" "$@"`,
          process.execPath,
          child,
          folder,
          '0',
        ])
        let [said, err] = ['', '']
        shell.stdout.on('data', (d: Buffer) => (said += d.toString()))
        shell.stderr.on('data', (d: Buffer) => (err += d.toString()))
        shell.on('error', reject)
        shell.on('close', () => resolve({ said, err }))
      })
      const faults = /the disk (is full|did not take the write)/.test(err) ? [] : [`was told: ${err.slice(0, 400)}`]
      const lines = said
        .split('\n')
        .flatMap((l) => (/^\d+ [0-9a-f]{64}$/.test(l) ? [l.split(' ') as [string, string]] : []))
      const kept = new Map(lines.map(([seq, hash]) => [Number(seq), hash]))
      const ledger = await openLedger({ folder })
      faults.push(...(await missing(ledger, kept)))
      const report = await ledger.verify({ views: true })
      if (!report.ok) faults.push(`does not verify: ${JSON.stringify(report)}`)
      await ledger.close()
      return { said: `${kept.size} entries acknowledged until the file was ${blocks} KiB, all there`, faults }
    }),
}

const saysWhy = (said: string): boolean => /cannot be (written|opened)/.test(said)

/** Opened where nothing can be written: refused by name, also by the server; whole again when the disk can be written. */
async function cannotBeWritten(folder: string, lock: () => void, unlock: () => void): Promise<Outcome> {
  const { end, kept } = await record(folder, 3)
  lock()
  const faults: string[] = []
  try {
    const found = await examine(folder, end)
    if (!('refused' in found)) faults.push('was opened')
    else if (!saysWhy(found.refused.message)) faults.push(`was told: ${found.refused.message}`)
    const { code, said } = await refusedStart(folder)
    if (code !== 4 || !saysWhy(said)) faults.push(`the server ended with ${code} and said: ${said}`)
  } finally {
    unlock()
  }
  const after = await examine(folder, end)
  if (!('report' in after && after.report.ok)) faults.push('is not whole afterwards')
  return { said: `refused by name, by the ledger and by the server; ${kept.size} entries whole afterwards`, faults }
}

const readOnly: Trial = {
  name: 'disk that cannot be written',
  run: () =>
    inScratch(async (under) => {
      const disk = smallDisk(under, 16_000_000)
      if (disk)
        try {
          return await cannotBeWritten(
            disk.folder,
            () => disk.remount('ro'),
            () => disk.remount('rw'),
          )
        } finally {
          disk.gone()
        }
      // Without a disk of its own: a folder and a file that this user may only read.
      const modes = (folder: number, file: number) => () => {
        if (existsSync(`${under}/record.db`)) chmodSync(`${under}/record.db`, file)
        chmodSync(under, folder)
      }
      return cannotBeWritten(under, modes(0o500, 0o400), modes(0o700, 0o600))
    }),
}

export const diskTrials: readonly Trial[] = [full, bounded, readOnly]
