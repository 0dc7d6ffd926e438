import { InvalidInput } from '@forcemeat/craft/calculation'
import { sha256 } from './canonical.ts'
import type { Store } from './dialect/store.ts'

/** Largest file the record keeps, bytes: a year of a logger at one reading a second with room to spare. */
export const largestFile = 64 * 1024 * 1024

export type StoredFile = { readonly sha256: string; readonly bytes: number }

/** Keep a file byte for byte under its hash; one that is there already is kept once. @throws InvalidInput when too large or empty */
export async function putFile(store: Store, data: Uint8Array, at: string): Promise<StoredFile> {
  if (data.byteLength === 0 || data.byteLength > largestFile)
    throw new InvalidInput([
      { path: 'file', message: `has ${data.byteLength} bytes; allowed: a file of 1 to ${largestFile} bytes` },
    ])
  const name = sha256(data)
  await store.transaction(async (sql) => {
    const [there] = await sql.all('select 1 from file where sha256 = ?', [name])
    if (!there)
      await sql.run('insert into file (sha256, bytes, data, at) values (?, ?, ?, ?)', [name, data.byteLength, data, at])
  })
  return { sha256: name, bytes: data.byteLength }
}

/** The bytes kept under a hash, or nothing. */
export async function getFile(store: Store, name: string): Promise<Uint8Array | undefined> {
  const [row] = await store.sql.all<{ data: Uint8Array }>('select data from file where sha256 = ?', [name])
  return row?.data
}

export const listFiles = (store: Store): Promise<StoredFile[]> =>
  store.sql.all<StoredFile>('select sha256, bytes from file order by sha256')
