import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { get, post, Refused } from '../../api.ts'
import { connected, feedNews } from '../../state/live.ts'
import type { SentReading } from '../../work/growing-file.ts'

/** A reading of a channel: a temperature or a relative humidity, never both. */
export type FeedReading = { readonly minute: number; readonly channel: string } & (
  | { readonly tempC: number; readonly rhPct?: undefined }
  | { readonly rhPct: number; readonly tempC?: undefined }
)
export type FeedView = {
  readonly open: boolean
  /** Instant of minute 0. */
  readonly origin?: string
  readonly channels: readonly string[]
  readonly count: number
  readonly readings: readonly FeedReading[]
}

/** The channels of a feed that read humidity. */
export const moistChannels = ({ readings }: Pick<FeedView, 'readings'>): ReadonlySet<string> =>
  new Set(readings.flatMap((r) => (r.rhPct === undefined ? [] : [r.channel])))

const none: FeedView = { open: false, channels: [], count: 0, readings: [] }
/** Most readings the server takes at once. */
const MOST_AT_ONCE = 5000

/** The readings of a batch, read on as they come; only new ones travel. */
export function useFeed(batch: string) {
  const feed = useMemo(() => signal<FeedView | undefined>(undefined), [batch])
  const error = useMemo(() => signal<Refused | undefined>(undefined), [batch])
  const news = feedNews.value
  const mine = news?.batch === batch ? news : undefined
  useEffect(() => {
    let stale = false
    const have = feed.peek()
    const after = mine !== undefined && have?.open ? have.count : 0
    get<FeedView>(`/api/feed/${encodeURIComponent(batch)}?after=${after}`).then(
      (view) => {
        if (stale) return
        error.value = undefined
        const same = have?.origin === view.origin && after > 0
        feed.value = view.open
          ? { ...view, readings: same ? [...have!.readings.slice(0, after), ...view.readings] : view.readings }
          : none
      },
      (e: unknown) => {
        if (!stale) error.value = e as Refused
      },
    )
    return () => {
      stale = true
    }
  }, [batch, mine, connected.value])
  return { feed, error }
}

/** Send readings on, in parts the server takes. @throws Refused */
export async function sendReadings(batch: string, readings: readonly SentReading[]): Promise<number> {
  let added = 0
  for (let i = 0; i < readings.length; i += MOST_AT_ONCE) {
    const answer = await post<{ added: number }>(
      `/api/feed/${encodeURIComponent(batch)}/readings`,
      readings.slice(i, i + MOST_AT_ONCE),
    )
    added += answer.added
  }
  return added
}
