import type { DryTask, DryWork } from './dry-worker.ts'
import { workLine } from './line.ts'

const newWorker = (): Worker => new Worker(new URL('./dry-worker.ts', import.meta.url), { type: 'module' })

/** One kind of a drying's work off the page's thread. */
export const dryLine = <T extends DryTask>(task: T) =>
  workLine<DryWork[T]['request'], DryWork[T]['result']>(newWorker, task)
