import type { KitchenView } from '../../state/views.ts'
import { useFeed } from '../cook/feed-state.ts'
import { CloseFeed } from '../cook/live-close.tsx'
import { HowToPost, TypedReading } from '../cook/live-readings.tsx'
import type { ProbeRole } from '../cook/live-state.ts'

/** Names of channels that are the air about the product. */
const AIR = /house|room|chamber|air|ambient/i

/** The chamber read as it goes: typed, or posted by a recorder; closed into the record when the souring is over. */
export function ByHand({ batch, live, kitchen }: { batch: string; live: boolean; kitchen: KitchenView }) {
  const { feed } = useFeed(batch)
  const view = feed.value
  const roles = Object.fromEntries(
    (view?.channels ?? []).map((c): [string, ProbeRole] => [
      c,
      AIR.test(c) || view!.channels.length === 1 ? 'house' : 'ignore',
    ]),
  )
  return (
    <details open={live}>
      <summary>Read the chamber as it goes</summary>
      <TypedReading batch={batch} channel="chamber" />
      <HowToPost batch={batch} />
      {view?.open && <CloseFeed batch={batch} feed={view} roles={roles} kitchen={kitchen} purpose="ferment" />}
    </details>
  )
}
