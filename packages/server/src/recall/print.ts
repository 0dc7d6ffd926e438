import { Worker } from 'node:worker_threads'
import type { RecallPaper } from '../paper/recall.ts'

/** All a recall report says, as plain data that may be handed to another thread. */
export type RecallAsked = Omit<RecallPaper, 'nameOf'> & { readonly names: Readonly<Record<string, string>> }
export type RecallPrinted = { readonly pdf: Uint8Array<ArrayBuffer> } | { readonly broken: string }

/** A report of so many rows is printed in the time of a few requests: a thread of its own costs more. */
const fewRows = 200

const rowsOf = ({ recall: r }: RecallAsked): number =>
  r.consignments.length + r.batches.length + r.customers.length + r.lots.length + r.behind.lots.length

/** The report on this thread. */
export async function printHere({ names, ...paper }: RecallAsked): Promise<Uint8Array<ArrayBuffer>> {
  const [{ printPdf }, { recallReport }] = await Promise.all([
    import('../paper/print.ts'),
    import('../paper/recall.ts'),
  ])
  return printPdf(recallReport({ ...paper, nameOf: (code) => names[code] ?? code }))
}

const onThread = (asked: RecallAsked): Promise<Uint8Array<ArrayBuffer>> =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./print-worker.ts', import.meta.url), { workerData: asked })
    worker.once('message', (said: RecallPrinted) =>
      'pdf' in said ? resolve(said.pdf) : reject(new Error(said.broken)),
    )
    worker.once('error', (error) => reject(error instanceof Error ? error : new Error(String(error))))
    // After an answer this changes nothing.
    worker.once('exit', () => reject(new Error('the thread that prints a recall ended before it was done')))
  })

/** Long reports are printed one after the other, however many are asked for at once. */
let before: Promise<unknown> = Promise.resolve()

/** A recall report as PDF. A long one is printed on a thread of its own, so that the server answers everybody else meanwhile. */
export function printRecall(asked: RecallAsked): Promise<Uint8Array<ArrayBuffer>> {
  if (rowsOf(asked) <= fewRows) return printHere(asked)
  const printed = before.then(() => onThread(asked))
  before = printed.catch(() => undefined)
  return printed
}
