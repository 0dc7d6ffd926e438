import type { Store } from '../dialect/store.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

export type Placement = RecordedFact<'batch.place'>
/** A room as it stands, with the batches that hang in it now and since when, the longest there first. */
export type RoomFacts = RecordedFact<'room.add'> & {
  readonly hanging: readonly { readonly batch: string; readonly since: string }[]
}

const inOrder = (a: Placement, b: Placement): number => Date.parse(a.at) - Date.parse(b.at) || a.root - b.root

/** Where batches were put and taken out, in the order of time; of some batches, or of all. */
export const placementsOf = async (store: Store, batches?: readonly string[]): Promise<Placement[]> =>
  (await factsOf(store, 'batch.place', batches)).toSorted(inOrder)

/** Where each batch hangs: its last placement in time, where that names a room. */
export function hangingNow(placements: readonly Placement[]): Map<string, { room: string; since: string }> {
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
