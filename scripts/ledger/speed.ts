// How fast the record is on this machine. Each trial makes its own data from a seed and leaves nothing behind.
import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { openLedger, type Draft, type Ledger } from '@forcemeat/ledger'
import { beginning, history, lot } from './generate.ts'
import { seeded } from './seeded.ts'

async function inScratch<T>(work: (ledger: Ledger) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'ledger-speed-'))
  const ledger = await openLedger({ folder })
  try {
    return await work(ledger)
  } finally {
    await ledger.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

const since = (begun: number): number => (performance.now() - begun) / 1000

/** Entries a second, each acknowledged after its commit reached the disk, from `writers` that each wait for theirs. */
export async function appendAtOnce(
  ledger: Ledger,
  { entries = 6000, writers = 32, prefix = 'L' } = {},
): Promise<number> {
  const random = seeded(7)
  const [someone] = await ledger.people()
  let next = 0
  const begun = performance.now()
  await Promise.all(
    Array.from({ length: writers }, async () => {
      while (next < entries) {
        const n = next
        next += 1
        const { body, ...draft } = lot(n, random) as Extract<Draft, { kind: 'lot.receive' }>
        // A key as a browser makes one: it falls anywhere in its index.
        const key = randomUUID()
        await ledger.append([{ ...draft, by: someone!.person, key, body: { ...body, lot: `${prefix}${n}` } }])
      }
    }),
  )
  return entries / since(begun)
}

export const durableEntriesPerSecond = (): Promise<number> =>
  inScratch(async (ledger) => {
    await ledger.append(beginning)
    return appendAtOnce(ledger)
  })

/** Fill a record with a seeded history, many entries a commit. */
export async function fill(ledger: Ledger, entries: number, seed = 1): Promise<number> {
  let group: Draft[] = []
  let made = 0
  for (const draft of history(entries, seed)) {
    group.push(draft)
    made += 1
    if (group.length < 5000) continue
    await ledger.append(group)
    group = []
  }
  if (group.length > 0) await ledger.append(group)
  return made
}

export type ChainSpeed = {
  readonly entries: number
  readonly fillSeconds: number
  readonly verifySeconds: number
  readonly rebuildSeconds: number
  /** Median time of a lot traced forward and of a pack traced back, ms. */
  readonly traceLotMs: number
  readonly tracePackMs: number
  /** Median time of a recall of a lot, with the mass balance of each batch, ms. */
  readonly recallMs: number
  readonly peakMemoryMb: number
}

const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!

/** Verify and rebuild a chain of so many entries, and trace in it. */
export const chainSpeed = (entries: number): Promise<ChainSpeed> =>
  inScratch(async (ledger) => {
    let begun = performance.now()
    const made = await fill(ledger, entries)
    const fillSeconds = since(begun)
    begun = performance.now()
    const report = await ledger.verify({ pages: false })
    if (!report.ok || report.entries !== made) throw new Error(`the chain does not hold: ${JSON.stringify(report)}`)
    const verifySeconds = since(begun)
    begun = performance.now()
    await ledger.rebuildViews()
    const rebuildSeconds = since(begun)
    const random = seeded(3)
    const batches = Math.floor((made - beginning.length) / 11)
    const timed = async (work: (n: number) => Promise<unknown>, of: number): Promise<number> => {
      const times: number[] = []
      for (let i = 0; i < 51; i += 1) {
        const from = performance.now()
        if (!(await work(Math.floor(random() * of)))) throw new Error('nothing to trace')
        times.push(performance.now() - from)
      }
      return median(times)
    }
    const traceLotMs = await timed((n) => ledger.traceLot(`L${n}`), batches * 3)
    const tracePackMs = await timed((n) => ledger.tracePack(`P${n}`), batches)
    const recallMs = await timed((n) => ledger.recall({ type: 'lot', id: `L${n}` }), batches * 3)
    return {
      entries: made,
      fillSeconds,
      verifySeconds,
      rebuildSeconds,
      traceLotMs,
      tracePackMs,
      recallMs,
      peakMemoryMb: process.resourceUsage().maxRSS / 1024,
    }
  })

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  console.log(`durable entries: ${(await durableEntriesPerSecond()).toFixed(0)} a second`)
  console.log(await chainSpeed(Number(process.argv[2] ?? 1_000_000)))
}
