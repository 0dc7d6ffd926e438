import type { CurveRequest, CurveResult } from './curve-job.ts'

let worker: Worker | undefined
let last = 0
const waiting = new Map<number, { resolve: (r: CurveResult) => void; reject: (e: Error) => void }>()

function start(): Worker {
  const made = new Worker(new URL('./curve-worker.ts', import.meta.url), { type: 'module' })
  made.addEventListener('message', (event: MessageEvent<{ id: number; result?: CurveResult; error?: string }>) => {
    const { id, result, error } = event.data
    const asked = waiting.get(id)
    waiting.delete(id)
    if (result) asked?.resolve(result)
    else asked?.reject(new Error(error ?? 'the file could not be read'))
  })
  made.addEventListener('error', (event) => {
    for (const asked of waiting.values()) asked.reject(new Error(event.message || 'the reader stopped'))
    waiting.clear()
    worker = undefined
  })
  return made
}

/** Read and judge a file off the page's own thread. */
export function readCurve(request: CurveRequest): Promise<CurveResult> {
  worker ??= start()
  const id = ++last
  return new Promise((resolve, reject) => {
    waiting.set(id, { resolve, reject })
    worker!.postMessage({ id, request })
  })
}
