// Rounds of a writer ended by SIGKILL at a random moment: every acknowledged entry and file must be there afterwards, and the chain must hold.
// A killed program leaves its writes with the operating system; only pulling the power tries the disk's own promise.
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { openLedger, type Ledger } from '@forcemeat/ledger'
import { seeded } from '../seeded.ts'
import { inScratch } from './scratch.ts'

export type KillReport = {
  readonly rounds: number
  readonly acknowledged: number
  readonly entries: number
  readonly files: number
  /** Kinds of entry that were acknowledged. */
  readonly kinds: number
  /** Rounds killed before the first acknowledgement, while the record was being opened or made. */
  readonly killedEarly: number
  readonly faults: readonly string[]
}

const child = fileURLToPath(new URL('kill-child.ts', import.meta.url))

type Acknowledged = { readonly entries: Map<number, string>; readonly files: Set<string>; readonly told: Set<number> }

/** Start a writer, kill it, and note what it had acknowledged. Answers how much that was. */
function killedWriter(folder: string, first: number, random: () => number, early: boolean, all: Acknowledged) {
  return new Promise<number[]>((resolve, reject) => {
    const writer = spawn(process.execPath, [child, folder, String(first)], { stdio: ['ignore', 'pipe', 'pipe'] })
    let [out, err, planned] = ['', '', false]
    const killAfter = (ms: number) => {
      if (planned) return
      planned = true
      setTimeout(() => writer.kill('SIGKILL'), ms)
    }
    if (early) killAfter(random() * 300)
    writer.stdout.on('data', (data: Buffer) => {
      out += data.toString()
      // What a story told before is acknowledged again at once; the moment counts from the first entry that is new.
      if (!planned && out.split('\n').some((l) => /^\d+ /.test(l) && !all.entries.has(Number(l.split(' ')[0]))))
        killAfter(random() * 120)
    })
    writer.stderr.on('data', (data: Buffer) => (err += data.toString()))
    writer.on('error', reject)
    writer.on('close', (code, signal) => {
      if (signal !== 'SIGKILL') return reject(new Error(`the writer ended by itself (${code ?? signal}): ${err}`))
      const fresh: number[] = []
      for (const [what, value] of out
        .split('\n')
        .slice(0, -1)
        .map((l) => l.split(' ') as [string, string])) {
        if (what === 'file') all.files.add(value)
        else if (what === 'told') all.told.add(Number(value))
        else {
          const [seq, before] = [Number(what), all.entries.get(Number(what))]
          if (before !== undefined && before !== value) err += `entry ${seq} was acknowledged twice, as two\n`
          all.entries.set(seq, value)
          fresh.push(seq)
        }
      }
      if (err !== '') return reject(new Error(err))
      resolve(fresh)
    })
  })
}

async function faultsOf(
  ledger: Ledger,
  fresh: readonly number[],
  all: Acknowledged,
  before: number,
): Promise<string[]> {
  const faults: string[] = []
  for (const seq of fresh) {
    const entry = await ledger.entry(seq)
    if (entry?.hash !== all.entries.get(seq))
      faults.push(`acknowledged entry ${seq} is ${entry ? 'another one' : 'lost'}`)
  }
  const there = new Set((await ledger.files()).map((f) => f.sha256))
  for (const file of all.files) if (!there.has(file)) faults.push(`acknowledged file ${file} is lost`)
  const report = await ledger.verify()
  if (report.broken) faults.push(`entry ${report.broken.seq} ${report.broken.because}`)
  for (const { sha256, because } of report.files.broken) faults.push(`file ${sha256} ${because}`)
  faults.push(...report.damage)
  if (report.entries < before) faults.push(`the chain went from ${before} back to ${report.entries} entries`)
  return faults
}

export const killRounds = ({ rounds = 100, seed = 1 } = {}): Promise<KillReport> =>
  inScratch(async (folder) => {
    const random = seeded(seed)
    const faults: string[] = []
    const all: Acknowledged = { entries: new Map(), files: new Set(), told: new Set() }
    let [killedEarly, entries, next, kinds] = [0, 0, 0, 0]
    for (let round = 1; round <= rounds; round += 1) {
      const fresh = await killedWriter(folder, next, random, round % 5 === 1, all)
      if (fresh.length === 0) killedEarly += 1
      // Stories that were not told to their end are told again by the next writer under the same keys.
      while (all.told.has(next)) next += 1
      const ledger = await openLedger({ folder })
      try {
        faults.push(...(await faultsOf(ledger, fresh, all, entries)).map((f) => `round ${round}: ${f}`))
        entries = (await ledger.head()).entries
        if (round === rounds) {
          for (const seq of all.entries.keys())
            if ((await ledger.entry(seq))?.hash !== all.entries.get(seq))
              faults.push(`acknowledged entry ${seq} is lost at the end`)
          const { views } = await ledger.verify({ views: true })
          faults.push(...views.map((v) => `the derived table ${v} is not what the entries make it`))
          kinds = await kindsIn(ledger)
        }
      } finally {
        await ledger.close()
      }
    }
    return { rounds, acknowledged: all.entries.size, entries, files: all.files.size, kinds, killedEarly, faults }
  })

async function kindsIn(ledger: Ledger): Promise<number> {
  const kinds = new Set<string>()
  for (let after = 0; ;) {
    const page = await ledger.entries({ after, limit: 1000 })
    if (page.length === 0) return kinds.size
    for (const e of page) kinds.add(e.kind)
    after = page.at(-1)!.seq
  }
}
