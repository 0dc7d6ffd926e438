import { channelsOf, unitOf } from './reading.ts'
import type { Feed } from './store.ts'

/** A feed, or the part of it whose channels share their instants, as a logger's file. */
export type FeedFile = { readonly channels: readonly string[]; readonly text: string }

/** Channels read at the very same instants share a file, whatever they read: in a file of its own no channel leaves holes in another. */
export function filesOf(feed: Feed): FeedFile[] {
  const reads = channelsOf(feed.readings)
  const byChannel = Map.groupBy(feed.readings, (r) => r.channel)
  const groups = Map.groupBy(byChannel.keys(), (channel) =>
    byChannel
      .get(channel)!
      .map((r) => r.t)
      .toSorted((a, b) => a - b)
      .join(),
  )
  return [...groups.values()].map((channels) => {
    const columns = channels.map((c) => new Map(byChannel.get(c)!.map((r) => [r.t, r.value])))
    const instants = [...columns[0]!.keys()].toSorted((a, b) => a - b)
    const rows = instants.map((t) => [stamp(feed.origin + t), ...columns.map((c) => String(c.get(t)))].join(';'))
    return {
      channels,
      text: [
        ['Time', ...channels].join(';'),
        ['', ...channels.map((c) => unitOf[reads.get(c)!])].join(';'),
        ...rows,
        '',
      ].join('\n'),
    }
  })
}

/** In UTC and said so: a clock that is changed for summer then never looks like a gap. */
const stamp = (ms: number): string => new Date(ms).toISOString().replace('.000Z', 'Z')
