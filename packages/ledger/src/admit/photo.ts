import { largestPhoto } from '../photo-facts.ts'
import { mustBeKnown, type Admission } from './report.ts'

/** First bytes of every JPEG file. */
const jpeg = [0xff, 0xd8, 0xff]

export async function photoHolds(a: Admission<'photo.attach'>): Promise<void> {
  const { sql, draft, fault } = a
  const { file, of, id } = draft.body
  await mustBeKnown(a, 'body.id', of, id)
  const [found] = await sql.all<{ bytes: number; head: Uint8Array }>(
    'select bytes, substr(data, 1, 3) as head from file where sha256 = ?',
    [file],
  )
  if (!found) fault('body.file', 'is not a file of the record; allowed: the SHA-256 of a file put there before')
  else if (found.bytes > largestPhoto)
    fault('body.file', `has ${found.bytes} bytes; allowed: a photograph of up to ${largestPhoto}`)
  else if (!jpeg.every((b, i) => found.head[i] === b))
    fault('body.file', 'is not a JPEG; allowed: a photograph in JPEG')
}
