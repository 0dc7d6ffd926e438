import { parentPort, workerData } from 'node:worker_threads'
import { printHere, type RecallAsked, type RecallPrinted } from './print.ts'

const answer = (said: RecallPrinted, move: ArrayBuffer[] = []): void => parentPort!.postMessage(said, move)
try {
  const pdf = await printHere(workerData as RecallAsked)
  answer({ pdf }, [pdf.buffer])
} catch (error) {
  answer({ broken: error instanceof Error ? error.message : String(error) })
}
