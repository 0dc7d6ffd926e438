// A record of a million lots and five million movements: `npm run bench -- plant`, which takes some twenty minutes and 10 GB of disk.
// BENCH_LOTS makes a smaller one; BENCH_PLANT names a folder that keeps the record, so that the next run need not make it again.
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openLedger, recordFile, type Ledger } from '@forcemeat/ledger'
import { openSqlite } from '@forcemeat/ledger/dialect/sqlite'
import { recallPdf } from '@forcemeat/server/recall/report'
import { load } from '../ledger/load.ts'
import { plant } from '../ledger/plant.ts'
import { appendAtOnce } from '../ledger/speed.ts'
import { report, seeded, summary } from './measure.ts'

const count = Number(process.env['BENCH_LOTS'] ?? 1_000_000)
const once = (x: number) => summary([x])

async function times(of: readonly string[], work: (id: string) => Promise<unknown>) {
  const taken: number[] = []
  for (const id of of) {
    const begun = performance.now()
    if ((await work(id)) === undefined) throw new Error(`${id}: nothing found`)
    taken.push(performance.now() - begun)
  }
  return summary(taken)
}

/** What there is of it, and the lots that went into the most batches. */
async function sizeOf(file: string) {
  const store = await openSqlite({ file, readOnly: true })
  try {
    const number = async (query: string) => (await store.sql.all<{ n: number }>(query))[0]!.n
    const wide = await store.sql.all<{ lot: string; n: number }>(
      'select lot, count(*) as n from movement group by lot order by n desc limit 11',
    )
    return {
      lots: await number('select count(*) as n from lot'),
      movements: await number('select count(*) as n from movement'),
      packs: await number('select count(*) as n from pack'),
      batches: await number('select count(*) as n from batch'),
      wide: wide.map((w) => w.lot),
      widest: wide[0]?.n ?? 0,
    }
  } finally {
    await store.close()
  }
}

async function measure(ledger: Ledger): Promise<void> {
  const { lots, movements, packs, batches, wide, widest } = await sizeOf(ledger.file)
  const size = `in ${lots} lots, ${movements} movements`
  const random = seeded(3)
  const some = (n: number, letter: string, of: number) =>
    Array.from({ length: n }, () => `${letter}${Math.floor(random() * of)}`)
  const line = (measure: string, limit: number, taken: ReturnType<typeof summary>) =>
    report({ measure: `${measure} ${size}`, unit: 'ms', limit, ...taken })
  line('a lot traced forward', 100, await times(some(301, 'L', lots), ledger.traceLot))
  line('a pack traced back', 100, await times(some(301, 'P', packs), ledger.tracePack))
  line(`one of the widest lots (${widest} batches) traced forward`, 2000, await times(wide, ledger.traceLot))
  const recall = (type: 'lot' | 'pack' | 'batch') => (id: string) => ledger.recall({ type, id })
  line('a recall of a lot', 2000, await times(some(101, 'L', lots), recall('lot')))
  line('a recall of a pack', 2000, await times(some(101, 'P', packs), recall('pack')))
  line('a recall of a batch', 2000, await times(some(101, 'B', batches), recall('batch')))
  line(`a recall of one of the widest lots (${widest} batches)`, 2000, await times(wide, recall('lot')))
  const paper = (id: string) => recallPdf(ledger, { type: 'lot', id }, 'A4')
  line('a recall report of a lot on paper', 2000, await times(some(11, 'L', lots), paper))
  // A pallet of salt: some thousand batches, three thousand consignments, on a hundred pages. Said, and held to nothing.
  report({
    measure: `a recall report of one of the widest lots (${widest} batches) on paper ${size}`,
    unit: 'ms',
    ...(await times(wide.slice(0, 2), paper)),
  })
  const pages: Record<string, () => Promise<unknown>> = {
    'the newest lots': () => ledger.lots(),
    'lots in stock': () => ledger.lots({ withBalanceOnly: true }),
    'the newest batches': () => ledger.batches(),
    'the newest entries': () => ledger.entries({ order: 'desc' }),
    'the newest entries of a person': () => ledger.entries({ about: 'person:hand-3', order: 'desc' }),
  }
  for (const [page, work] of Object.entries(pages)) line(page, 200, await times(Array<string>(9).fill(page), work))
  const rates: number[] = []
  for (let round = 0; round < 3; round += 1) rates.push(await appendAtOnce(ledger, { prefix: `N${Date.now()}-` }))
  report({
    measure: `durable entries, 32 senders at once, ${size}`,
    unit: '1/s',
    limit: 2000,
    atLeast: true,
    ...summary(rates),
  })
  const begun = performance.now()
  const { ok, entries } = await ledger.verify({ pages: false })
  if (!ok) throw new Error('the chain does not hold')
  report({ measure: `chain of ${entries} entries verified`, unit: 's', ...once((performance.now() - begun) / 1000) })
  report({
    measure: `most memory the program held, ${size}`,
    unit: 'MiB',
    limit: 1024,
    ...once(process.resourceUsage().maxRSS / 1024),
  })
}

export async function run(): Promise<void> {
  const kept = process.env['BENCH_PLANT']
  const folder = kept ?? mkdtempSync(join(tmpdir(), 'forcemeat-plant-'))
  try {
    if (!existsSync(join(folder, recordFile))) {
      const { entries, rebuildSeconds } = await load(folder, plant(count))
      report({ measure: `views rebuilt from ${entries} entries`, unit: 's', ...once(rebuildSeconds) })
    }
    const ledger = await openLedger({ folder })
    try {
      await measure(ledger)
    } finally {
      await ledger.close()
    }
  } finally {
    if (kept === undefined) rmSync(folder, { recursive: true, force: true })
  }
}
