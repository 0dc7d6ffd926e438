import { Worker } from 'node:worker_threads'
import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { canonical, sha256 } from '@forcemeat/ledger'

export type Asked = { readonly id: number; readonly name: string; readonly input: unknown }
export type Answered = {
  readonly id: number
  readonly output?: unknown
  readonly faults?: readonly Fault[]
  readonly broken?: string
}

/** Most answers kept, so that a page read again costs nothing. */
const mostKept = 300

type Waiting = { readonly resolve: (output: unknown) => void; readonly reject: (error: Error) => void }

/**
 * Calculations that take long, on a thread of their own, so that the server answers everybody else meanwhile. One after the other; an
 * answer is kept for the same question.
 */
export function startReckoner() {
  let worker: Worker | undefined
  let next = 0
  let stopped = false
  const waiting = new Map<number, Waiting>()
  const kept = new Map<string, Promise<unknown>>()

  const failAll = (error: Error): void => {
    worker = undefined
    for (const { reject } of waiting.values()) reject(error)
    waiting.clear()
  }
  const hear = ({ id, output, faults, broken }: Answered): void => {
    const one = waiting.get(id)
    waiting.delete(id)
    if (waiting.size === 0) worker?.unref()
    if (faults) one?.reject(new InvalidInput([...faults]))
    else if (broken !== undefined) one?.reject(new Error(broken))
    else one?.resolve(output)
  }
  const hire = (): Worker => {
    const made = new Worker(new URL('./reckoner-worker.ts', import.meta.url))
    made.on('message', hear)
    made.on('error', (error) => failAll(error instanceof Error ? error : new Error(String(error))))
    made.on('exit', () => {
      if (worker === made) failAll(new Error('the thread for long calculations ended'))
    })
    worker = made
    return made
  }
  const ask = (name: string, input: unknown): Promise<unknown> =>
    new Promise((resolve, reject) => {
      if (stopped) {
        reject(new Error('the server is stopping'))
        return
      }
      const thread = worker ?? hire()
      next += 1
      waiting.set(next, { resolve, reject })
      thread.ref()
      thread.postMessage({ id: next, name, input } satisfies Asked)
    })

  return {
    /** The output of a calculation of the registry. @throws InvalidInput */
    run: async <T>(name: string, input: unknown): Promise<T> => {
      const key = `${name} ${sha256(canonical(input))}`
      const known = kept.get(key)
      if (known) return (await known) as T
      const answer = ask(name, input)
      kept.set(key, answer)
      if (kept.size > mostKept) kept.delete(kept.keys().next().value!)
      try {
        return (await answer) as T
      } catch (error) {
        // What went wrong once may go right the next time; only answers are kept.
        kept.delete(key)
        throw error
      }
    },
    stop: (): void => {
      stopped = true
      void worker?.terminate()
    },
  }
}

export type Reckoner = ReturnType<typeof startReckoner>
