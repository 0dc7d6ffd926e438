import type { CookTask, CookWork } from './cook-worker.ts'
import { TaskRefused, workLine } from './line.ts'

export { TaskRefused as CookRefused }

const newWorker = (): Worker => new Worker(new URL('./cook-worker.ts', import.meta.url), { type: 'module' })

/** One kind of a cook's work off the page's thread. */
export const cookLine = <T extends CookTask>(task: T) =>
  workLine<CookWork[T]['request'], CookWork[T]['result']>(newWorker, task)
