import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { KitchenView } from '../../state/views.ts'
import { ChannelRoles, rolesOf, type Roles } from '../cook/channel-roles.tsx'
import { moistChannels, useFeed } from '../cook/feed-state.ts'
import { CloseFeed } from '../cook/live-close.tsx'
import { GrowingFile } from '../cook/live-file.tsx'
import { HowToPost, TypedReading } from '../cook/live-readings.tsx'

/** Names of channels that are the air about the product. */
const AIR = /house|room|chamber|air|ambient/i

const words = {
  ferment: { place: 'chamber', summary: 'Read the chamber as it goes', house: 'the chamber’s air' },
  dry: { place: 'room', summary: 'Read the room as it goes', house: 'the room’s air' },
} as const

/** The air read as it goes: typed, followed in a file, or posted by a recorder; closed into the record when the souring or drying is over. */
export function ByHand({
  batch,
  live,
  kitchen,
  purpose = 'ferment',
}: {
  batch: string
  live: boolean
  kitchen: KitchenView
  purpose?: 'ferment' | 'dry'
}) {
  const { feed } = useFeed(batch)
  const said = useMemo(() => signal<Roles>({}), [batch])
  const view = feed.value
  const { place, summary, house } = words[purpose]
  const warm = (view?.channels.length ?? 0) - (view ? moistChannels(view).size : 0)
  const roles = rolesOf(view, (c) => (AIR.test(c) || warm === 1 ? 'house' : 'ignore'), said.value)
  return (
    <details open={live || view?.open === true}>
      <summary>{summary}</summary>
      <TypedReading batch={batch} channel={place} />
      <GrowingFile batch={batch} offsetMinutes={0} />
      <HowToPost batch={batch} channels={[place, `${place} 2`]} />
      {view?.open && (
        <>
          <ChannelRoles
            view={view}
            roles={roles}
            house={house}
            onSay={(c, role) => (said.value = { ...said.value, [c]: role })}
          />
          <CloseFeed batch={batch} feed={view} roles={roles} kitchen={kitchen} purpose={purpose} />
        </>
      )}
    </details>
  )
}
