import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import { factsOf, recorded, type RecordedFact } from './facts-of.ts'

type Photo = RecordedFact<'photo.attach'>

export const photosOf = async (store: Store, of: string, id: string): Promise<Photo[]> =>
  (await factsOf(store, 'photo.attach', id)).filter((p) => p.of === of)

/** The standing fact that attaches a photograph, by its file. */
export async function photoOf(store: Store, sha256: string): Promise<Photo | undefined> {
  const row = await store.read
    .selectFrom('about as a')
    .innerJoin('fact as f', 'f.seq', 'a.seq')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .select(['e.text', 'e.hash', 'f.root'])
    .where('a.id', '=', sha256)
    .where('a.type', '=', 'file')
    .where('f.kind', '=', 'photo.attach')
    .limit(1)
    .executeTakeFirst()
  return row && recorded<'photo.attach'>(fromText(row.text, row.hash), row.root)
}
