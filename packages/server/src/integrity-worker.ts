import { parentPort, workerData } from 'node:worker_threads'
import { verifyFile } from '@forcemeat/ledger'
import { brokenAt } from './integrity.ts'

const { file } = workerData as { readonly file: string }
try {
  const because = brokenAt(await verifyFile(file))
  parentPort!.postMessage(because === undefined ? {} : { because })
} catch (error) {
  parentPort!.postMessage({ trouble: error instanceof Error ? error.message : String(error) })
}
