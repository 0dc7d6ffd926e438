// Rounds of a writer ended by SIGKILL at a random moment: every acknowledged entry must be there afterwards, and the chain must hold.
// A killed program leaves its writes with the operating system; only pulling the power tries the disk's own promise.
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { openLedger } from '@forcemeat/ledger'
import { seeded } from './generate.ts'

export type KillReport = {
  readonly rounds: number
  readonly acknowledged: number
  readonly entries: number
  /** Rounds killed before the first acknowledgement, while the record was being opened or made. */
  readonly killedEarly: number
  readonly faults: readonly string[]
}

const child = fileURLToPath(new URL('kill-child.ts', import.meta.url))

type Ack = { readonly seq: number; readonly hash: string; readonly n: number }

/** Start a writer, kill it, and return what it had acknowledged. */
function killedWriter(folder: string, first: number, random: () => number, early: boolean): Promise<Ack[]> {
  return new Promise((resolve, reject) => {
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
      killAfter(random() * 40)
    })
    writer.stderr.on('data', (data: Buffer) => (err += data.toString()))
    writer.on('error', reject)
    writer.on('close', (code, signal) => {
      if (signal !== 'SIGKILL') return reject(new Error(`the writer ended by itself (${code ?? signal}): ${err}`))
      const lines = out.split('\n').slice(0, -1)
      resolve(lines.map((l) => l.split(' ')).map(([seq, hash, n]) => ({ seq: Number(seq), hash: hash!, n: Number(n) })))
    })
  })
}

export async function killRounds({ rounds = 100, seed = 1, folder = '' } = {}): Promise<KillReport> {
  const where = folder || mkdtempSync(join(tmpdir(), 'kill-rounds-'))
  const random = seeded(seed)
  const faults: string[] = []
  const acks = new Map<number, Ack>()
  let [killedEarly, entries, next] = [0, 0, 0]
  try {
    for (let round = 1; round <= rounds; round += 1) {
      const acked = await killedWriter(where, next, random, round % 5 === 1)
      if (acked.length === 0) killedEarly += 1
      for (const ack of acked) acks.set(ack.n, ack)
      // What was sent and not acknowledged is sent again by the next writer under the same keys.
      while (acks.has(next)) next += 1
      const ledger = await openLedger({ folder: where })
      try {
        for (const { seq, hash } of acked) {
          const entry = await ledger.entry(seq)
          if (entry?.hash !== hash)
            faults.push(`round ${round}: acknowledged entry ${seq} is ${entry ? 'another one' : 'lost'}`)
        }
        const report = await ledger.verify({ files: false })
        if (!report.ok)
          faults.push(
            `round ${round}: ${report.broken ? `entry ${report.broken.seq} ${report.broken.because}` : report.damage.join('; ')}`,
          )
        if (report.entries < entries)
          faults.push(`round ${round}: the chain went from ${entries} back to ${report.entries} entries`)
        entries = report.entries
      } finally {
        await ledger.close()
      }
    }
    return { rounds, acknowledged: acks.size, entries, killedEarly, faults }
  } finally {
    if (!folder) rmSync(where, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const begun = Date.now()
  const report = await killRounds({ rounds: Number(process.argv[2] ?? 100), seed: Number(process.argv[3] ?? 1) })
  for (const fault of report.faults) console.error(fault)
  console.log(
    `${report.rounds} rounds in ${((Date.now() - begun) / 1000).toFixed(1)} s: ${report.acknowledged} entries acknowledged, ${report.entries} in the chain, ${report.killedEarly} writers killed before their first, ${report.faults.length} faults`,
  )
  process.exit(report.faults.length === 0 ? 0 : 1)
}
