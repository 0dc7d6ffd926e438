import { parentPort } from 'node:worker_threads'
import { findCalculation } from '@forcemeat/craft'
import { InvalidInput } from '@forcemeat/craft/calculation'
import type { Asked, Answered } from './reckoner.ts'

parentPort!.on('message', ({ id, name, input }: Asked) => {
  const answer = (rest: Omit<Answered, 'id'>): void => parentPort!.postMessage({ id, ...rest })
  try {
    answer({ output: findCalculation(name)!.run(input) })
  } catch (error) {
    if (error instanceof InvalidInput) answer({ faults: [...error.faults] })
    else answer({ broken: error instanceof Error ? error.message : String(error) })
  }
})
