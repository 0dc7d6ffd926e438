import type { LogFormat } from './format.ts'

/** Encoding by byte order mark, or by the zero bytes that two-byte text shows in digits and separators. */
export function encodingOf(head: Uint8Array): LogFormat['encoding'] {
  if (head[0] === 0xff && head[1] === 0xfe) return 'utf-16le'
  if (head[0] === 0xfe && head[1] === 0xff) return 'utf-16be'
  let [even, odd] = [0, 0]
  const n = Math.min(head.length, 400)
  for (let i = 0; i < n; i++) {
    if (head[i] !== 0) continue
    if (i % 2 === 0) even++
    else odd++
  }
  if (odd > n / 4) return 'utf-16le'
  return even > n / 4 ? 'utf-16be' : 'utf-8'
}

/** Text of the head of a file; bytes that are not UTF-8 are read as Latin-1, where the degree sign then is. */
export function decodeHead(head: Uint8Array, encoding: LogFormat['encoding']): string {
  const even = encoding === 'utf-8' ? head : head.subarray(0, head.length - (head.length % 2))
  if (encoding !== 'utf-8') return new TextDecoder(encoding).decode(even)
  // A cut inside a character at the end is not a fault of the file.
  const text = new TextDecoder('utf-8').decode(head, { stream: true })
  return text.includes('\uFFFD') ? new TextDecoder('latin1').decode(head) : text
}

/** One byte a character, for the byte reader: what is beyond Latin-1 becomes a question mark; odd bytes wait for the next chunk. */
export function createNarrower(encoding: LogFormat['encoding']) {
  let waiting = -1
  const low = encoding === 'utf-16le' ? 0 : 1
  return (chunk: Uint8Array): Uint8Array => {
    if (encoding === 'utf-8') return chunk
    const out = new Uint8Array((chunk.length + (waiting < 0 ? 0 : 1)) >> 1)
    let n = 0
    for (const byte of chunk) {
      if (waiting < 0) waiting = byte
      else {
        const [lo, hi] = low === 0 ? [waiting, byte] : [byte, waiting]
        // A degree sign is one byte here too.
        if (!(lo === 0xff && hi === 0xfe) && !(lo === 0xfe && hi === 0xff)) out[n++] = hi === 0 ? lo : 63
        waiting = -1
      }
    }
    return out.subarray(0, n)
  }
}
