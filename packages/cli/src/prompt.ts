import { createInterface } from 'node:readline'

/** First line of standard input, without its end. */
export async function firstLine(): Promise<string> {
  for await (const line of createInterface({ input: process.stdin })) return line
  return ''
}

/** Ask on the terminal without showing what is typed. */
export function askHidden(question: string): Promise<string> {
  const { stdin, stderr } = process
  stderr.write(question)
  stdin.setRawMode(true)
  stdin.resume()
  stdin.setEncoding('utf8')
  return new Promise((resolve, reject) => {
    let typed = ''
    const end = (settle: () => void) => {
      stdin.off('data', read)
      stdin.setRawMode(false)
      stdin.pause()
      stderr.write('\n')
      settle()
    }
    const read = (text: string) => {
      for (const c of text) {
        if (c === '\r' || c === '\n') return end(() => resolve(typed))
        if (c === '\u0003' || c === '\u0004')
          return end(() => reject(Object.assign(new Error('given up'), { code: 'ECANCELED' })))
        typed = c === '\u007F' || c === '\b' ? typed.slice(0, -1) : typed + c
      }
    }
    stdin.on('data', read)
  })
}
