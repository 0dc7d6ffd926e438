import type { Fault } from '@forcemeat/craft/calculation'

/** A task refused, or a worker that stopped. */
export class TaskRefused extends Error {
  readonly faults: readonly Fault[]
  constructor(faults: readonly Fault[]) {
    super(faults.map((f) => f.message).join('\n'))
    this.name = 'TaskRefused'
    this.faults = faults
  }
}

type Answered<Result> = { readonly id: number; readonly result?: Result; readonly faults?: readonly Fault[] }

export type WorkLine<Request, Result> = {
  /** Resolves with the result; never settles where a later request took its place. */
  readonly ask: (request: Request) => Promise<Result>
  readonly stop: () => void
}

/**
 * One kind of work off the page's thread, the latest request winning: while one is worked on only the newest waits, and what was asked
 * before it is dropped. `stop` ends the work at once.
 */
export function workLine<Request, Result>(newWorker: () => Worker, task: string): WorkLine<Request, Result> {
  type Waiting = { request: Request; done: (r: Result) => void; failed: (e: Error) => void }
  let worker: Worker | undefined
  let running: Waiting | undefined
  let next: Waiting | undefined
  let id = 0

  const start = (): Worker => {
    const made = newWorker()
    made.addEventListener('message', (event: MessageEvent<Answered<Result>>) => {
      if (event.data.id !== id || !running) return
      const { done, failed } = running
      running = undefined
      if (event.data.result) done(event.data.result)
      else failed(new TaskRefused(event.data.faults ?? []))
      send()
    })
    made.addEventListener('error', (event) => {
      running?.failed(new TaskRefused([{ path: '', message: event.message || 'the reckoning stopped' }]))
      running = undefined
      worker?.terminate()
      worker = undefined
      send()
    })
    return made
  }
  const send = (): void => {
    if (running || !next) return
    running = next
    next = undefined
    worker ??= start()
    worker.postMessage({ id: ++id, task, request: running.request })
  }
  return {
    ask: (request) =>
      new Promise((done, failed) => {
        next = { request, done, failed }
        send()
      }),
    stop: () => {
      worker?.terminate()
      worker = undefined
      running = undefined
      next = undefined
    },
  }
}
