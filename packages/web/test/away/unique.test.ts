import { afterEach, expect, it, vi } from 'vitest'

afterEach(() => vi.unstubAllGlobals())

it('makes keys of version 4 (RFC 9562) where a page without TLS is given only random bytes', async () => {
  const { crypto } = globalThis
  vi.stubGlobal('crypto', { getRandomValues: (b: Uint8Array<ArrayBuffer>) => crypto.getRandomValues(b) })
  await import('../../src/away/unique.ts')
  const keys = Array.from({ length: 50 }, () => globalThis.crypto.randomUUID())
  for (const key of keys) expect(key).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
  expect(new Set(keys).size).toBe(50)
})
