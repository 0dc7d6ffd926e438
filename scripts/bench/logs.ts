// Logger files of 1,000,000 and 10,000,000 rows judged, against a general CSV reader that only reads them.
import { spawnSync } from 'node:child_process'
import { createReadStream, createWriteStream, mkdtempSync, rmSync } from 'node:fs'
import { once } from 'node:events'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parse } from 'csv-parse'
import { report, seeded, summary } from './measure.ts'

const START = Date.UTC(2026, 0, 1)

/** A cook and a chill as a logger would write them, a row a second. */
async function writeLog(path: string, rows: number): Promise<void> {
  const out = createWriteStream(path)
  const next = seeded(7)
  out.write('Time;Core (°C);House (°C)\n')
  let text = ''
  for (let i = 0; i < rows; i++) {
    const x = i / rows
    const core = x < 0.4 ? 72 - 64 * Math.exp(-x * 12) : 3 + 69 * Math.exp(-(x - 0.4) * 12)
    const stamp = new Date(START + i * 1000).toISOString().slice(0, 19)
    text += `${stamp};${(core + 0.1 * next()).toFixed(2)};${(x < 0.4 ? 78 : 2).toFixed(1)}\n`
    if (text.length < 1_000_000) continue
    if (!out.write(text)) await once(out, 'drain')
    text = ''
  }
  out.end(text)
  await once(out, 'finish')
}

type Judged = { readonly rows: number; readonly ms: number; readonly peakMb: number }

function judged(path: string): Judged {
  const script = fileURLToPath(new URL('judge-file.ts', import.meta.url))
  const ended = spawnSync(process.execPath, [script, path], { encoding: 'utf8' })
  if (ended.status !== 0) throw new Error(ended.stderr)
  return JSON.parse(ended.stdout) as Judged
}

async function readOnly(path: string): Promise<number> {
  const begun = performance.now()
  const rows = createReadStream(path).pipe(parse({ delimiter: ';' }))
  rows.on('data', () => {})
  await once(rows, 'end')
  return performance.now() - begun
}

export async function run(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'forcemeat-bench-'))
  try {
    const small = join(folder, '1m.csv')
    await writeLog(small, 1_000_000)
    const runs = [judged(small), judged(small), judged(small)]
    report({ measure: 'judge a log of 1,000,000 rows', unit: 'ms', limit: 3000, ...summary(runs.map((r) => r.ms)) })
    report({
      measure: 'memory to judge 1,000,000 rows',
      unit: 'MiB',
      limit: 300,
      ...summary(runs.map((r) => r.peakMb)),
    })
    rmSync(small)
    const large = join(folder, '10m.csv')
    await writeLog(large, 10_000_000)
    const reader = await readOnly(large)
    report({ measure: 'general CSV reader, 10,000,000 rows, read once', unit: 'ms', ...summary([reader]) })
    const big = judged(large)
    report({ measure: 'judge a log of 10,000,000 rows', unit: 'ms', limit: 2 * reader, ...summary([big.ms]) })
    report({ measure: 'memory to judge 10,000,000 rows', unit: 'MiB', limit: 300, ...summary([big.peakMb]) })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
