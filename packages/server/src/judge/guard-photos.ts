import type { Fault } from '@forcemeat/craft/calculation'
import type { Ledger } from '@forcemeat/ledger'
import { largestPhoto } from '@forcemeat/ledger/photo-facts'
import { Refusal } from '../http/refusal.ts'

/** Segments a picture needs to be drawn: JFIF (APP0), its colours (APP2, an ICC profile), how they are coded (APP14). */
const plain = new Set([0xe0, 0xe2, 0xee])
const startOfScan = 0xda

/**
 * What in a JPEG is not the picture: a camera's notes (EXIF and XMP, APP1), captions of other programs, comments; or why it cannot be read.
 * A camera notes where it stood; nobody asked for that to be kept.
 * @source ITU-T T.81, Annex B: markers and segments
 */
export function beyondPicture(bytes: Uint8Array): string | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes[bytes.length - 2] !== 0xff || bytes[bytes.length - 1] !== 0xd9) return 'does not end where its picture ends'
  let at = 2
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return 'is no JPEG that can be read'
    const marker = bytes[at + 1]!
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker === startOfScan) return undefined
    if (marker === 0xfe) return 'carries a comment'
    if (marker >= 0xe0 && marker <= 0xef && !plain.has(marker))
      return marker === 0xe1
        ? 'carries the notes of a camera, such as where it was'
        : 'carries notes of another program'
    at += 2 + view.getUint16(at + 2)
  }
  return 'is no JPEG that can be read'
}

/** Photographs are attached as pictures and nothing else. @throws Refusal 400 */
export async function guardPhotos(ledger: Ledger, drafts: readonly unknown[]): Promise<void> {
  const faults: Fault[] = []
  for (const [i, draft] of drafts.entries()) {
    const { kind, body } = (draft ?? {}) as { kind?: unknown; body?: { file?: unknown } | null }
    const file = body?.file
    if (kind !== 'photo.attach' || typeof file !== 'string' || !/^[0-9a-f]{64}$/.test(file)) continue
    const bytes = await ledger.getFile(file)
    // What is not there, too large or no JPEG at all is refused by the record itself.
    if (!bytes || bytes.length > largestPhoto || bytes[0] !== 0xff || bytes[1] !== 0xd8) continue
    const why = beyondPicture(bytes)
    if (why === undefined) continue
    const path = drafts.length === 1 ? 'body.file' : `[${i}].body.file`
    faults.push({ path, message: `${why}; allowed: a JPEG drawn anew, with nothing but its picture` })
  }
  if (faults.length > 0) throw new Refusal(400, faults)
}
