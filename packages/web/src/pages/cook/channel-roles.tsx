import { ChoiceField } from '../../ui/field.tsx'
import { moistChannels, type FeedView } from './feed-state.ts'
import type { ProbeRole } from './live-state.ts'

export type Roles = Readonly<Record<string, ProbeRole>>

const used: Readonly<Record<'temperature' | 'humidity', readonly { value: ProbeRole; label: string }[]>> = {
  temperature: [
    { value: 'core', label: 'a core' },
    { value: 'house', label: 'the house' },
    { value: 'ignore', label: 'not used' },
  ],
  humidity: [
    { value: 'humidity', label: 'humidity of the air' },
    { value: 'ignore', label: 'not used' },
  ],
}

/** What each channel of a feed is: as said, else a humidity where it reads one, else as its name has it. */
export function rolesOf(view: FeedView | undefined, guess: (channel: string) => ProbeRole, said: Roles): Roles {
  const moist = view ? moistChannels(view) : new Set<string>()
  return Object.fromEntries((view?.channels ?? []).map((c) => [c, said[c] ?? (moist.has(c) ? 'humidity' : guess(c))]))
}

/** A choice for each channel; one that reads humidity is that of the air, or nothing. */
export function ChannelRoles({
  view,
  roles,
  house = 'the house',
  onSay,
}: {
  view: FeedView
  roles: Roles
  house?: string
  onSay: (channel: string, role: ProbeRole) => void
}) {
  const moist = moistChannels(view)
  return (
    <div class="stage-row">
      {view.channels.map((c) => (
        <ChoiceField
          key={c}
          label={`${c} is`}
          value={roles[c] ?? 'ignore'}
          options={used[moist.has(c) ? 'humidity' : 'temperature'].map((o) =>
            o.value === 'house' ? { ...o, label: house } : o,
          )}
          onInput={(role) => onSay(c, role)}
        />
      ))}
    </div>
  )
}
