import { signal } from '@preact/signals'

/** Counts up whenever the record has grown; pages read again when it changes. */
export const recordVersion = signal(0)

/** Whether the live line to the server is up. */
export const connected = signal(true)

/** The last word of readings of a batch that cooks: how many its feed holds now. */
export const feedNews = signal<{ readonly batch: string; readonly count: number } | undefined>(undefined)

/** Listen for new entries; several in a burst make one refresh. */
export function listen(): void {
  let pending: ReturnType<typeof setTimeout> | undefined
  const source = new EventSource('/api/live')
  source.addEventListener('open', () => {
    // What happened while the line was down is caught up by one refresh.
    if (!connected.value) recordVersion.value += 1
    connected.value = true
  })
  source.addEventListener('error', () => {
    connected.value = false
  })
  source.addEventListener('feed', (event: MessageEvent<string>) => {
    feedNews.value = JSON.parse(event.data) as { batch: string; count: number }
  })
  source.addEventListener('entry', () => {
    pending ??= setTimeout(() => {
      pending = undefined
      recordVersion.value += 1
    }, 60)
  })
}
