import { once } from 'node:events'

/** Reader gone (`forcemeat … | head`): there is nobody left to tell, so stop without a word. */
export function endQuietlyWhenUnread(): void {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0)
      throw error
    })
}

/** To standard output, waiting where the reader is slow. */
export async function print(text: string): Promise<void> {
  if (!process.stdout.write(text.endsWith('\n') ? text : `${text}\n`)) await once(process.stdout, 'drain')
}

/** To standard error: progress, hints, faults. */
export const say = (text: string): void => {
  process.stderr.write(`${text}\n`)
}

/** Progress on standard error, on one line where it is a screen, and not more than a few times a second. */
export function progress(label: string): (done: number, total?: number) => void {
  let last = 0
  return (done, total) => {
    const now = performance.now()
    if (!process.stderr.isTTY || now - last < 200) return
    last = now
    const share = total ? ` ${Math.floor((100 * done) / total)} %` : ` ${done.toLocaleString('en')}`
    process.stderr.write(`\r${label}${share}\u001B[K`)
    if (total !== undefined && done >= total) process.stderr.write('\r\u001B[K')
  }
}
