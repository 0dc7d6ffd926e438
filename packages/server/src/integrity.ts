import { Worker } from 'node:worker_threads'
import { RecordError, type Ledger, type VerifyReport } from '@forcemeat/ledger'
import type { Log } from './http/log.ts'

/** Records up to this many entries are walked before the server listens; longer ones beside it, on a thread of their own. */
export const mostAtStart = 200_000

/** Whether the chain of the record holds, as far as this server has looked. */
export type Integrity =
  | { readonly chain: 'holds' | 'being-checked' }
  | { readonly chain: 'broken'; readonly because: string }

/** What is wrong with the chain, by its first entry that does not hold; nothing where it holds. */
export function brokenAt(report: Pick<VerifyReport, 'broken' | 'damage'>): string | undefined {
  const { broken, damage } = report
  if (broken) return `entry ${broken.seq} is the first that does not hold: ${broken.because}`
  return damage.length > 0 ? damage.slice(0, 3).join('; ') : undefined
}

const damaged = (file: string, because: string): RecordError =>
  new RecordError('damaged', `${file}: the record is damaged (${because}). Nothing was repaired; restore a backup.`)

/**
 * Walk the chain before anybody works on it. Answers whether it is too long for that, and has to be walked beside.
 * @throws RecordError naming the first entry that does not hold
 */
export async function verifyAtStart(ledger: Ledger, most: number = mostAtStart): Promise<boolean> {
  if ((await ledger.head()).entries > most) return true
  const because = brokenAt(await ledger.verify({ pages: false, files: false }))
  if (because !== undefined) throw damaged(ledger.file, because)
  return false
}

/** The same record, which takes nothing more once its chain was found broken. Reading goes on. */
export function refuseWrites(ledger: Ledger): {
  readonly ledger: Ledger
  readonly integrity: () => Integrity
  readonly found: (because: string | undefined) => void
} {
  let state: Integrity = { chain: 'being-checked' }
  const unlessBroken =
    <A extends unknown[], T>(work: (...args: A) => Promise<T>) =>
    async (...args: A): Promise<T> => {
      if (state.chain === 'broken') throw damaged(ledger.file, state.because)
      return work(...args)
    }
  return {
    ledger: {
      ...ledger,
      append: unlessBroken(ledger.append),
      putFile: unlessBroken(ledger.putFile),
      importFrom: unlessBroken(ledger.importFrom),
      rebuildViews: unlessBroken(ledger.rebuildViews),
    },
    integrity: () => state,
    found: (because) => {
      state = because === undefined ? { chain: 'holds' } : { chain: 'broken', because }
    },
  }
}

/** Walk the chain of a long record on a thread of its own while the server answers; says what it found, and logs what is wrong. */
export function verifyBeside(
  file: string,
  log: Log,
  found: (because: string | undefined) => void,
): { readonly stop: () => void } {
  const worker = new Worker(new URL('./integrity-worker.ts', import.meta.url), { workerData: { file } })
  worker.unref()
  const tell = (message: string): void => log({ at: new Date().toISOString(), level: 'error', message })
  worker.on('message', ({ because, trouble }: { because?: string; trouble?: string }) => {
    if (trouble !== undefined) return tell(`the chain of the record could not be checked: ${trouble}`)
    found(because)
    if (because !== undefined) tell(`the record is damaged: ${because}. No write is taken any more; restore a backup.`)
  })
  worker.on('error', (error: unknown) =>
    tell(`the chain of the record could not be checked: ${error instanceof Error ? error.message : String(error)}`),
  )
  return { stop: () => void worker.terminate() }
}
