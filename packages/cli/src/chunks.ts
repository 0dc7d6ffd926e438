import { open } from 'node:fs/promises'

const CHUNK_BYTES = 1 << 20

/**
 * The bytes of a file, a piece at a time in one buffer that is filled again: each piece must be used before the next is asked for, and
 * memory stays flat however long the file is. @throws the system's error where the file cannot be opened or read
 */
export async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path)
  try {
    const buffer = new Uint8Array(CHUNK_BYTES)
    for (;;) {
      const { bytesRead } = await file.read(buffer, 0, CHUNK_BYTES)
      if (bytesRead === 0) return
      yield buffer.subarray(0, bytesRead)
    }
  } finally {
    await file.close()
  }
}
