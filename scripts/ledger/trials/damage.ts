// A database cut short, and one with bits flipped: in every table and index, and in the log of the last writes.
import { copyFileSync, mkdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { openLedger, recordFile } from '@forcemeat/ledger'
import Database from 'better-sqlite3'
import { seeded } from '../seeded.ts'
import { inScratch } from './scratch.ts'
import { examine, record, refusedStart, told, type Trial } from './trial.ts'

type End = { readonly entries: number; readonly head: string }

/** What the record says: every entry by its text. Nothing where it cannot be read. */
function entriesIn(file: string): Map<number, string> | undefined {
  const db = new Database(file, { readonly: true })
  try {
    const rows = db.prepare('select seq, hash || text as said from entry order by seq').all() as {
      seq: number
      said: string
    }[]
    return new Map(rows.map((r) => [r.seq, r.said]))
  } catch {
    return undefined
  } finally {
    db.close()
  }
}

/** The first entry whose text is another, or is gone. */
function firstChanged(sound: ReadonlyMap<number, string>, now: ReadonlyMap<number, string>): number | undefined {
  for (const [seq, said] of sound) if (now.get(seq) !== said) return seq
  return undefined
}

/** The fault, if any, of what is said about a damaged copy. `found` counts those that were named. */
async function judged(
  folder: string,
  end: End,
  sound: ReadonlyMap<number, string>,
  tally: { named: number; harmless: number },
) {
  const now = entriesIn(join(folder, recordFile))
  const changed = now && firstChanged(sound, now)
  const found = await examine(folder, end)
  if ('refused' in found) {
    tally.named += 1
    return found.refused.problem === 'damaged'
      ? undefined
      : `was refused as ${found.refused.problem}: ${found.refused.message}`
  }
  const { ok, broken } = found.report
  if (!ok) tally.named += 1
  else tally.harmless += 1
  if (ok && changed !== undefined) return `entry ${changed} was changed, and nothing is said of it`
  if (changed !== undefined && broken && broken.seq !== changed)
    return `entry ${changed} is the first that was changed, and entry ${broken.seq} is named`
  return undefined
}

const cut: Trial = {
  name: 'database cut short',
  run: (short) =>
    inScratch(async (under) => {
      const { file, end } = await record(join(under, 'sound'), short ? 3 : 8)
      const sound = entriesIn(file)!
      const [size, random, faults] = [statSync(file).size, seeded(5), [] as string[]]
      const tally = { named: 0, harmless: 0 }
      const cuts = short ? 6 : 60
      for (let i = 0; i < cuts; i += 1) {
        const folder = join(under, `cut-${i}`)
        mkdirSync(folder)
        copyFileSync(file, join(folder, recordFile))
        // Every third one at the edge of a page, where nothing looks torn.
        const at = Math.floor(random() * (size - 1)) + 1
        const to = i % 3 === 0 ? Math.max(4096, at - (at % 4096)) : at
        truncateSync(join(folder, recordFile), to)
        if (i === 0) {
          const { code, said } = await refusedStart(folder)
          if (code !== 4 || !/damaged.*Nothing was repaired/s.test(said))
            faults.push(`the server ended with ${code} and said: ${said}`)
        }
        const fault = await judged(folder, end, sound, tally)
        if (fault) faults.push(`cut to ${to} of ${size} bytes: ${fault}`)
        if (statSync(join(folder, recordFile)).size > to) faults.push(`cut to ${to} bytes: it was written to`)
        rmSync(folder, { recursive: true })
      }
      if (tally.named !== cuts) faults.push(`${cuts - tally.named} cuts were not named`)
      return { said: `${cuts} cuts, all named, the server refuses to start`, faults }
    }),
}

/** Pages of the database by the table or index they belong to. */
function pagesByName(file: string): Map<string, number[]> {
  const db = new Database(file, { readonly: true })
  try {
    const rows = db.prepare('select name, pageno from dbstat').all() as { name: string; pageno: number }[]
    return new Map([...Map.groupBy(rows, (r) => r.name)].map(([name, all]) => [name, all.map((r) => r.pageno)]))
  } finally {
    db.close()
  }
}

const flipped: Trial = {
  name: 'bits flipped in every table and index',
  run: (short) =>
    inScratch(async (under) => {
      const { file, end } = await record(join(under, 'sound'), short ? 3 : 8)
      const [bytes, sound, random] = [readFileSync(file), entriesIn(file)!, seeded(9)]
      const [faults, tally] = [[] as string[], { named: 0, harmless: 0 }]
      const pages = pagesByName(file)
      const each = short ? 1 : 12
      for (const [name, numbers] of pages)
        for (let i = 0; i < each; i += 1) {
          const folder = join(under, 'flipped')
          mkdirSync(folder)
          const page = numbers[Math.floor(random() * numbers.length)]!
          const [at, bit] = [(page - 1) * 4096 + Math.floor(random() * 4096), Math.floor(random() * 8)]
          const damaged = Buffer.from(bytes)
          damaged[at] = damaged[at]! ^ (1 << bit)
          writeFileSync(join(folder, recordFile), damaged)
          const fault = await judged(folder, end, sound, tally)
          if (fault) faults.push(`${name}, byte ${at}, bit ${bit}: ${fault}`)
          rmSync(folder, { recursive: true })
        }
      const flips = tally.named + tally.harmless
      return {
        said: `${flips} flips over ${pages.size} tables and indexes: ${tally.named} named, ${tally.harmless} in bytes that say nothing`,
        faults,
      }
    }),
}

const logFlipped: Trial = {
  name: 'bits flipped in the log of the last writes',
  run: (short) =>
    inScratch(async (under) => {
      const ledger = await openLedger({ folder: join(under, 'sound') })
      await told(ledger, 0, 2)
      const { entries, head } = await ledger.head()
      const end = { entries, head: head! }
      // While it is open, as a killed program leaves it.
      const [db, log] = [readFileSync(ledger.file), readFileSync(`${ledger.file}-wal`)]
      await ledger.close()
      const sound = entriesIn(ledger.file)!
      const [faults, random] = [[] as string[], seeded(13)]
      let [refused, aside, harmless] = [0, 0, 0]
      const warned: string[] = []
      const hear = (w: Error): void => void (w.name === 'RecordWarning' && warned.push(w.message))
      process.on('warning', hear)
      const flips = short ? 12 : 200
      for (let i = 0; i < flips; i += 1) {
        const folder = join(under, 'flipped')
        mkdirSync(folder)
        const at = i === 0 ? 20 : Math.floor(random() * log.length)
        const damaged = Buffer.from(log)
        damaged[at] = damaged[at]! ^ (1 << Math.floor(random() * 8))
        writeFileSync(join(folder, recordFile), db)
        writeFileSync(join(folder, `${recordFile}-wal`), damaged)
        const before = warned.length
        const found = await examine(folder, end)
        await new Promise((resolve) => setImmediate(resolve))
        if ('refused' in found) refused += 1
        else if (found.report.ok) harmless += 1
        else if (warned.length > before) aside += 1
        else faults.push(`byte ${at}: entries are gone and nothing is said until a noted head is asked for`)
        if (
          'report' in found &&
          found.report.ok &&
          firstChanged(sound, entriesIn(join(folder, recordFile))!) !== undefined
        )
          faults.push(`byte ${at}: an entry was changed, and nothing is said of it`)
        rmSync(folder, { recursive: true })
      }
      process.off('warning', hear)
      return {
        said: `${flips} flips: ${refused} refused by name, ${aside} in the very last write (log kept aside, said), ${harmless} in bytes that say nothing`,
        faults,
      }
    }),
}

export const damageTrials: readonly Trial[] = [cut, flipped, logFlipped]
