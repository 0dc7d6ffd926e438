import type { Store } from '../dialect/store.ts'
import type { Fact } from '../facts.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

/** A batch put into a room, or taken out of every room. `at` is when it was done, not when it was recorded. */
export type Placement = Fact<'batch.place'> & { readonly seq: number; readonly root: number; readonly by: string }
/** A room as it stands, with the batches that hang in it now and since when, the longest there first. */
export type RoomFacts = RecordedFact<'room.add'> & {
  readonly hanging: readonly { readonly batch: string; readonly since: string }[]
}

const inOrder = (a: Placement, b: Placement): number => Date.parse(a.at) - Date.parse(b.at) || a.root - b.root

/** Where batches were put and taken out, in the order of time. */
export async function placementsOf(store: Store): Promise<Placement[]> {
  const rows = await store.read
    .selectFrom('fact as f')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .select(['e.text', 'f.seq', 'f.root'])
    .where('f.kind', '=', 'batch.place')
    .execute()
  return rows
    .map(({ text, seq, root }): Placement => {
      const { body, by } = JSON.parse(text) as { body: Fact<'batch.place'>; by: string }
      return { ...body, seq, root, by }
    })
    .toSorted(inOrder)
}

/** Where each batch hangs: its last placement in time, where that names a room. */
export function hangingNow(
  placements: readonly Pick<Placement, 'batch' | 'room' | 'at'>[],
): Map<string, { room: string; since: string }> {
  const now = new Map<string, { room: string; since: string }>()
  for (const { batch, room, at } of placements) {
    const there = now.get(batch)
    if (room === undefined) now.delete(batch)
    else if (there?.room !== room) now.set(batch, { room, since: at })
  }
  return now
}

export async function roomsOf(store: Store): Promise<RoomFacts[]> {
  const [rooms, placements] = await Promise.all([factsOf(store, 'room.add'), placementsOf(store)])
  const hanging = [...hangingNow(placements)]
  return rooms.map((room) => ({
    ...room,
    hanging: hanging
      .filter(([, h]) => h.room === room.room)
      .map(([batch, { since }]) => ({ batch, since }))
      .toSorted((a, b) => Date.parse(a.since) - Date.parse(b.since)),
  }))
}
