/** Browsers give `randomUUID` only to pages with TLS or of the machine itself; random bytes they give to all. */
if (typeof crypto.randomUUID !== 'function') {
  const hex = (b: number): string => b.toString(16).padStart(2, '0')
  Object.defineProperty(crypto, 'randomUUID', {
    value: (): string => {
      const bytes = crypto.getRandomValues(new Uint8Array(16))
      // Version 4, variant 1, as RFC 9562 has them.
      bytes[6] = (bytes[6]! & 0x0f) | 0x40
      bytes[8] = (bytes[8]! & 0x3f) | 0x80
      const all = [...bytes].map(hex).join('')
      return [all.slice(0, 8), all.slice(8, 12), all.slice(12, 16), all.slice(16, 20), all.slice(20)].join('-')
    },
  })
}

export type Unique = ReturnType<Crypto['randomUUID']>
